import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Role } from "../../parts/element.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place } from "../define.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";

/** By what a coil may be held in: all that carries a current. */
const CARRIES: readonly Role[] = [
  "conductor",
  "contact",
  "protection",
  "shunt",
  "diode",
  "driver",
  "resistor",
  "coil",
  "load",
];

export const heldByBackfeed = defineCheck({
  id: "held-by-backfeed",
  group: "switching",
  title: "Contactor stays in after key-off",
  about:
    "Drives, turns the key off, and looks whether a contactor stays in that would be open if the vehicle had stood parked all along: then something that the contactor itself feeds holds its coil. How long charged capacitors hold it for a moment is not seen in this steady look.",
  severities: ["DANGER"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    held: {
      title: "{part} stays in after the key is turned off: {way} feed {volts} back to its coil.",
      why: "The key no longer stops the vehicle, and the pack stays connected while everybody believes it is off.",
      mend: "Feed the coil of {part} through the key alone: move what feeds it backwards ahead of the key, or block it with a diode or a relay contact.",
    },
  },
  reasons: {
    unrated:
      "Whether {part} lets go after key-off cannot be told, as its coil voltage, pick-up or drop-out is not stated.",
  },
  run(analysis, report) {
    const driving = analysis.state("driving");
    const parked = analysis.state("parked");
    const after = analysis.parkedAfterDriving;
    for (const at of coilsOf(analysis)) {
      if (at.part.kind.traits.contactor !== true) continue;
      const place = partPlace(at.part);
      if (driving === undefined || parked === undefined || after === undefined || !isIn(driving, at)) {
        report.doesNotApply(place);
        continue;
      }
      const missing = missingOf(at);
      if (missing.length > 0) {
        report.notChecked({ where: [place], reason: "unrated", facts: { part: { place } }, missing });
      } else if (!isIn(after, at)) report.passes(place);
      else if (isIn(parked, at)) report.doesNotApply(place);
      else {
        const way = wayBack(analysis, after, at);
        const volts = Math.abs(after.between(at.plus, at.minus));
        report.fails({
          message: "held",
          facts: {
            part: { place },
            way: { places: way.length > 0 ? way : [terminalPlace(at.part, at.coil.plus)] },
            volts: { value: volts, dimension: "voltage" },
          },
          severity: "DANGER",
          where: [place, terminalPlace(at.part, at.coil.plus)],
          touches: way,
          states: [after.name],
          value: volts,
          ...(at.coil.dropOut === undefined ? {} : { limit: at.coil.dropOut }),
          unit: "V",
        });
      }
    }
  },
});

function isIn(state: SolvedState, { part }: CoilAt): boolean {
  return state.partStates[part.index]?.["coil"] === true;
}

function missingOf({ part, coil }: CoilAt): readonly MissingField[] {
  const field = (parameter: string): MissingField => ({ part: part.part.id, parameter });
  if (coil.nominal === undefined) return [field("coilVoltage")];
  return [
    ...(coil.pickUp === undefined ? [field("pickUp")] : []),
    ...(coil.dropOut === undefined ? [field("dropOut")] : []),
  ];
}

/** Parts from the higher end of the coil back to the nearest source that gives current. */
function wayBack(analysis: Analysis, state: SolvedState, at: CoilAt): readonly Place[] {
  const fed = state.between(at.plus, at.minus) >= 0 ? at.plus : at.minus;
  const own = analysis.network.branches.findIndex(({ part, role }) => part === at.part && role === "coil");
  const sources = analysis.network.branches.filter(
    ({ role, index }) => role === "source" && (state.currents[index] ?? 0) > 1e-3,
  );
  const ways = sources
    .map(({ a }) => analysis.path(state, fed, a, { through: CARRIES, without: own < 0 ? [] : [own] }))
    .filter((way) => way !== undefined)
    .sort((a, b) => a.length - b.length);
  return branchPlaces(ways[0] ?? []).filter((place) => "part" in place);
}
