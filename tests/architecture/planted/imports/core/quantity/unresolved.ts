export { gone } from "./gone.ts";
