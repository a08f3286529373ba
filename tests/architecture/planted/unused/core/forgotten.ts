export const nobodyImportsThis = 1;
