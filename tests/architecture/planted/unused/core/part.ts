export const used = 1;
export const nobodyUsesThis = 2;
