import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { Place, Report } from "../define.ts";
import { coilsOf, feedersThroughResistors, statesFed } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { everyState } from "../words/every-state.ts";
import { FEED } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

export const relayChatter = defineCheck({
  id: "relay-chatter",
  group: "switching",
  title: "Relay that cannot settle",
  about:
    "Looks for relays, contactors and electronics that find no resting place in a state, because closing takes away what made them close, and for coils that are to pull in from rest on a voltage between drop-out and pick-up. It looks at every operating state and at each control flipped once, as steady states: bouncing of a fraction of a second is not seen.",
  severities: ["WARNING"],
  source: { text: "Pick-up 70 % and drop-out 10-20 % of coil voltage unless stated, common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    circle: {
      title: "No rest for {parts} in {states}: what is switched on takes away its own feed.",
      why: "The contact opens and closes many times a second under load, so that it arcs, welds or burns away.",
      mend: "Feed the coil of {parts} from ahead of what it switches, or let a second contact hold it in.",
    },
    between: {
      title: "The coil of {part} gets {volts}, between its drop-out and the {limit} at which it pulls in.",
      why: "On such a voltage the contact hangs in the air or closes without pressure, and arcs and welds under load.",
      mend: "Find what takes the voltage on the way to the coil of {part}: a bad joint, a long thin wire, a resistor or a load on the same feed.",
    },
  },
  reasons: {
    unrated: "Whether {part} pulls in cannot be told, as its coil voltage, pick-up or drop-out is not stated.",
  },
  foldsUnder: [
    "coil-voltage-wrong",
    "coil-weak",
    "coil-sneak-path",
    "supply-reversed",
    "block-reversed",
    "source-shorted",
  ],
  run(analysis, report) {
    const told = circles(analysis, report);
    for (const at of coilsOf(analysis)) if (!told.has(at.part)) between(analysis, at, report);
  },
});

/** Parts that go round in a circle, those that do so together in one finding. */
function circles(analysis: Analysis, report: Report): ReadonlySet<NetworkPart> {
  let groups: { readonly parts: ReadonlySet<NetworkPart>; readonly states: readonly string[] }[] = [];
  for (const { chatter, name } of everyState(analysis)) {
    if (chatter.length === 0) continue;
    const met = groups.filter(({ parts }) => chatter.some((part) => parts.has(part)));
    const parts = new Set([...chatter, ...met.flatMap((group) => [...group.parts])]);
    const states = [...met.flatMap((group) => group.states), name];
    groups = [...groups.filter((group) => !met.includes(group)), { parts, states }];
  }
  for (const { parts, states } of groups) {
    const places = [...parts].sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1))).map(partPlace);
    report.fails({
      message: "circle",
      facts: { parts: { places }, states: { states } },
      severity: "WARNING",
      where: places,
      states,
    });
  }
  return new Set(groups.flatMap(({ parts }) => [...parts]));
}

function between(analysis: Analysis, at: CoilAt, report: Report): void {
  const { part, coil } = at;
  const place = terminalPlace(part, coil.plus);
  const fed = statesFed(analysis, at).throughResistors;
  if (fed.length === 0) {
    report.doesNotApply(place);
    return;
  }
  const { pickUp, dropOut } = coil;
  if (pickUp === undefined || dropOut === undefined) {
    const parameters =
      coil.nominal === undefined
        ? ["coilVoltage"]
        : [...(pickUp === undefined ? ["pickUp"] : []), ...(dropOut === undefined ? ["dropOut"] : [])];
    report.notChecked({
      where: [place],
      reason: "unrated",
      facts: { part: { place: partPlace(part) } },
      missing: parameters.map((parameter) => ({ part: part.part.id, parameter })),
    });
    return;
  }
  const hanging = fed.filter((state) => {
    const volts = Math.abs(state.between(at.plus, at.minus));
    return state.partStates[part.index]?.["coil"] !== true && volts >= dropOut && volts < pickUp;
  });
  const [first] = hanging;
  if (first === undefined) {
    report.passes(place);
    return;
  }
  const lowest = Math.min(...hanging.map((state) => Math.abs(state.between(at.plus, at.minus))));
  report.fails({
    message: "between",
    facts: {
      part: { place: partPlace(part) },
      volts: { value: lowest, dimension: "voltage" },
      limit: { value: pickUp, dimension: "voltage" },
    },
    severity: "WARNING",
    where: [place, terminalPlace(part, coil.minus)],
    touches: feedersThroughResistors(analysis, first, at, FEED).map((feeder): Place => ({ part: feeder.part.id })),
    states: hanging.map(({ name }) => name),
    value: lowest,
    limit: pickUp,
    unit: "V",
  });
}
