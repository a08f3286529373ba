import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { SLOW_RELEASE_SOURCE } from "../../standards/coils.ts";
import { defineCheck } from "../define.ts";
import { fasterRelease } from "../remedies/faster-release.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { brokenPlaces, endStates, whenFact } from "../words/in-time.ts";
import { joinedIn } from "../words/joined.ts";
import { LEAST_BROKEN, openingsOf } from "../words/openings.ts";
import { partPlace } from "../words/places.ts";

/** A diode of no more than this is a plain one; above it is one with a zener in series. */
const PLAIN_DROP = 3;

export const coilReleaseSlow = defineCheck({
  id: "coil-release-slow",
  group: "coils",
  title: "Contactor released slowly by a plain diode",
  about:
    "Looks at contactors whose contacts open while current flows in some transition, and whether a plain diode lies across their coil, built in or beside it. Such a diode is right for relays and for contactors that open without current; then nothing is said. A zener, a diode with a zener, or a varistor lets go fast.",
  severities: ["NOTICE"],
  source: SLOW_RELEASE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    slow: {
      title: "{part} has to open {current} {when} and has a plain diode across its coil, {diode}.",
      why: "A plain diode lets the coil's current linger, so that the contacts part slowly, five to ten times later than they could, and burn more at each opening under load.",
      mend: "Replace the diode by a zener, a diode with a zener in series, or a varistor of one to two times the coil voltage.",
    },
  },
  reasons: {
    suppression:
      "Whether a plain diode inside {part} makes it open slowly is not stated; it has to open {current} {when}.",
    broken: "What contactors have to open {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["diode-reversed"],
  run(analysis, report) {
    const { contacts, broken } = openingsOf(analysis);
    const coils = coilsOf(analysis).filter(({ part, wired }) => wired && part.kind.traits.contactor === true);
    if (coils.length === 0) {
      report.doesNotApply();
      return;
    }
    if (broken.length > 0) {
      const parts = brokenPlaces(
        broken,
        coils.map(({ part }) => part),
      );
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    }
    for (const at of coils) {
      const { part } = at;
      const place = partPlace(part);
      const breaks = contacts
        .filter((each) => each.part === part)
        .flatMap((each) => each.breaks)
        .filter(({ current }) => Math.abs(current) >= LEAST_BROKEN);
      const diodes = plainDiodes(analysis, at);
      const suppression = at.coil.suppression;
      if (breaks.length === 0) {
        if (broken.length === 0) report.doesNotApply(place);
        continue;
      }
      const transitions = breaks.map(({ transition }) => transition);
      const current = Math.max(...breaks.map((each) => Math.abs(each.current)));
      const facts = {
        part: { place },
        current: { value: current, dimension: "current" },
        when: whenFact(transitions),
      } as const;
      if (suppression === "diode" || diodes.length > 0) {
        const places = diodes.length > 0 ? diodes.map(partPlace) : [place];
        report.fails({
          message: "slow",
          facts: { ...facts, diode: diodes.length > 0 ? { places } : "built in" },
          severity: "NOTICE",
          where: [place, ...(diodes.length > 0 ? places : [])],
          states: endStates(transitions),
          remedies: fasterRelease(analysis.network, at, diodes),
        });
      } else if (suppression === undefined && Object.hasOwn(part.kind.parameters, "suppression")) {
        report.notChecked({
          where: [place],
          reason: "suppression",
          facts,
          missing: [{ part: part.part.id, parameter: "suppression" }],
        });
      } else if (broken.length === 0) report.passes(place);
    }
  },
});

/** Diodes beside the coil that lie straight across it, plain end on its minus side or not. */
function plainDiodes(analysis: Analysis, { plus, minus }: CoilAt): readonly NetworkPart[] {
  const [any] = analysis.states;
  if (any === undefined) return [];
  const metal = joinedIn(analysis, any);
  const [from, to] = [metal.find(plus), metal.find(minus)];
  if (from === to) return [];
  const found = analysis.network.branches.flatMap(({ role, index, part, a, b }) => {
    const element = any.elements[index];
    if (role !== "diode" || element?.type !== "diode" || element.drop > PLAIN_DROP || part === undefined) return [];
    const [x, y] = [metal.find(a), metal.find(b)];
    return (x === from && y === to) || (x === to && y === from) ? [part] : [];
  });
  return [...new Set(found)].filter((part) => part.kind.coils === undefined);
}
