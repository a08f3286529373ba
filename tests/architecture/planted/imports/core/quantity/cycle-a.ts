export { b } from "./cycle-b.ts"; export const a = 1;
