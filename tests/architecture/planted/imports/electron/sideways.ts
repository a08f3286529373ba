export { view } from "../renderer/view.ts";
