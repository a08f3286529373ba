export const here = "exchange";
