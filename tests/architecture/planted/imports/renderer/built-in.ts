export { sep } from "node:path";
