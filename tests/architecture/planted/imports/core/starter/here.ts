export const here = "starter";
