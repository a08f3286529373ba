export const view = 1;
