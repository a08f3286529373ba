export const here = "project";
