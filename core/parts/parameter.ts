/** Short ways to write a parameter, and the parameters that many kinds share word for word. */
import type { Dimension } from "../quantity/kinds.ts";
import type { ParameterSpec } from "./define.ts";

interface Words {
  readonly title: string;
  readonly explanation: string;
  readonly where: string;
  readonly default?: string;
  readonly rating?: true;
}

/** A number with a unit. `least` and `most` in SI. */
export const quantity = (
  dimension: Dimension,
  words: Words & { readonly least?: number; readonly most?: number; readonly whole?: boolean },
): ParameterSpec => ({ dimension, ...words });

/** One of a few words. */
export const choice = (choices: readonly string[], words: Words): ParameterSpec => ({ choices, ...words });

export const NO_YES = ["no", "yes"] as const;
export const YES_NO = ["yes", "no"] as const;

export const contactVoltage = quantity("voltage", {
  title: "Contact voltage",
  explanation: "The highest direct voltage that the open contact may hold off; above it the arc does not go out.",
  where: "Printed on the housing beside the contact's current, or in its data sheet under direct current (DC).",
  least: 0,
});

export const contactCurrent = quantity("current", {
  title: "Contact current",
  explanation:
    "The direct current that the contact may switch and carry for good; above it the contact burns or welds.",
  where: "Printed on the housing, or in its data sheet under direct current (DC): it is lower than the one for AC.",
  least: 0,
});

export const voltageMax = quantity("voltage", {
  title: "Highest voltage",
  explanation: "The highest voltage that the part stands for good; above it, it fails, often at once.",
  where: "Rating plate or data sheet, often written as a range such as 9-16 V.",
  least: 0,
});

export const needsPolarity = choice(NO_YES, {
  title: "Needs polarity",
  explanation: "Whether the part must have plus on + and minus on -; electronics do, a filament does not.",
  where: "A plus sign or a red lead on the part; parts with electronics or light-emitting diodes need it.",
});

export const poles = quantity("count", {
  title: "Poles",
  explanation: "How many separate contacts move together.",
  where: "Count the pairs of contact terminals.",
  default: "1",
  least: 1,
  most: 4,
  whole: true,
});

export const positions = quantity("count", {
  title: "Positions",
  explanation: "How many places for a wire it has.",
  where: "Count the screws, studs or pins.",
  least: 1,
  most: 64,
  whole: true,
});

export const isolated = (words: { readonly explanation: string }): ParameterSpec =>
  choice(YES_NO, {
    title: "Isolated",
    explanation: words.explanation,
    where: "Data sheet; or with everything unplugged, measure between the two minus terminals: isolated reads open.",
  });

/** Small round count of a parameter, or what it is without one. */
export const countOf = (value: number | undefined, otherwise: number): number =>
  value === undefined ? otherwise : Math.max(0, Math.round(value));

/** A stated yes or no; undefined where nobody said. */
export function yesNo(word: string | undefined): boolean | undefined {
  return word === undefined ? undefined : word === "yes";
}
