import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { endPlaces } from "../words/places.ts";
import { ampacityAtSize, wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import { unstatedRanges, wireCurrents } from "../../studies/words/wire-currents.ts";
import type { WireCurrent } from "../../studies/words/wire-currents.ts";
import { carriesLoad, thickerWire } from "../remedies/thicker-wire.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

export const conductorOverloaded = defineCheck({
  id: "conductor-overloaded",
  group: "conductors",
  title: "Wire too thin for its current",
  about:
    "Compares the steady current of every wire in every operating state with what it may carry for good where it lies: by size and class of insulation, less in an engine space and (from 50 V) in a bundle. While driving, the motor's or the controller's continuous current counts, whichever is less; a short burst above it does not.",
  severities: ["WARNING"],
  source: { text: "33 CFR 183.425, table 5 (30 C, not bundled), with its notes", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    overloaded: {
      title: "{wire} carries {current} in {states}; it may carry {ampacity} continuously.",
      why: "An overloaded wire gets hotter until its insulation softens and chars, and no fuse sized for the load prevents that.",
      mend: "Use a wire that carries at least {current}, or insulation of a higher temperature class, or move part of the load to a wire of its own.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated, so that it is not known what it may carry.",
    small: "{wire} is thinner than any that the table of ampacities lists.",
    insulation: "The insulation of {wire} is of a lower class than the table of ampacities lists.",
    range: "Whether {wire} is overloaded depends on figures that are only known as a range.",
    drive:
      "How much current the drive takes through {wire} is not known: neither controller nor motor states it, or the drive never runs.",
    limit: "How much current the output that feeds {wire} delivers at most is not stated.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
  ],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    for (const [conductor, current] of wireCurrents(analysis)) look(analysis, conductor, current, verdicts, report);
    verdicts.report(analysis, report);
  },
});

function look(
  analysis: Analysis,
  conductor: Conductor,
  { states, most, carries, drive, unlimited }: WireCurrent,
  verdicts: WireVerdicts,
  report: Report,
): void {
  if (!carries) return;
  const ampacity = wireAmpacity(analysis, conductor);
  if (!ampacity.known) {
    verdicts.notChecked(conductor, ampacity.why, ampacity.missing);
    return;
  }
  const overloaded = [...new Set(states.flatMap(({ state, low }) => (low > ampacity.high ? [state] : [])))];
  if (overloaded.length > 0) {
    verdicts.fails(conductor);
    const wire = { wire: conductor.wire.id };
    report.fails({
      message: "overloaded",
      facts: {
        wire: { place: wire },
        current: { value: most, dimension: "current" },
        ampacity: { value: ampacity.low, dimension: "current" },
        states: { states: overloaded },
      },
      severity: "WARNING",
      where: [wire],
      states: overloaded,
      value: most,
      limit: ampacity.low,
      unit: "A",
      source: ampacity.source,
      remedies: thickerWire(
        conductor.wire,
        (size) => ampacityAtSize(analysis, conductor, size).known && carriesLoad(analysis, conductor, size),
      ),
      touches: endPlaces(analysis.network, conductor.wire),
      // Wires one behind the other carry the same current: whoever mends one mends them all.
      cause: `${Number(most.toPrecision(3))} ${overloaded.join(" ")}`,
    });
    return;
  }
  if (drive !== undefined) verdicts.notChecked(conductor, "drive", drive);
  else if (unlimited.length > 0) verdicts.notChecked(conductor, "limit", unlimited);
  else if (most > ampacity.low) verdicts.notChecked(conductor, "range", rangeOf(analysis, ampacity.missing));
  else verdicts.passes(conductor);
}

function rangeOf(analysis: Analysis, missing: readonly MissingField[]): readonly MissingField[] {
  return missing.length > 0 ? missing : unstatedRanges(analysis);
}
