/** States that the vehicle is wired for and can never be in: it does not drive, reverse, regenerate or charge. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { positionOf } from "../../network/build.ts";
import type { NetworkPart } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Place, Report } from "../define.ts";
import { defineCheck } from "../define.ts";
import { placeId } from "../finding.ts";
import { Links } from "../words/first-link.ts";
import type { Link } from "../words/first-link.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const DRIVING = ["driving", "reversing", "regenerating"] as const;
/** A motor on contactors alone counts as fed above this part of its pack's voltage. */
const FED_PART = 0.01;

interface Missed {
  readonly target: NetworkPart;
  readonly state: SolvedState;
  readonly link: Link;
}

const isWired = ({ network }: Analysis, part: NetworkPart, ...terminals: readonly string[]): boolean =>
  terminals.every((terminal) => network.wiresAt([part.part.id, terminal]).length > 0);

/** The pair through which a part takes the pack's current. */
const mainPair = (part: NetworkPart) => part.kind.supplyPairs(part.values).find(({ main }) => main);

/** Controllers that drive something; where there is none, motors on contactors. */
function driven(analysis: Analysis): readonly NetworkPart[] {
  const of = (trait: "controller" | "motor"): readonly NetworkPart[] =>
    analysis.network.parts.filter((part) => part.kind.traits[trait] === true);
  const controllers = of("controller");
  return (controllers.length > 0 ? controllers : of("motor")).filter((part) => {
    const pair = mainPair(part);
    return pair !== undefined && isWired(analysis, part, pair.plus, pair.minus);
  });
}

/** A controller with a forward input and no reverse input makes no claim to reverse. */
const claims = (analysis: Analysis, part: NetworkPart, state: SolvedState): boolean => {
  if (part.kind.traits.controller !== true) return state.name !== "regenerating";
  if (state.name === "regenerating") return part.values.choice("regeneration") === "yes";
  return state.name !== "reversing" || !isWired(analysis, part, "forward") || isWired(analysis, part, "reverse");
};

/** Why this part does not drive in this state; undefined: it does, or waits for its pedal to be let go. */
function whyNot(analysis: Analysis, part: NetworkPart, state: SolvedState): Link | undefined {
  const pair = mainPair(part);
  if (pair === undefined) return undefined;
  const links = new Links(analysis, state);
  if (part.kind.traits.controller === true) {
    const main = links.mainCircuit(part, pair.plus, pair.minus);
    if (main !== undefined) return main;
    const own = state.partStates[part.index] ?? {};
    return own["drive"] === "off" ? links.controller(part) : undefined;
  }
  const volts = state.between(part.nodes.get(pair.plus) ?? 0, part.nodes.get(pair.minus) ?? 0);
  const rest = Math.max(0, ...analysis.packs.filter(({ duty }) => duty === "traction").map((pack) => pack.rest));
  if (Math.abs(volts) > FED_PART * rest) return undefined;
  return links.motorCircuit(part, pair.plus, pair.minus) ?? links.pair(part, pair.plus, pair.minus);
}

/** Regenerating on the lifted pedal alone: what the brake pedal moves stands as it does with the pedal free. */
function coasting(analysis: Analysis, state: SolvedState): SolvedState | undefined {
  const free = { ...state.condition, brake: "free" } as const;
  const set = Object.fromEntries(
    analysis.network.parts.flatMap((part): [string, string][] => {
      const position = positionOf(part, free);
      return position === positionOf(part, state.condition) ? [] : [[part.part.id, position]];
    }),
  );
  return Object.keys(set).length === 0 ? undefined : analysis.solveChanged(state, { set });
}

function lookAtDriving(analysis: Analysis, part: NetworkPart, state: SolvedState): Link | undefined {
  const link = whyNot(analysis, part, state);
  if (link === undefined || state.name !== "regenerating") return link;
  const eased = coasting(analysis, state);
  return eased === undefined ? link : whyNot(analysis, part, eased) && link;
}

