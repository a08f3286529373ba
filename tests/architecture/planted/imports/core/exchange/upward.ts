export { here } from "../starter/here.ts";
