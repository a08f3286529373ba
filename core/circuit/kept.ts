/**
 * What has been solved on one circuit, by what was asked. An edit that leaves the circuit as it is (a symbol moved, a part
 * renamed, a rating stated) hands it on to the next analysis, where nothing is then solved again.
 */
import { changedWires } from "../network/alike.ts";
import type { Network, NetworkPart } from "../network/network.ts";
import type { Volt } from "../quantity/kinds.ts";
import type { Bench } from "./bench.ts";
import type { ElectricalSolver } from "./electrical.ts";
import type { Settled } from "./settle.ts";
import { Solved } from "./solved.ts";
import type { Plan } from "./transition/plans.ts";
import type { Transition, TransitionEvent, TransitionName } from "./transition/transition.ts";

/** Changed circuits that are kept: some 40 kB each on a vehicle of 300 parts. */
const MOST_CHANGED = 256;

/** A transition, and what it was worked out on. */
interface KeptTransition {
  readonly transition: Transition;
  readonly plan: Plan;
  readonly network: Network;
}

export class Kept {
  readonly #states = new Map<string, Settled>();
  readonly #changed = new Map<string, { readonly settled: Settled; readonly solver: ElectricalSolver }>();
  readonly #transitions = new Map<TransitionName, KeptTransition>();

  /** For a circuit of which only some wires have other ohms: transitions alone, each to be asked whether it holds. */
  transitionsOnly(): Kept {
    const kept = new Kept();
    for (const [name, transition] of this.#transitions) kept.#transitions.set(name, transition);
    return kept;
  }

  state(key: string, { parts }: Network): Settled | undefined {
    const settled = this.#states.get(key);
    return settled === undefined ? undefined : onParts(settled, parts);
  }

  keepState(key: string, settled: Settled): void {
    this.#states.set(key, settled);
  }

  /** A changed circuit, if this bench still has the solver that its resistances are asked of. */
  changed(key: string, { network, solver }: Bench): Settled | undefined {
    const kept = this.#changed.get(key);
    return kept?.solver === solver ? onParts(kept.settled, network.parts) : undefined;
  }

  keepChanged(key: string, settled: Settled, { solver }: Bench): void {
    if (this.#changed.size < MOST_CHANGED) this.#changed.set(key, { settled, solver });
  }

  transition(plan: Plan, bench: Bench): Transition | undefined {
    const kept = this.#transitions.get(plan.name);
    return kept === undefined || !holds(kept, bench.network) ? undefined : carried(kept, plan, bench);
  }

  keepTransition(plan: Plan, transition: Transition, network: Network): void {
    this.#transitions.set(plan.name, { transition, plan, network });
  }
}

/** The same figures, told of the parts of another network of the same branches. */
function onParts(settled: Settled, parts: readonly NetworkPart[]): Settled {
  const { chatter, troubles } = settled;
  if (chatter.length === 0 && troubles.size === 0) return settled;
  return {
    ...settled,
    chatter: chatter.map(({ index }) => parts[index]!),
    troubles: new Map([...troubles].map(([part, trouble]) => [parts[part.index]!, trouble])),
  };
}

/**
 * A wire that never carries more than this times its change of ohms moves no figure of a transition by more than this:
 * far below what a step in time is allowed to be wrong by (stepper.ts).
 */
const UNFELT: Volt = 1e-5;

function holds({ transition, network }: KeptTransition, now: Network): boolean {
  if (network === now) return true;
  const changed = changedWires(network, now);
  if (changed === undefined || (transition.trouble !== undefined && isRenamed(network, now))) return false;
  return changed.every(({ branch, wire, cold }) => {
    const by = Math.abs(cold - (network.conductorByWire.get(wire.id)?.cold ?? Infinity));
    return by === 0 || transition.currents(branch).every((amperes) => Math.abs(amperes) * by < UNFELT);
  });
}

function isRenamed(before: Network, after: Network): boolean {
  return before.parts.some(({ part }, index) => part.designation !== after.parts[index]?.part.designation);
}

/** A transition told of another network of the same circuit. */
function carried({ transition, plan: earlier, network }: KeptTransition, plan: Plan, bench: Bench): Transition {
  const { parts } = bench.network;
  if (network === bench.network) return transition;
  const told = <Item extends { readonly part: NetworkPart }>(items: readonly Item[]): readonly Item[] =>
    items.map((item) => ({ ...item, part: parts[item.part.index]! }));
  const onBench = (state: Solved): Solved => {
    const { change } = state.bench;
    return new Solved(state.name, bench.changed(change), onParts(state.settled, parts));
  };
  const event = (old: TransitionEvent): TransitionEvent => {
    if (old.part !== undefined) {
      const [was, is] = [old.part.part.designation, parts[old.part.index]!.part.designation];
      const named = old.what === "control" && old.reason.startsWith(`${was} `);
      const reason = named ? `${is}${old.reason.slice(was.length)}` : old.reason;
      return { ...old, part: parts[old.part.index]!, reason };
    }
    const move = earlier.moves.findIndex(({ says }) => says === old.reason);
    return { ...old, reason: plan.moves[move]?.says ?? old.reason };
  };
  const at = (time: number): Solved => onBench(solved(transition.at(time)));
  return {
    ...transition,
    events: transition.events.map(event),
    closings: told(transition.closings),
    openings: told(transition.openings),
    resistors: told(transition.resistors),
    turnOffs: told(transition.turnOffs),
    discharges: told(transition.discharges),
    chatter: transition.chatter.map(({ index }) => parts[index]!),
    assumed: told(transition.assumed),
    at,
    end: onBench(solved(transition.end)),
  };
}

function solved(state: unknown): Solved {
  if (!(state instanceof Solved)) throw new TypeError("this moment was not solved by an analysis");
  return state;
}
