/**
 * The highest voltage between two terminals: over all states, with the packs that feed the pair at their absorption
 * voltage (charger drawn or not), and at both ends of the batteries' resistance while current is pushed into them.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import type { MissingField } from "../define.ts";
import { auxiliaryPacks, isFedBy, isLive, tractionPacks } from "./live.ts";

export interface Highest {
  readonly volts: Volt;
  /** The least that `volts` can be where a battery's resistance is only known as a range. */
  readonly atLeast: Volt;
  readonly states: readonly string[];
  /** While equalising, where the packs that feed the pair are equalised. */
  readonly equalising: Volt | undefined;
  /** Packs that feed the pair in the worst state. */
  readonly packs: readonly Pack[];
}

/** States whose battery voltage is already what it is to be. */
const AS_SOLVED = new Set(["charging", "regenerating", "driving-low"]);

const regenerations = new WeakMap<Analysis, readonly SolvedState[]>();

/** The state *regenerating* at both ends of the batteries' resistance. */
function regenerationEnds(analysis: Analysis): readonly SolvedState[] {
  let ends = regenerations.get(analysis);
  if (ends === undefined) {
    const state = analysis.state("regenerating");
    ends =
      state === undefined
        ? []
        : (["lowest", "highest"] as const).map((resistances) => analysis.solveChanged(state, { resistances }));
    regenerations.set(analysis, ends);
  }
  return ends;
}

/** Does anything on the drawing charge this battery? Then the solved states say how high it goes. */
function isCharged(analysis: Analysis, pack: Pack): boolean {
  return analysis.states.some((state) => state.between(pack.positive, pack.negative) > pack.rest + 0.05);
}

export function highestBetween(analysis: Analysis, a: NodeIndex, b: NodeIndex): Highest {
  let best: Highest = { volts: 0, atLeast: 0, states: [], equalising: undefined, packs: [] };
  let equalising: Volt | undefined;
  const traction = tractionPacks(analysis);
  const auxiliary = auxiliaryPacks(analysis);
  let sure: Volt = 0;
  const consider = (state: SolvedState, volts: Volt, atLeast: Volt, packs: readonly Pack[]): void => {
    sure = Math.max(sure, atLeast);
    if (volts > best.volts * (1 + 1e-9)) best = { volts, atLeast, states: [state.name], equalising: undefined, packs };
    else if (volts > best.volts * (1 - 1e-3)) best = { ...best, states: [...best.states, state.name] };
  };
  for (const state of analysis.states) {
    const volts = Math.abs(state.between(a, b));
    if (Number.isNaN(volts) || volts === 0) continue;
    const feeding = traction.filter((pack) => isLive(analysis, pack, state, a) && isLive(analysis, pack, state, b));
    if (state.name === "regenerating") {
      const ends = regenerationEnds(analysis).map((end) => Math.abs(end.between(a, b)));
      consider(state, Math.max(volts, ...ends), Math.min(volts, ...ends), feeding);
      continue;
    }
    if (AS_SOLVED.has(state.name)) {
      consider(state, volts, volts, feeding);
      continue;
    }
    const still = auxiliary.filter(
      (pack) => isFedBy(analysis, pack, state, a) && isFedBy(analysis, pack, state, b) && !isCharged(analysis, pack),
    );
    const raising = feeding.length > 0 ? feeding : still;
    const factor = (of: (pack: Pack) => Volt): number =>
      raising.reduce((most, pack) => (pack.rest > 0 ? Math.max(most, of(pack) / pack.rest) : most), 1);
    const high = volts * factor((pack) => pack.highest);
    consider(state, high, high, feeding);
    if (feeding.some((pack) => pack.equalising !== undefined)) {
      equalising = Math.max(equalising ?? 0, volts * factor((pack) => pack.equalising ?? pack.highest));
    }
  }
  return { ...best, atLeast: sure, equalising };
}

/** Blocks of these packs whose chemistry nobody stated: their highest voltage is not known. */
export function unstatedChemistry(packs: readonly Pack[]): readonly MissingField[] {
  return packs.flatMap((pack) =>
    pack.blocks
      .filter(({ values }) => values.choice("chemistry") === undefined)
      .map(({ part }) => ({ part: part.id, parameter: "chemistry" })),
  );
}

/** Blocks of these packs whose resistance is only known as a range. */
export function unstatedResistance(packs: readonly Pack[]): readonly MissingField[] {
  return packs.flatMap((pack) =>
    pack.blocks
      .filter(({ values }) => values.number("resistance") === undefined)
      .map(({ part }) => ({ part: part.id, parameter: "resistance" })),
  );
}
