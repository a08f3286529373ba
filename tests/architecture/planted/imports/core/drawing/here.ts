export const here = "drawing";
