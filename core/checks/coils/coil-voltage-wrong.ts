import type { Volt } from "../../quantity/kinds.ts";
import { COIL_MOST, TWELVE_VOLT_RANGE, TWELVE_VOLT_SOURCE } from "../../standards/coils.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Source } from "../define.ts";
import { coilsOf, feedersOf, statesFed, withOutputOn } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { FEED } from "../words/joined.ts";
import { terminalPlace } from "../words/places.ts";

const STATED: Source = { text: "Coil voltage range as stated on the drawing", known: "seen" };
const PRACTICE: Source = {
  text: "Pick-up voltage to 133 % of nominal, as 16 V is of a 12 V coil; common practice",
  known: "none",
};

interface Range {
  readonly least: Volt;
  readonly most: Volt;
  readonly leastSource: Source;
  readonly mostSource: Source;
}

export const coilVoltageWrong = defineCheck({
  id: "coil-voltage-wrong",
  group: "coils",
  title: "Coil on the wrong voltage",
  about:
    "Looks at every coil of a relay or contactor in each state in which closed contacts and conductors join both its ends to a battery or supply, also with each control flipped once, or as if a controller's output that never feeds it were on, and holds its steady voltage against the range of the coil. A coil that is fed only through a lamp or another coil, and the drop of its wires at a low battery, are not looked at here.",
  severities: ["WARNING"],
  source: TWELVE_VOLT_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    high: {
      title: "The coil of {part} gets {volts}; it is made for at most {limit}.",
      why: "A coil on too high a voltage overheats and burns out, and its contact then drops out or sticks when it is needed.",
      mend: "Fit a coil made for {volts}, or feed it from a supply that gives the voltage it is made for.",
    },
    low: {
      title: "The coil of {part} gets {volts}; it is made for at least {limit}.",
      why: "A coil on too low a voltage pulls its contact in weakly or not at all, so that the contact arcs and welds.",
      mend: "Fit a coil made for {volts}, or feed it from a supply that gives the voltage it is made for.",
    },
  },
  reasons: {
    unrated: "The coil of {part} gets {volts}; for which voltage it is made is not stated.",
  },
  foldsUnder: ["supply-reversed", "block-reversed", "source-shorted"],
  run(analysis, report) {
    for (const at of coilsOf(analysis)) {
      const place = terminalPlace(at.part, at.coil.plus);
      const asDriven = statesFed(analysis, at).metal;
      const fed =
        asDriven.length > 0 || !at.wired
          ? asDriven.map((state) => ({ state, name: state.name }))
          : withOutputOn(analysis, at);
      const volts = fed
        .map(({ state, name }) => ({ state, name, across: Math.abs(state.between(at.plus, at.minus)) }))
        .filter(({ across }) => !Number.isNaN(across));
      const highest = volts.reduce((most, { across }) => Math.max(most, across), 0);
      const lowest = volts.reduce((least, { across }) => Math.min(least, across), Infinity);
      if (volts.length === 0) {
        report.doesNotApply(place);
        continue;
      }
      const part = { place: { part: at.part.part.id } } as const;
      const { range, missing } = rangeOf(at);
      if (range === undefined) {
        const facts = { part, volts: { value: highest, dimension: "voltage" } } as const;
        report.notChecked({ where: [place], reason: "unrated", facts, missing });
        continue;
      }
      const high = highest > range.most;
      const low = lowest < range.least;
      if (!high && !low) {
        report.passes(place);
        continue;
      }
      const value = high ? highest : lowest;
      const limit = high ? range.most : range.least;
      const outside = volts.filter(({ across }) => (high ? across > range.most : across < range.least));
      const worst = outside.find(({ across }) => across === value)?.state;
      report.fails({
        message: high ? "high" : "low",
        facts: { part, volts: { value, dimension: "voltage" }, limit: { value: limit, dimension: "voltage" } },
        severity: "WARNING",
        where: [place, terminalPlace(at.part, at.coil.minus)],
        touches: (worst === undefined ? [] : feedersOf(analysis, worst, at, FEED)).map(
          (feeder): Place => ({ part: feeder.part.id }),
        ),
        states: outside.map(({ name }) => name),
        value,
        limit,
        unit: "V",
        source: high ? range.mostSource : range.leastSource,
      });
    }
  },
});

/** As stated, else 9-16 V for a 12 V coil and pick-up to 133 % for any other. */
function rangeOf({ part, coil }: CoilAt): {
  readonly range: Range | undefined;
  readonly missing: readonly MissingField[];
} {
  const field = (parameter: string): MissingField => ({ part: part.part.id, parameter });
  const twelve = coil.nominal === 12;
  const least = coil.least ?? (twelve ? TWELVE_VOLT_RANGE[0] : coil.pickUp);
  const most =
    coil.most ?? (twelve ? TWELVE_VOLT_RANGE[1] : coil.nominal === undefined ? undefined : COIL_MOST * coil.nominal);
  if (least === undefined || most === undefined) {
    return { range: undefined, missing: [field(coil.nominal === undefined ? "coilVoltage" : "pickUp")] };
  }
  const unstated = twelve ? TWELVE_VOLT_SOURCE : PRACTICE;
  return {
    range: {
      least,
      most,
      leastSource: coil.least === undefined ? unstated : STATED,
      mostSource: coil.most === undefined ? unstated : STATED,
    },
    missing: [],
  };
}
