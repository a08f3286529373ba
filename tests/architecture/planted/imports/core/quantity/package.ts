export { build } from "esbuild";
