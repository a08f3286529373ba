export { here } from "../quantity/here.ts";
