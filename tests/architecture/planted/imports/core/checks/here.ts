export const here = "checks";
