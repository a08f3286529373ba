export const here = "circuit";