function lookAtCharging(analysis: Analysis, part: NetworkPart, state: SolvedState): Link | undefined {
  const own = state.partStates[part.index] ?? {};
  const out = part.kind.supplyPairs(part.values).find(({ direction }) => direction === "output");
  if (out === undefined) return undefined;
  const links = new Links(analysis, state);
  const plain = (reason: Link["reason"], terminal: string, missing: Link["missing"] = []): Link => ({
    reason,
    place: terminalPlace(part, terminal),
    touches: [],
    missing,
  });
  if (own["mains"] !== true) {
    // Mains come from an inlet, which is no pack: the way is followed from the charger's own terminals.
    return links.mains(part) ?? plain("mains", "L", []);
  }
  const closed = links.mainCircuit(part, out.plus, out.minus, ["diode"]);
  if (closed !== undefined || own["charging"] === true) return closed;
  if (part.values.number("outputVoltageMax") === undefined)
    return plain("mains", out.plus, [{ part: part.part.id, parameter: "outputVoltageMax" }]);
  return plain("detection", out.plus);
}

function tell(missed: readonly Missed[], report: Report): void {
  const groups = new Map<string, Missed[]>();
  for (const entry of missed) {
    const key = `${entry.link.reason} ${placeId(entry.link.place)} ${entry.link.missing.length > 0 ? "?" : ""}`;
    groups.set(key, [...(groups.get(key) ?? []), entry]);
  }
  for (const group of groups.values()) {
    const [first] = group;
    if (first === undefined) continue;
    const states = [...new Set(group.map(({ state }) => state.name))];
    const targets = [...new Set(group.map(({ target }) => target))]
      .sort((a, b) => compareNatural(a.part.id, b.part.id))
      .map(partPlace);
    const { link } = first;
    const facts = {
      link: { place: link.place },
      ends: { places: link.ends ?? [link.place] },
      targets: { places: targets },
      states: { states },
    };
    if (link.missing.length > 0) {
      report.notChecked({ where: [link.place, ...targets], reason: "undecided", facts, missing: link.missing });
      continue;
    }
    const touches: readonly Place[] = group.flatMap((entry) => entry.link.touches);
    report.fails({
      message: link.reason,
      facts,
      severity: "WARNING",
      where: [link.place, ...targets],
      states,
      touches,
      variant: link.reason,
    });
  }
}

