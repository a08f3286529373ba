export const proof = 1;
