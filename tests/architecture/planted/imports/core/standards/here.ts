export const here = "standards";
