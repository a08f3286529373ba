/**
 * The voltage to which a coil jumps in the first instant after something opens: every coil still drives the current it
 * had, every capacitor still has its voltage.
 */
import type { BranchIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { Element } from "../parts/element.ts";
import type { Ohm, Volt } from "../quantity/kinds.ts";
import type { Solved } from "./solved.ts";

/** In parallel with a coil that drives its current come what may: what finds no other way jumps far above any breakdown. */
const STIFF: Ohm = 1e6;

/** What was solved for a state, by the branches that opened: many coils hang on one switch, and many switches on one bus. */
const solved = new WeakMap<Solved, Map<string, Float64Array>>();

/** Volts across `coil`, without sign, just after the branches `open` have opened in a solved state. */
export function kickAcross(state: Solved, open: readonly BranchIndex[], coil: BranchIndex): Volt {
  const { bench } = state;
  let known = solved.get(state);
  if (known === undefined) solved.set(state, (known = new Map<string, Float64Array>()));
  const key = open.join(" ");
  let after = known.get(key);
  if (after === undefined) known.set(key, (after = voltsAfter(state, open)));
  return Math.abs(volts({ volts: after }, bench.a[coil], bench.b[coil]));
}

function voltsAfter(state: Solved, open: readonly BranchIndex[]): Float64Array {
  const { bench, currents } = state;
  const held = new Map<BranchIndex, Volt>();
  const elements = state.elements.map((element, branch): Element => {
    const { name, a, b, role, type } = element;
    if (open.includes(branch))
      return { type: "contact", name, a, b, role, closed: false, resistance: 1, movedBy: "none" };
    if (type === "capacitor") held.set(branch, volts(state, bench.a[branch], bench.b[branch]));
    const current = currents[branch] ?? 0;
    if (type !== "coil" || current === 0) return element;
    return { type: "source", name, a, b, role, emf: -current * STIFF, resistance: STIFF, storage: false };
  });
  return bench.solver.solve(elements, undefined, held).volts;
}

function volts(state: { readonly volts: Float64Array }, a = CHASSIS_NODE, b = CHASSIS_NODE): Volt {
  const across = (state.volts[a] ?? 0) - (state.volts[b] ?? 0);
  return Number.isNaN(across) ? 0 : across;
}