export const stateUnreachable = defineCheck({
  id: "state-unreachable",
  group: "connections",
  title: "Never drives, or never charges",
  about:
    "In driving with the throttle at full, and likewise in reversing and regenerating where the vehicle has them, the main contactors must be in and the drive enabled; in charging the charger must be on mains and joined to the battery. The feed is followed from its source, through relays and controllers, to the first contact, output or terminal where it stops. Regeneration counts as reached when it comes with the lifted pedal alone, and a controller that waits for its pedal to be let go is left alone. Whether current flows into a full battery is not judged.",
  severities: ["WARNING"],
  source: { text: "The solved operating states; common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    open: {
      title: "{targets} cannot work in {states}: {link} stands open between {ends}.",
      why: "The feed stops there: whatever comes behind it never gets its voltage, so the vehicle stays where it is.",
      mend: "Follow the wires at {link}: use the contact that is closed in {states}, or give it the feed that closes it.",
    },
    unfed: {
      title: "{targets} cannot work in {states}: nothing feeds {link}, or nothing leads back from it.",
      why: "With every contact closed there would still be no loop from a source through it and back, so it stays dead.",
      mend: "Wire {link} to its feed, and its other side back to the same source.",
    },
    weak: {
      title: "{targets} cannot work in {states}: {link} is joined to a source, but too little voltage arrives.",
      why: "The contacts in the feed are closed and yet it does not pull in or wake up: the source is too low or too much is lost on the way.",
      mend: "Compare the voltage that {link} is made for with the source, and look for a resistor, thin wire or other load in its feed.",
    },
    "throttle-fault": {
      title: "{targets} cannot work in {states}: the throttle's signal at {link} counts as a fault.",
      why: "A controller that reads a value outside its range takes a wire for broken and refuses to drive.",
      mend: "Match throttle and throttle input at {link}: kind, ohms or volts at idle and at full, and the order of the wires.",
    },
    "throttle-idle": {
      title: "{targets} cannot work in {states}: the throttle at {link} reads idle although it is pressed.",
      why: "The controller never sees the pedal, so the vehicle stays where it is.",
      mend: "Look whether the throttle's signal wire is on {link} and whether the throttle turns the right way for this input.",
    },
    uncharged: {
      title:
        "{targets} cannot work in {states}: the capacitors at {link} never charge, so the main contactor is not let in.",
      why: "The controller closes its contactor only when its capacitors stand near the pack's voltage; without a path that charges them, it waits for ever.",
      mend: "Draw the pre-charge path (resistor, and its relay if there is one) to {link}, or state that the controller charges itself.",
    },
    inhibited: {
      title: "{targets} cannot work in {states}: the charge inhibit at {link} is never released.",
      why: "Left open this input holds the drive off, as it should only do while the cable is plugged in.",
      mend: "Take {link} through the charger's inhibit contact to the supply or the return that the controller asks for.",
    },
    direction: {
      title: "{targets} cannot work in {states}: forward and reverse at {link} are fed at the same time.",
      why: "A controller that is told both directions goes in neither.",
      mend: "Take the two inputs to different positions of the selector.",
    },
    brake: {
      title: "{targets} cannot work in {states}: the brake input {link} is fed although the brake is free.",
      why: "The controller takes the brake for pressed and does not drive.",
      mend: "Use the contact of the brake switch that closes when the pedal is pressed.",
    },
    mains: {
      title: "{targets} cannot work in {states}: no mains arrive at {link}.",
      why: "Without mains the charger stays off and the battery empty.",
      mend: "Wire {link} to the inlet, or state that the charger has its own cord and plug.",
    },
    detection: {
      title: "{targets} cannot work in {states}: it finds no battery at {link} and stays off.",
      why: "A charger that looks for a battery first gives nothing onto leads that are dead.",
      mend: "See that the battery's voltage stands at {link} before the charger starts: no open contact and no diode in between.",
    },
  },
  reasons: {
    undecided: "Whether {targets} works in {states} depends on what {link} does, which is not stated.",
  },
  foldsUnder: [
    "structure-as-return",
    "coil-weak",
    "wire-loose-end",
    "terminal-unconnected",
    "no-return-path",
    "block-reversed",
    "supply-reversed",
    "diode-reversed",
    "source-shorted",
    "relay-chatter",
    "coil-voltage-wrong",
    "throttle-mismatch",
    "charger-mismatch",
  ],
  run(analysis, report) {
    const missed: Missed[] = [];
    const hasSource = analysis.packs.length + analysis.supplies.length > 0;
    const look = (
      target: NetworkPart,
      state: SolvedState,
      why: (analysis: Analysis, part: NetworkPart, state: SolvedState) => Link | undefined,
    ): void => {
      const link = why(analysis, target, state);
      if (link === undefined) report.passes(partPlace(target));
      else missed.push({ target, state, link });
    };
    const drives = hasSource ? driven(analysis) : [];
    for (const name of DRIVING) {
      const state = analysis.state(name);
      if (state === undefined) continue;
      for (const part of drives) if (claims(analysis, part, state)) look(part, state, lookAtDriving);
    }
    const charging = hasSource ? analysis.state("charging") : undefined;
    for (const part of charging === undefined ? [] : analysis.network.parts) {
      if (part.kind.traits.charger !== true) continue;
      const out = part.kind.supplyPairs(part.values).find(({ direction }) => direction === "output");
      if (charging === undefined || out === undefined || !isWired(analysis, part, out.plus, out.minus)) continue;
      look(part, charging, lookAtCharging);
    }
    tell(missed, report);
  },
});
