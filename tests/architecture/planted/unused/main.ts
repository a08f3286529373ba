import { used } from "./core/part.ts";
console.log(used);
