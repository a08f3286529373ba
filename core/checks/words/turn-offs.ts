/** Coils that are switched off in transitions: what takes up their current, and what has to stand it. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { BREAKDOWN_LEAST } from "../../circuit/transition/arc.ts";
import type { CoilTurnOff, Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { coilsOf } from "./coils.ts";
import type { CoilAt } from "./coils.ts";
import { followed, momentOf, sampleBefore } from "./in-time.ts";
import type { Followed } from "./in-time.ts";
import { branchesOf, joinedIn } from "./joined.ts";

/** In these coils let go. */
const LETTING_GO: readonly TransitionName[] = [
  "key-on",
  "key-off",
  "key-off-on",
  "emergency-stop",
  "plug-in",
  "unplug",
  "disconnect",
];
/**
 * A resistor across a coil, the mildest of all that is put there, has three to six times its ohms (published
 * measurement: 680 ohm on 120 ohm), so that the voltage jumps to no more than six times; what goes beyond found no way
 * that was made for it. So did what comes near to the breakdown of a gap.
 */
const MOST_TIMES = 6;
const NEARLY = 0.9;
const FLOWS: Ampere = 1e-3;
const TOGETHER = 1e-6;

export interface TurnOffAt {
  readonly transition: Transition;
  readonly turnOff: CoilTurnOff;
  /** Nothing made for it took up its current: an arc in the switch did, or whatever else hangs on the same wires. */
  readonly jumped: boolean;
  /** Parts whose contact or output let it go; empty where that cannot be told. */
  readonly switches: readonly NetworkPart[];
  /** The electronics among them. */
  readonly driver: NetworkPart | undefined;
  /** The driver had to take it up: the voltage at which it does. */
  readonly clamp: Volt | undefined;
}

/** What holds a coil and opens in no transition, as the output of a battery monitor or a selector: what happens when it does. */
export interface Output {
  readonly driver: NetworkPart;
  readonly state: SolvedState;
  readonly peak: Volt;
  /** As of a turn-off. */
  readonly jumped: boolean;
}

export interface LetGo {
  readonly at: CoilAt;
  readonly branch: Branch;
  readonly turnOffs: readonly TurnOffAt[];
  readonly outputs: readonly Output[];
}

export interface TurnOffs extends Followed {
  readonly coils: readonly LetGo[];
}

const remembered = new WeakMap<Analysis, TurnOffs>();

export function turnOffsOf(analysis: Analysis): TurnOffs {
  let found = remembered.get(analysis);
  if (found === undefined) remembered.set(analysis, (found = find(analysis)));
  return found;
}

function find(analysis: Analysis): TurnOffs {
  const { whole, broken } = followed(analysis, LETTING_GO);
  const coils = coilsOf(analysis).flatMap((at): LetGo[] => {
    const { part, coil } = at;
    const branch = analysis.network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .find(({ name }) => name === coil.element);
    if (branch === undefined || !at.wired) return [];
    const turnOffs = whole.flatMap((transition) =>
      transition.turnOffs
        // Whose supply died, as that of a charger pulled off its mains, was not switched off.
        .filter((turnOff) => turnOff.branch === branch.index && turnOff.peak > 0)
        .map((turnOff) => turnOffAt(analysis, transition, turnOff, at)),
    );
    return [{ at, branch, turnOffs, outputs: outputsOf(analysis, at, branch, turnOffs) }];
  });
  return { whole, broken, coils };
}

