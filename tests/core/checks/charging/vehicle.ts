/** The workshop's cart with a charger, for the tests on charging: leads through a fuse and ahead of the disconnect, unless said otherwise. */
import { cart, SMALL } from "../switching/vehicle.ts";
import type { Choices } from "../switching/vehicle.ts";
import type { Drawing } from "../../../harness/drawing.ts";

export const CHARGER = {
  mainsPlug: "yes",
  isolated: "yes",
  chemistry: "flooded-lead",
  outputVoltageMax: "118 V",
  outputCurrentMax: "10 A",
  outputCapacitance: "10 uF",
  inhibitFollows: "plugged",
} as const;

/** Cart without a charger's wires: T3 and its fuse F3 stand beside it. */
export function withCharger(charger: Readonly<Record<string, string>> = {}, choices: Choices = {}): Drawing {
  return cart(choices)
    .part("F3", "fuse", { rating: "15 A" })
    .part("T3", "charger", { ...CHARGER, ...charger });
}

/** Charger straight on the pack of `blocks`, behind F3. */
export function chargerOnPack(charger: Readonly<Record<string, string>> = {}, choices: Choices = {}): Drawing {
  const plus = `G${choices.blocks ?? 8}:+`;
  return withCharger(charger, choices).wires(SMALL, `${plus} - F3:1`, "F3:2 - T3:out+", "T3:out- - G1:-");
}

/** Charger on the bus between disconnect and main contactor, behind F3. */
export function chargerBehindDisconnect(
  charger: Readonly<Record<string, string>> = {},
  choices: Choices = {},
): Drawing {
  return withCharger(charger, choices).wires(SMALL, "F1:2 - F3:1", "F3:2 - T3:out+", "T3:out- - G1:-");
}
