/** Words that fields of several things share: what can be typed, yes and no, names of zones. */
import type { Dimension } from "../../../core/quantity/kinds.ts";
import type { Zone, ZoneKind } from "../../../core/project/document.ts";
import type { ParameterSpec } from "../../../core/parts/define.ts";
import type { FieldModel } from "../../controls/Field.tsx";

export const HINTS: Readonly<Record<Dimension, string>> = {
  voltage: "V",
  current: "A",
  resistance: "ohm",
  power: "W",
  energy: "J, kWh",
  capacitance: "uF",
  inductance: "mH",
  length: "m, cm, ft",
  size: "mm2 or AWG",
  time: "s, ms, min",
  charge: "Ah",
  temperature: "°C",
  "temperature-difference": "K",
  torque: "Nm",
  ratio: "%",
  count: "number",
};

export function hintOf(spec: ParameterSpec): string | undefined {
  if ("dimension" in spec) return HINTS[spec.dimension];
  if ("either" in spec) return spec.either.map((dimension) => HINTS[dimension]).join(" or ");
  return "curve" in spec ? "2:100 s; 5:0.5 s" : undefined;
}

const YES_NO = [
  { value: "yes", label: "yes" },
  { value: "no", label: "no" },
];

type Answer = boolean | null | undefined;

interface YesNo {
  readonly choices: FieldModel["choices"];
  readonly canBeUnknown: true;
  readonly value: FieldModel["value"];
  readonly set: FieldModel["set"];
}

/** A question with the answers yes, no, not known, or none yet. */
export function yesNo(value: FieldModel["value"], set: (answer: Answer) => string | undefined): YesNo {
  return {
    choices: YES_NO,
    canBeUnknown: true,
    value,
    set: (text) => set(typeof text === "string" ? text === "yes" : text),
  };
}

export const answer = (given: Answer): string | null | undefined =>
  typeof given === "boolean" ? (given ? "yes" : "no") : given;

/** What several things state in one field. */
export function together<Thing>(
  things: readonly Thing[],
  read: (thing: Thing) => string | null | undefined,
): FieldModel["value"] {
  const [first, ...others] = things.map(read);
  return others.every((other) => other === first) ? first : { mixed: true };
}

export const ZONE_WORDS: Readonly<Record<ZoneKind, string>> = {
  outside: "outside",
  engine: "engine bay",
  passenger: "passenger room",
  luggage: "luggage room",
  underfloor: "under the floor",
  "battery-box": "battery box",
  other: "other",
};

export const zoneName = ({ name, kind }: Zone): string => (name === undefined || name === "" ? ZONE_WORDS[kind] : name);
