export { Frame } from "../Frame.ts";
