export { here } from "../exchange/here.ts";
