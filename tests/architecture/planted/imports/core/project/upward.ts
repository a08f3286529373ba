export { here } from "../network/here.ts";