/** What may open while driving or charging though no transition has it do so. */
function outputsOf(analysis: Analysis, at: CoilAt, coil: Branch, turnOffs: readonly TurnOffAt[]): readonly Output[] {
  const seen = new Set(
    turnOffs.flatMap(({ switches, driver }) => [...switches, ...(driver === undefined ? [] : [driver])]),
  );
  const outputs = new Map<NetworkPart, Output>();
  const opens = [
    ...branchesOf(analysis, "driver"),
    ...branchesOf(analysis, "contact").filter(({ part }) => part?.kind.control !== undefined),
  ];
  for (const state of [analysis.state("driving"), analysis.state("reversing"), analysis.state("charging")]) {
    const current = Math.abs(state?.currents[coil.index] ?? 0);
    if (state === undefined || current < FLOWS) continue;
    const metal = joinedIn(analysis, state);
    const ends = [metal.find(at.plus), metal.find(at.minus)];
    for (const { index, part, a, b } of opens) {
      if (part === undefined || part === at.part || seen.has(part) || outputs.has(part)) continue;
      const element = state.elements[index];
      if (element?.type !== "contact" || !element.closed) continue;
      if (!ends.includes(metal.find(a)) && !ends.includes(metal.find(b))) continue;
      if (Math.abs(state.currents[index] ?? 0) < NEARLY * current) continue;
      const own = Math.max(Math.abs(state.between(at.plus, at.minus)) || 0, at.coil.nominal ?? 0);
      const kick = analysis.kick(state, [index], coil.index);
      // The gap of a switch breaks down beside the voltage that it switched; electronics do so long before.
      const peak = Math.min(kick, BREAKDOWN_LEAST + own);
      outputs.set(part, { driver: part, state, peak, jumped: isJump(peak, own) });
    }
  }
  return [...outputs.values()];
}

const isJump = (peak: Volt, own: Volt): boolean => peak > Math.min(MOST_TIMES * own, NEARLY * BREAKDOWN_LEAST);

function turnOffAt(analysis: Analysis, transition: Transition, turnOff: CoilTurnOff, at: CoilAt): TurnOffAt {
  const before = sampleBefore(transition, turnOff.time);
  const coilCurrent = Math.abs(transition.currents(turnOff.branch)[before] ?? 0);
  const across = (transition.volts(at.plus)[before] ?? 0) - (transition.volts(at.minus)[before] ?? 0);
  const volts: Volt = Math.max(Math.abs(across), at.coil.nominal ?? 0);
  const metal = joinedIn(analysis, momentOf(transition, turnOff.time));
  const ends = [metal.find(at.plus), metal.find(at.minus)];
  const touches = ({ a, b }: Branch): boolean => ends.includes(metal.find(a)) || ends.includes(metal.find(b));
  const carried = ({ index }: Branch): boolean =>
    Math.abs(transition.currents(index)[before] ?? 0) >= Math.max(FLOWS, coilCurrent * NEARLY);
  const contacts = transition.openings.flatMap(({ time, branch }) => {
    const opened = Math.abs(time - turnOff.time) < TOGETHER ? analysis.network.branches[branch] : undefined;
    return opened !== undefined && touches(opened) && carried(opened) ? [opened] : [];
  });
  const drivers = branchesOf(analysis, "driver").filter(
    (branch) => transition.end.elements[branch.index]?.type === "contact" && touches(branch) && carried(branch),
  );
  // Where a contact let go, a driver at the same minus takes up some other coil's current.
  const letting = contacts.length > 0 ? [] : drivers;
  const clamp = letting.flatMap((driver) => clampOf(analysis, transition, driver, turnOff) ?? [])[0];
  const switches = contacts.length > 0 ? contacts : drivers;
  return {
    transition,
    turnOff,
    jumped: isJump(turnOff.peak, volts),
    switches: [...new Set(switches.flatMap(({ part }) => part ?? []))],
    driver: contacts.length > 0 ? undefined : drivers[0]?.part,
    clamp,
  };
}

/** The driver's own clamping voltage, where its clamp had to carry the coil's current. */
function clampOf(
  analysis: Analysis,
  transition: Transition,
  driver: Branch,
  { time, decay }: CoilTurnOff,
): Volt | undefined {
  for (const { index, part, a, b } of branchesOf(analysis, "driver")) {
    const element = transition.end.elements[index];
    if (part !== driver.part || a !== driver.a || b !== driver.b || element?.type !== "clamp") continue;
    const currents = transition.currents(index);
    const [plus, minus] = [transition.volts(a), transition.volts(b)];
    // The other way round it is a plain diode, which takes up nothing.
    const isClamping = (k: number): boolean =>
      Math.abs((plus[k] ?? 0) - (minus[k] ?? 0)) > NEARLY * element.clamp && Math.abs(currents[k] ?? 0) > FLOWS;
    const last = sampleBefore(transition, time + decay);
    for (let k = sampleBefore(transition, time); k <= last; k += 1) if (isClamping(k)) return element.clamp;
  }
  return undefined;
}
