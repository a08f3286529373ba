export { here } from "../checks/here.ts";
