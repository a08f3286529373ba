/** Separately excited motor: the field is fed by itself, usually by the controller. */
import { separateField } from "./motor-separate-field.ts";

export const motorSeparatelyExcited = separateField({
  kind: "motor-separately-excited",
  title: "Separately excited motor",
  words: ["shunt motor", "sepex motor", "field-controlled motor", "cart motor"],
  explanation:
    "A brushed motor whose field is fed by itself; without its field it runs away or stalls on full current.",
  seriesField: false,
});
