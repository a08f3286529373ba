export { here } from "../parts/here.ts";
