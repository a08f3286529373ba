export { a } from "./cycle-a.ts"; export const b = 2;
