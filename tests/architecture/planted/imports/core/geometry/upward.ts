export { here } from "../standards/here.ts";
