export { here } from "../geometry/here.ts";
