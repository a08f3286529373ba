export { here } from "../drawing/here.ts";
