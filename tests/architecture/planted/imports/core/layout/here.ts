export const here = "layout";
