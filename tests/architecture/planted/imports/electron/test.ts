export { proof } from "../tests/proof.ts";
