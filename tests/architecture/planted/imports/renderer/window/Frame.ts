export const Frame = 1;
