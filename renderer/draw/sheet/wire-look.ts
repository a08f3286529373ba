/** What a wire looks like in the operating state that is shown: the potential of its terminals, and its current. */
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { Wire, WireId } from "../../../core/project/document.ts";
import type { Ampere, Volt } from "../../../core/quantity/kinds.ts";
import { POTENTIALS } from "../../window/analysis/protocol.ts";
import type { Potential, SolvedView, StateView } from "../../window/analysis/protocol.ts";

export interface WireLooks {
  /** "traction-circuit" and "plain" while no state is shown: as the printed sheet has it. */
  readonly look: (wire: Wire) => Potential | "traction-circuit" | "plain";
  /** Amperes from the first end to the second; undefined where the wire carries none to speak of. */
  readonly current: (wire: WireId) => Ampere | undefined;
}

/** What stands higher above the chassis than this, without a battery behind it, is fed by a converter: live as well. */
const LIVE: Volt = 1;

/** Smaller currents are not written. */
const LEAST_CURRENT: Ampere = 0.1;

/** Where the ends of a wire differ (one is drawn nowhere, or loose), the one that can hurt shows. */
const STRONGEST: readonly Potential[] = ["traction", "auxiliary", "chassis", "floating", "dead"];

const terminalIndexes = new WeakMap<SolvedView, ReadonlyMap<string, number>>();

export function terminalIndex(view: SolvedView): ReadonlyMap<string, number> {
  let index = terminalIndexes.get(view);
  if (index === undefined)
    terminalIndexes.set(view, (index = new Map(view.terminals.map((terminal, at) => [terminal, at]))));
  return index;
}

export function wireLooks(solved: SolvedView | null, state: StateView | undefined): WireLooks {
  if (solved === null || state === undefined) {
    const traction = new Set(solved?.tractionWires);
    return {
      look: ({ id }) => (solved === null ? "plain" : traction.has(id) ? "traction-circuit" : "plain"),
      current: () => undefined,
    };
  }
  const terminals = terminalIndex(solved);
  const wires = new Map(solved.wires.map((wire, at) => [wire, at]));
  return {
    look({ ends }) {
      const found = ends.flatMap((end): Potential[] => {
        const at = end === null ? undefined : terminals.get(terminalKey(end));
        if (at === undefined) return [];
        const potential = POTENTIALS[state.potential[at] ?? -1] ?? "dead";
        return [potential === "dead" && Math.abs(state.volts[at] ?? 0) > LIVE ? "auxiliary" : potential];
      });
      return STRONGEST.find((potential) => found.includes(potential)) ?? "dead";
    },
    current(wire) {
      const amps = state.amps[wires.get(wire) ?? -1] ?? Number.NaN;
      return Math.abs(amps) > LEAST_CURRENT ? amps : undefined;
    },
  };
}
