import type { Analysis } from "../../circuit/analysis.ts";
import { neighbouringTerminals } from "../../circuit/neighbouring.ts";
import type { NetworkPart } from "../../network/network.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { Facts, Place, Report, Source } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { voltageRange } from "../words/voltage-range.ts";
import type { VoltageRange } from "../words/voltage-range.ts";

const RATING: Source = { text: "Voltage between pins as stated on the drawing", known: "seen" };

interface Pair extends VoltageRange {
  readonly a: Place;
  readonly b: Place;
}

/** Neighbouring pins of one row between which anything stands, the worst first. */
function livePins(analysis: Analysis, part: NetworkPart): readonly Pair[] {
  const { project, netOfNode, wiresAt } = analysis.network;
  const isPin = (id: string): boolean =>
    part.terminals.some((terminal) => terminal.id === id && terminal.form === "pin" && terminal.row !== undefined);
  return neighbouringTerminals(project, part)
    .filter((pair) => pair.every((id) => isPin(id) && wiresAt([part.part.id, id]).length > 0))
    .flatMap(([one, other]): Pair[] => {
      const [a, b] = [part.nodes.get(one), part.nodes.get(other)];
      if (a === undefined || b === undefined || netOfNode[a] === netOfNode[b]) return [];
      const range = voltageRange(analysis, a, b);
      return range.volts > 0 ? [{ ...range, a: terminalPlace(part, one), b: terminalPlace(part, other) }] : [];
    })
    .sort((one, other) => (Math.abs(other.volts - one.volts) > 1e-6 ? other.volts - one.volts : 0));
}

function factsOf(pair: Pair, limit: number): Facts {
  return {
    a: { place: pair.a },
    b: { place: pair.b },
    volts: { value: pair.volts, dimension: "voltage" },
    limit: { value: limit, dimension: "voltage" },
  };
}

function lookAtPart(analysis: Analysis, report: Report, part: NetworkPart): void {
  const place = partPlace(part);
  const isConnector = part.kind.traits.connector === true;
  const [worst] = livePins(analysis, part);
  if (worst === undefined) {
    report.doesNotApply(place);
    return;
  }
  const rating = isConnector ? part.values.number("pinVoltage") : undefined;
  const limit = rating ?? CLASS_B_DC;
  const facts = factsOf(worst, limit);
  if (worst.most <= limit) {
    report.passes(place);
  } else if (worst.least <= limit) {
    report.notChecked({ where: [place], reason: "chemistry", facts, missing: worst.missing });
  } else if (!isConnector && part.part.face === undefined) {
    report.notChecked({ where: [place], reason: "face", facts, missing: [{ part: part.part.id, parameter: "face" }] });
  } else {
    report.fails({
      message: rating !== undefined ? "rating" : isConnector ? "unrated" : "own",
      severity: isConnector ? "WARNING" : "NOTICE",
      facts,
      where: [worst.a, worst.b],
      states: worst.states,
      value: worst.volts,
      limit,
      unit: "V",
      source: rating === undefined ? PRACTICE_SOURCE : RATING,
    });
  }
}

export const powerPinsAdjacent = defineCheck({
  id: "power-pins-adjacent",
  group: "shock",
  title: "High voltage between neighbouring pins",
  about:
    "Measures the highest voltage between pins that stand side by side in one row of a connector, and holds it against what the connector is stated to stand between pins, or against 60 V where nothing is stated. " +
    "Pins of a part's own plug are looked at where the part's face is stated; above 60 V between two of them is a notice.",
  severities: ["WARNING", "NOTICE"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    rating: {
      title:
        "Up to {volts} stand between the neighbouring pins {a} and {b}; the connector is made for {limit} between pins.",
      why: "Damp, dust or a bent pin bridges the gap, and the pack discharges through the plug in somebody's hand.",
      mend: "Use a connector made for this voltage between its pins, or leave enough pins free between the two.",
    },
    unrated: {
      title:
        "Up to {volts} stand between the neighbouring pins {a} and {b}, above {limit}, and nobody stated that the connector is made for it.",
      why: "Damp, dust or a bent pin bridges the gap, and the pack discharges through the plug in somebody's hand.",
      mend: "Leave a pin free between the two, use a connector made for this voltage, or state what it stands between its pins.",
    },
    own: {
      title: "In one plug up to {volts} stand between the neighbouring pins {a} and {b}, above {limit}.",
      why: "A bent pin, damp or a tester's probe that slips bridges the two and destroys what hangs on them.",
      mend: "Never probe or part this plug with the pack connected, and keep damp out of it; if the maker offers another pin for one of the two, use that.",
    },
  },
  reasons: {
    chemistry:
      "Whether more than {limit} stand between {a} and {b} cannot be told: the chemistry of the battery is not stated.",
    face: "Up to {volts} stand between {a} and {b}; whether the two are neighbours in the plug nobody stated.",
  },
  run(analysis, report) {
    for (const part of analysis.network.parts) {
      if (part.terminals.some(({ form, row }) => form === "pin" && row !== undefined)) {
        lookAtPart(analysis, report, part);
      }
    }
  },
});
