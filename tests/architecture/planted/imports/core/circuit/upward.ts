export { here } from "../studies/here.ts";
