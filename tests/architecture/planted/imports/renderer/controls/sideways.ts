export { Frame } from "../draw/outward.ts";
