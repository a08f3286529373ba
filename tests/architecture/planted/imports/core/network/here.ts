export const here = "network";
