/** A single fault of wiring, contacts or sensors that sets the vehicle going, or that leaves it going for good. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { singleFaults } from "../../circuit/faults.ts";
import type { SingleFault } from "../../circuit/faults.ts";
import { positionOf } from "../../network/build.ts";
import type { BranchIndex, NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { faultMotion } from "../../studies/single-faults.ts";
import type { Effect } from "../../studies/single-faults-effects.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { carriesMore } from "../words/carries-more.ts";
import { isAwake, isController, movedBy, running, unstatedEnable, withMoved } from "../words/drive-enable.ts";
import { endPlaces, partPlace } from "../words/places.ts";
import { throttleChain } from "../words/throttle-chain.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const singleFaultMotion = defineCheck({
  id: "single-fault-motion",
  group: "controls",
  title: "A single fault moves the vehicle or cannot be stopped",
  about:
    "Puts every single fault of wires, contacts, plugs, barriers and neighbouring terminals in, one at a time: none may drive the motor with the pedal free, and none may leave it driven when the key is turned off and also when the emergency stop is pressed. Faults of the throttle and its wires are another check's, and so is a drawing without an emergency stop. A controller's own output stage may short, but must then be stoppable; a pedal contact that welds or is bridged counts as a pedal that sticks.",
  severities: ["DANGER"],
  source: { text: "Failure mode and effects analysis after IEC 60812, on the solved circuit", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    idle: {
      title: "One fault is enough to drive {parts} with the pedal free ({how}): at {faults}.",
      why: "Nobody is prepared for a vehicle that starts by itself, and one thing that wears, chafes or welds is enough for it here.",
      mend: "Put a second, independent contact into this path, such as a contact of the pedal in the interlock, so that two things would have to fail.",
    },
    unstoppable: {
      title:
        "One fault is enough to leave {parts} driven whatever is tried ({how}), at {faults}: neither key nor emergency stop ends it.",
      why: "What the driver reaches for then has no effect, and the vehicle goes on until the pack is empty or something burns.",
      mend: "Let key and emergency stop act at different places: one on the logic's supply, the other straight on the coil of the main contactor.",
    },
  },
  reasons: {
    never: "Whether a single fault moves {parts} cannot be told, as the drive is enabled in no state.",
  },
  foldsUnder: [
    "emergency-stop-ineffective",
    "enable-bypasses-key",
    "main-switch-missing",
    "stop-needs-power",
    "throttle-fault-drives",
    "traction-on-chassis",
    "traction-on-auxiliary",
  ],
  run(analysis, report) {
    const { driving, enabled, never } = running(analysis);
    if (driving === undefined || enabled.length + never.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const drive of never) {
      const facts = { parts: { places: [partPlace(drive.part)] } };
      report.notChecked({ where: [drive.place], reason: "never", facts, missing: unstatedEnable(analysis) });
    }
    if (enabled.length === 0) return;
    const groups = new Map<string, Group>();
    const hasStop = Object.keys(movedBy(analysis, driving.condition, { emergencyStop: "pressed" })).length > 0;
    for (const fault of candidates(analysis, driving).filter((each) => mayMove(analysis, driving, hasStop, each))) {
      const told = faultMotion(analysis, fault).flatMap((effect) => {
        const message = messageOf(effect, hasStop);
        return message === undefined || (message === "idle" && isOwn(analysis, fault)) ? [] : [{ message, effect }];
      });
      // Of one fault the worse is told: what cannot be stopped also moves with the pedal free.
      for (const { message, effect } of told
        .filter((each) => each.message === "unstoppable")
        .concat(told)
        .slice(0, 1)) {
        const key = `${message} ${HOW[fault.kind]} ${JSON.stringify(effect.places)}`;
        const group = groups.get(key) ?? { message, fault, effect, faults: [] };
        group.faults.push(fault);
        groups.set(key, group);
      }
    }
    const told = new Set<string>();
    for (const { message, fault, effect, faults } of groups.values()) {
      const places = uniquePlaces(faults.flatMap(placesOf));
      for (const place of effect.places) if ("part" in place) told.add(place.part);
      report.fails({
        message,
        facts: { faults: { places }, parts: { places: effect.places }, how: HOW[fault.kind] },
        severity: "DANGER",
        where: places,
        touches: [...effect.places, ...faults.flatMap((each) => touchesOf(analysis, each))],
        states: effect.states,
        variant: message,
      });
    }
    for (const { part, place } of enabled) if (groups.size === 0 || !told.has(part.part.id)) report.passes(place);
  },
});

/** What happens to the thing, in the words of the trade. */
const HOW: Readonly<Record<SingleFault["kind"], string>> = {
  "wire-open": "wire broken",
  "contact-welded": "contact welded",
  "contact-stuck-open": "contact that does not close",
  "fuse-blown": "fuse blown",
  "terminals-bridged": "terminals touching",
  "conductor-to-chassis": "chafed through to the chassis",
  "connector-unplugged": "plug come off",
  "barrier-broken": "insulation broken through",
  "output-shorted": "output stage shorted",
};

interface Group {
  readonly message: "idle" | "unstoppable";
  readonly fault: SingleFault;
  readonly effect: Effect;
  readonly faults: SingleFault[];
}

function messageOf({ kind }: Effect, hasStop: boolean): Group["message"] | undefined {
  if (kind === "moves-at-idle") return "idle";
  return kind === "cannot-be-stopped" && hasStop ? "unstoppable" : undefined;
}

