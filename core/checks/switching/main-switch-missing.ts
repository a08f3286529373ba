import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { drivePairs, fedBetween, packVolts, poweredContacts, unstatedDrivers } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const mainSwitchMissing = defineCheck({
  id: "main-switch-missing",
  group: "switching",
  title: "No main switch between pack and drive",
  about:
    "Parks the vehicle with the key off and looks whether closed contacts and wires still join both poles of the pack to the supply of a controller, or of a motor without one. What a pre-charge resistor still lets through is another check's. It sees what the contacts are told to do, not one that has welded.",
  severities: ["DANGER"],
  source: { text: "Common practice: the pack leaves the drive when the key is off", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  foldsUnder: ["enable-bypasses-key"],
  messages: {
    none: {
      title: "With the key off {part} stays connected to the pack ({volts}): nothing opens its supply.",
      why: "A failed controller, a chafed wire or a slip of the hand can then move the vehicle or feed a fire while it stands unattended.",
      mend: "Put a main contactor into the lead from the pack to {pair}, with its coil fed through the key.",
    },
    bypassed: {
      title:
        "With the key off {part} stays connected to the pack ({volts}) although {contacts} is open: a way leads past it.",
      why: "A failed controller, a chafed wire or a slip of the hand can then move the vehicle or feed a fire while it stands unattended.",
      mend: "Find the wire that leads past {contacts} and take it off, so that all current of the pack to {pair} goes through it.",
    },
    closed: {
      title: "With the key off {part} stays connected to the pack ({volts}) through {contacts}.",
      why: "A main contactor that does not open with the key protects nobody: the drive stays powered while the vehicle is left alone.",
      mend: "Feed the coil of {contacts}, and whatever drives it, through the key, so that turning the key off opens this path.",
    },
  },
  reasons: {
    neverClosed:
      "Whether anything opens the supply of {part} when parked cannot be told, as the contacts ahead of it close in no state.",
  },
  run(analysis, report) {
    const parked = analysis.state("parked");
    if (parked === undefined) return;
    for (const at of drivePairs(analysis)) {
      const fed = fedBetween(analysis, closedFeed(analysis, parked), at);
      if (fed === undefined) {
        if (at.states.length > 0) report.passes(at.place);
        else {
          report.notChecked({
            where: [at.place],
            reason: "neverClosed",
            facts: { part: { place: partPlace(at.part) } },
            missing: unstatedDrivers(analysis),
          });
        }
        continue;
      }
      const closed = poweredContacts(analysis, parked, fed);
      const bypassed = closed.length > 0 ? [] : bypassedContactors(analysis, parked, at);
      const contacts = [...closed, ...bypassed].map(partPlace);
      report.fails({
        message: bypassed.length > 0 ? "bypassed" : closed.length > 0 ? "closed" : "none",
        facts: {
          part: { place: partPlace(at.part) },
          pair: { place: at.place },
          volts: { value: packVolts(at.packs), dimension: "voltage" },
          contacts: { places: contacts },
        },
        severity: "DANGER",
        where: [at.place, ...contacts],
        touches: otherPlaces(at),
        states: [parked.name],
        value: packVolts(at.packs),
        unit: "V",
      });
    }
  },
});

/** Open contactors with both sides on one terminal of the drive: something joins them. */
function bypassedContactors(
  analysis: Analysis,
  parked: SolvedState,
  { part, pair }: TractionPair,
): readonly NetworkPart[] {
  const feed = closedFeed(analysis, parked);
  const own = [pair.plus, pair.minus].flatMap((id) => part.nodes.get(id) ?? []).map((node) => feed.island(node));
  const found = analysis.network.branches.flatMap(({ index, a, b, part: of }) => {
    const element = parked.elements[index];
    const isOpen = element?.type === "contact" && !element.closed && element.movedBy === "coil";
    return of !== undefined && isOpen && feed.island(a) === feed.island(b) && own.includes(feed.island(a)) ? [of] : [];
  });
  return [...new Set(found)];
}

function otherPlaces({ part, pair }: TractionPair): readonly Place[] {
  return [{ part: part.part.id, terminal: pair.minus }];
}
