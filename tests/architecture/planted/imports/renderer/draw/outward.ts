export { Frame } from "../window/Frame.ts";