/** Faults at idle that are none of this check's: output stages, the throttle's own chain, the pedal's own contact. */
function isOwn(analysis: Analysis, { kind, wire, part, nodes }: SingleFault): boolean {
  if (kind === "output-shorted") return true;
  const { driving, enabled } = running(analysis);
  if (part !== undefined && driving !== undefined && (kind === "contact-welded" || kind === "terminals-bridged")) {
    const free = { ...driving.condition, throttle: "idle" } as const;
    if (positionOf(part, free) !== positionOf(part, driving.condition)) return true;
  }
  return enabled.filter(isController).some((drive) => {
    const chain = throttleChain(analysis, drive.part);
    return wire !== undefined
      ? chain.wires.has(wire)
      : nodes.length > 0 && nodes.every((node) => chain.nodes.has(node));
  });
}

/** What is joined stands below this apart, wires and contacts at full throttle included (common practice, no source). */
const JOINED: Volt = 1;

/**
 * Faults that can do it at all: a short between what is joined while driving and is apart at rest or after a stop, an
 * open branch that carries more at rest or after a stop than while driving, anything at a throttle, output stages.
 */
function candidates(analysis: Analysis, driving: SolvedState): readonly SingleFault[] {
  const moved = (change: Parameters<typeof movedBy>[2]): SolvedState =>
    withMoved(analysis, driving, movedBy(analysis, driving.condition, change));
  const ready = analysis.state("ready");
  const others = [
    ...(ready === undefined ? [] : [ready]),
    ...([{ throttle: "idle" }, { key: "off" }, { emergencyStop: "pressed" }] as const).map(moved),
  ];
  const throttles = new Set<NodeIndex>(
    running(analysis)
      .enabled.filter(isController)
      .flatMap(({ part }) => [...throttleChain(analysis, part).nodes]),
  );
  const isJoined = (state: SolvedState, a: NodeIndex, b: NodeIndex): boolean => Math.abs(state.between(a, b)) < JOINED;
  const opens = (branch: BranchIndex): boolean => {
    const before = Math.abs(driving.currents[branch] ?? 0);
    return others.some((state) => carriesMore(Math.abs(state.currents[branch] ?? 0), before));
  };
  return singleFaults(analysis).filter(({ kind, change, branches, nodes }) => {
    if (kind === "output-shorted") return true;
    const { shorts } = change;
    if (shorts === undefined) return branches.some(opens);
    if (kind === "terminals-bridged" && nodes.some((node) => throttles.has(node))) return true;
    return shorts.some(([a, b]) => isJoined(driving, a, b) && others.some((state) => !isJoined(state, a, b)));
  });
}

/**
 * Would it, looked at in two states alone: with the pedal free, and with the emergency stop pressed while driving? Only
 * what would is looked at in full.
 */
function mayMove(analysis: Analysis, driving: SolvedState, hasStop: boolean, fault: SingleFault): boolean {
  const { kind, change } = fault;
  const { enabled } = running(analysis);
  const ready = analysis.state("ready");
  const isLeft = (state: SolvedState, drive: TractionPair): boolean =>
    isLive(state, drive) && (kind === "output-shorted" || isAwake(analysis, state, drive));
  // One after the other: most are ended by the first already.
  const stops = ([{ emergencyStop: "pressed" }, { key: "off" }] as const)
    .map((stop) => movedBy(analysis, driving.condition, stop))
    .filter((set) => Object.keys(set).length > 0);
  const left = stops.reduce<readonly TractionPair[]>((drives, stop) => {
    if (!hasStop || drives.length === 0) return drives;
    const stopped = analysis.solveChanged(driving, { ...change, set: { ...change.set, ...stop } });
    return drives.filter((drive) => isLeft(stopped, drive));
  }, enabled);
  if (hasStop && left.length > 0) return true;
  if (ready === undefined || isOwn(analysis, fault)) return false;
  const rest = analysis.solveChanged(ready, change);
  return enabled.some((drive) =>
    isController(drive)
      ? rest.partStates[drive.part.index]?.["throttle"] === "pressed" && isAwake(analysis, rest, drive)
      : isLive(rest, drive),
  );
}

/** Volts tell it here: what has welded or touches is no contact that could be seen to be closed. */
function isLive(state: SolvedState, { plus, minus }: TractionPair): boolean {
  return Math.abs(state.between(plus, minus)) > JOINED;
}

function placesOf({ wire, part, kind, terminals }: SingleFault): readonly Place[] {
  if (wire !== undefined) return [{ wire }];
  if (kind === "terminals-bridged" || kind === "barrier-broken") return terminals;
  return part === undefined ? terminals : [partPlace(part)];
}

function touchesOf({ network }: Analysis, { kind, wire, part }: SingleFault): readonly Place[] {
  const conductor = wire === undefined ? undefined : network.conductorByWire.get(wire);
  // What a chafed wire does by way of the chassis may have its root in what is joined to the chassis already.
  const chassis = network.parts.filter((each) => kind === "conductor-to-chassis" && each.kind.traits.chassisPoint);
  return [
    ...chassis.map(partPlace),
    ...(conductor === undefined ? [] : endPlaces(network, conductor.wire)),
    ...(part === undefined ? [] : [partPlace(part)]),
  ];
}

function uniquePlaces(places: readonly Place[]): readonly Place[] {
  return [...new Map(places.map((place) => [JSON.stringify(place), place])).values()];
}
