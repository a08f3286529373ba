export const here = "geometry";
