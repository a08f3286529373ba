export const now = Date.now();
export const chance = Math.random();
