export { here } from "../layout/here.ts";
