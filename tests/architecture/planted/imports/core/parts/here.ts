export const here = "parts";
