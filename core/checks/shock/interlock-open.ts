import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Enclosure } from "../../project/document.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { workingAt, workingOfPart } from "../words/class-b.ts";
import { partPlace } from "../words/places.ts";

/** What pushes a micro-switch that watches something that opens. */
const WATCHES = new Set(["cover", "door"]);

/** Contactor contacts that are closed while driving and carry class B: an interlock opens at least one of them. */
function closedContactors(analysis: Analysis, driving: SolvedState): readonly Branch[] {
  return analysis.network.branches.filter(({ index, part, role, a }) => {
    if (role !== "contact" || part?.kind.traits.contactor !== true) return false;
    const element = driving.elements[index];
    if (element?.type !== "contact" || !element.closed) return false;
    const { voltageClass } = workingAt(analysis, a);
    return voltageClass === "B" || voltageClass === "unstated";
  });
}

/** With this control moved, does a contactor of the traction circuit let go? */
function opens(analysis: Analysis, driving: SolvedState, closed: readonly Branch[], part: string, to: string): boolean {
  const changed = analysis.solveChanged(driving, { set: { [part]: to } });
  return closed.some(({ index }) => {
    const element = changed.elements[index];
    return element?.type === "contact" && !element.closed;
  });
}

interface Look {
  readonly analysis: Analysis;
  readonly report: Report;
  readonly driving: SolvedState;
  readonly closed: readonly Branch[];
}

const enclosureOf = ({ network }: Analysis, { part }: NetworkPart): Enclosure | undefined =>
  network.project.enclosures.find(({ id }) => id === part.enclosure);

function lookAtConnector({ analysis, report, driving, closed }: Look, part: NetworkPart): void {
  const place = partPlace(part);
  const working = workingOfPart(analysis, part);
  const enclosure = enclosureOf(analysis, part);
  if (working.voltageClass === "none" || working.voltageClass === "A") {
    report.doesNotApply(place);
  } else if (enclosure?.toolClosed === true || opens(analysis, driving, closed, part.part.id, "unplugged")) {
    if (working.voltageClass === "B") report.passes(place);
    else report.doesNotApply(place);
  } else if (enclosure !== undefined && enclosure.toolClosed !== false) {
    const missing = [{ enclosure: enclosure.id, field: "toolClosed" }];
    report.notChecked({
      where: [place],
      reason: "tool",
      facts: { part: { place }, enclosure: enclosure.name },
      missing,
    });
  } else if (working.voltageClass === "unstated") {
    report.notChecked({ where: [place], reason: "voltage", facts: { part: { place } }, missing: working.missing });
  } else {
    report.fails({
      message: "connector",
      severity: "NOTICE",
      facts: { part: { place }, volts: { value: working.volts, dimension: "voltage" } },
      where: [place],
      value: working.volts,
      unit: "V",
    });
  }
}

function lookAtEnclosure({ analysis, report, driving, closed }: Look, enclosure: Enclosure): void {
  const inside = analysis.network.parts
    .filter(({ part }) => part.enclosure === enclosure.id)
    .sort((a, b) => compareNatural(a.part.id, b.part.id));
  // A connector in it has a finding of its own.
  const all = inside
    .filter(({ kind }) => kind.traits.connector !== true)
    .filter((part) => ["B", "unstated"].includes(workingOfPart(analysis, part).voltageClass));
  const [live] = all;
  if (live === undefined) return;
  const place = partPlace(live);
  const working = workingOfPart(analysis, live);
  const facts = {
    enclosure: enclosure.name,
    part: { place },
    volts: { value: working.volts, dimension: "voltage" },
  } as const;
  const watched = inside.some(
    (part) =>
      WATCHES.has(part.values.choice("actuator") ?? "") && opens(analysis, driving, closed, part.part.id, "free"),
  );
  if (enclosure.toolClosed === true || watched) {
    if (working.voltageClass === "B") report.passes(...all.map(partPlace));
    else report.doesNotApply(place);
  } else if (enclosure.toolClosed !== false) {
    const missing = [{ enclosure: enclosure.id, field: "toolClosed" }];
    report.notChecked({ where: [place], reason: "tool", facts, missing });
  } else if (working.voltageClass === "unstated") {
    report.notChecked({ where: [place], reason: "voltage", facts, missing: working.missing });
  } else {
    report.fails({
      message: "cover",
      severity: "NOTICE",
      facts,
      where: [place],
      value: working.volts,
      unit: "V",
      variant: enclosure.id,
    });
  }
}

export const interlockOpen = defineCheck({
  id: "interlock-open",
  group: "shock",
  title: "Plug or cover in no interlock loop",
  about:
    "Looks at connectors on the traction circuit above 60 V, and at enclosures around it that open without a tool: it pulls the plug or opens the cover while driving and looks whether a contactor of the traction circuit lets go. " +
    "A cover is watched by a micro-switch (actuator cover or door) that is drawn inside its enclosure. A connector in an enclosure that opens with a tool only needs none.",
  severities: ["NOTICE"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: "every connector that is drawn into the traction circuit is one more that needs an interlock",
    contact: true,
    rename: true,
  },
  without: {},
  messages: {
    connector: {
      title: "{part} carries up to {volts} and can be pulled without a contactor opening.",
      why: "Whoever pulls it under load draws an arc in the hand, and both halves may stay live afterwards.",
      mend: "Lead the feed of the main contactor's coil through two more pins of {part}, so that it lets go as the plug comes off.",
    },
    cover: {
      title:
        "The enclosure {enclosure} around {part} opens without a tool, and no contactor opens with it; up to {volts} stand inside.",
      why: "Somebody who looks inside while the vehicle is on has live parts in front of the fingers.",
      mend: "Close the enclosure with screws, or fit a micro-switch to its cover and lead the feed of the main contactor's coil through it.",
    },
  },
  reasons: {
    tool: "{part} is in the enclosure {enclosure}; whether that opens only with a tool is not stated.",
    voltage:
      "Whether {part} carries more than 60 V, and so needs an interlock, cannot be told while the chemistry of the battery is not stated.",
  },
  run(analysis, report) {
    const driving = analysis.state("driving");
    if (driving === undefined || tractionPacks(analysis).length === 0) return;
    const look: Look = { analysis, report, driving, closed: closedContactors(analysis, driving) };
    for (const part of analysis.network.parts) {
      if (part.kind.traits.connector === true) lookAtConnector(look, part);
    }
    for (const enclosure of analysis.network.project.enclosures) lookAtEnclosure(look, enclosure);
  },
});
