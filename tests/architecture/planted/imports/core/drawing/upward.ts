export { here } from "../documents/here.ts";
