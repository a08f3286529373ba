/**
 * What a person reads with a meter: volts from a terminal to chassis or to a battery's minus, the meter's own resistance
 * across them. It matters where leaks alone hold a voltage: a floating pack's poles, the loose end of a broken wire.
 */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { Ohm, Ratio, Volt } from "../quantity/kinds.ts";

/** Input of a hand-held voltmeter: UN R100 annex 4A asks for at least 10 Mohm, and hand-held ones have just that (common practice, no source). */
export const METER: Ohm = 10e6;

/**
 * A reading counts as unlike another when it differs by more than half a volt and by more than a twentieth: a lead-acid
 * block stands between 12.0 and 12.7 V by charge and rest alone, so that nobody takes less for a fault (common practice, no source).
 */
const UNLIKE: { readonly volts: Volt; readonly part: Ratio } = { volts: 0.5, part: 0.05 };

export const isUnlike = (one: Volt, other: Volt): boolean =>
  Math.abs(one - other) > Math.max(UNLIKE.volts, UNLIKE.part * Math.max(Math.abs(one), Math.abs(other)));

/** What the meter shows between two points that stand `volts` apart with `ohms` behind them; nothing joins them: 0. */
export function shown(volts: Volt, ohms: Ohm): Volt {
  return Number.isNaN(volts) || ohms === Infinity ? 0 : volts / (1 + ohms / METER);
}

/** Readings from every terminal to one point, by node. */
export function readingsTo(analysis: Analysis, state: SolvedState, reference: NodeIndex): Float64Array {
  const ohms = analysis.resistancesFrom(state, reference);
  return ohms.map((resistance, node) => shown(state.between(node, reference), resistance));
}

/** The points that a person clips the black lead to: chassis, and the minus of every battery. */
export function references(analysis: Analysis): readonly NodeIndex[] {
  return [...new Set([CHASSIS_NODE, ...analysis.packs.map(({ negative }) => negative)])];
}

/** Readings of a state as drawn, kept, as every fault is held against them. */
export class DrawnReadings {
  readonly #analysis: Analysis;
  readonly #references: readonly NodeIndex[];
  readonly #kept = new Map<SolvedState, readonly Float64Array[]>();

  constructor(analysis: Analysis) {
    this.#analysis = analysis;
    this.#references = references(analysis);
  }

  /** Does any reading of a faulted state differ from the state as drawn? */
  differ(drawn: SolvedState, faulted: SolvedState): boolean {
    let usual = this.#kept.get(drawn);
    if (usual === undefined) {
      usual = this.#references.map((reference) => readingsTo(this.#analysis, drawn, reference));
      this.#kept.set(drawn, usual);
    }
    const { terminalOfNode } = this.#analysis.network;
    // Without the meter's load first: what does not differ at all needs no further look.
    if (!this.#moved(drawn, faulted)) return false;
    return this.#references.some((reference, place) => {
      const now = readingsTo(this.#analysis, faulted, reference);
      const before = usual[place];
      return now.some((volts, node) => terminalOfNode[node] !== undefined && isUnlike(volts, before?.[node] ?? 0));
    });
  }

  #moved(drawn: SolvedState, faulted: SolvedState): boolean {
    for (let node = 0; node < drawn.volts.length; node += 1) {
      const [one, other] = [drawn.volts[node] ?? NaN, faulted.volts[node] ?? NaN];
      if (Number.isNaN(one) !== Number.isNaN(other) || Math.abs(one - other) > UNLIKE.volts / 2) return true;
    }
    return false;
  }
}
