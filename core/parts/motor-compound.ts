/** Compound motor: shunt field and series field. */
import { separateField } from "./motor-separate-field.ts";

export const motorCompound = separateField({
  kind: "motor-compound",
  title: "Compound motor",
  words: ["compound-wound motor", "brushed motor with two fields"],
  explanation: "A brushed motor with a shunt field and a series field: between a series and a separately excited one.",
  seriesField: true,
});
