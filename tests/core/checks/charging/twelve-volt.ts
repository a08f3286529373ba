/** The cart with a converter, for the tests on its 12 V side. */
import { cart, SMALL } from "../switching/vehicle.ts";
import type { Choices } from "../switching/vehicle.ts";
import type { Drawing } from "../../../harness/drawing.ts";

const CONVERTER = {
  isolated: "yes",
  outputCurrentMax: "15 A",
  enableInput: "none",
  reverseLeakage: "1 mA",
  inputCapacitance: "100 uF",
} as const;

/** T2 from where the test says ("Q1:load": behind the main contactor) to G90 and the body. */
export function withConverter(
  from: string,
  converter: Readonly<Record<string, string>> = {},
  choices: Choices = {},
): Drawing {
  return cart({ ...choices, controller: { logicCurrent: "100 mA", ...choices.controller } })
    .part("T2", "dc-dc-converter", { ...CONVERTER, ...converter })
    .part("F4", "fuse", { rating: "40 A" })
    .wires(SMALL, `${from} - T2:in+`, "T2:in- - T1:B-", "T2:out+ - F4:1", "F4:2 - G90:+", "T2:out- - X9:stud");
}

/** A lamp from a terminal to the body. */
export const lampAt = (sketch: Drawing, name: string, plus: string, power: string): Drawing =>
  sketch
    .part(name, "lamp", { voltage: "12 V", power, needsPolarity: "no" })
    .wires(SMALL, `${plus} - ${name}:+`, `${name}:- - X9:stud`);
