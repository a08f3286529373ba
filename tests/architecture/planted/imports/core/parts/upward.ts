export { here } from "../project/here.ts";
