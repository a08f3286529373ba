/** Edits of a wire's own fields: another insulation, another lug, grommets in the walls. */
import { setWireField } from "../../project/commands/set-wire-field.ts";
import type { Wire } from "../../project/document.ts";
import type { Kelvin, Metre, Volt } from "../../quantity/kinds.ts";
import { plainNumber } from "../../quantity/print.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";

export function insulateFor(wires: readonly Wire[], volts: Volt): Remedy {
  const text = atLeast(volts, "V");
  const changes = wires.map(({ id, insulation }) => ({
    wire: id,
    fields: { insulation: { ...insulation, volts: text } },
  }));
  return remedy("insulate-for-volts", `Use insulation for at least ${text} for ${named(wires)}`, (edit) =>
    edit.run(setWireField, { changes }),
  );
}

export function insulateForHeat(wire: Wire, most: Kelvin): Remedy {
  const text = `${plainNumber(Math.round(most - 273.15))} C`;
  const changes = [{ wire: wire.id, fields: { insulation: { ...wire.insulation, temperature: text } } }];
  return remedy(
    "insulate-for-heat",
    `Use insulation for ${text.replace(" C", " °C")} for wire ${wire.number}`,
    (edit) => edit.run(setWireField, { changes }),
  );
}

/** Up to the next centimetre. */
export function lengthen({ id, number }: Wire, least: Metre): Remedy {
  const length = `${plainNumber(Math.ceil(least * 100 - 1e-6) / 100)} m`;
  return remedy("lengthen", `Make wire ${number} ${length} long`, (edit) =>
    edit.run(setWireField, { changes: [{ wire: id, fields: { length } }] }),
  );
}

export function fitLug(wire: Wire, side: 0 | 1, stud: string, at: string): Remedy {
  const [a = null, b = null] = wire.lugs ?? [];
  const lugs = side === 0 ? ([stud, b] as const) : ([a, stud] as const);
  return remedy("fit-lug", `Fit a lug for ${stud} on wire ${wire.number} at ${at}`, (edit) =>
    edit.run(setWireField, { changes: [{ wire: wire.id, fields: { lugs } }] }),
  );
}

export function fitGrommets({ id, number }: Wire): Remedy {
  return remedy("fit-grommets", `Fit grommets where wire ${number} passes a wall`, (edit) =>
    edit.run(setWireField, { changes: [{ wire: id, fields: { grommets: true } }] }),
  );
}

function named(wires: readonly Wire[]): string {
  const numbers = wires.map(({ number }) => number);
  return numbers.length === 1 ? `wire ${numbers.join("")}` : `wires ${numbers.join(", ")}`;
}
