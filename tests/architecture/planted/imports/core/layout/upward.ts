export { here } from "../circuit/here.ts";
