export { page } from "../electron/page.ts";
