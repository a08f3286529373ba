export const here = "quantity";
