export const here = "studies";
