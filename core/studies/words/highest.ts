/**
 * The highest voltage between two terminals: over all states, with the packs that feed the pair at their absorption
 * voltage (charger drawn or not), and at both ends of the batteries' resistance while current is pushed into them.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Ratio, Volt } from "../../quantity/kinds.ts";
import type { MissingField } from "../missing-field.ts";
import { bothEnds } from "./resistance-ends.ts";
import { auxiliaryPacks, reachedBy, tractionPacks } from "./live.ts";

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

/** Does anything on the drawing charge this battery? Then the solved states say how high it goes. */
function isCharged(analysis: Analysis, pack: Pack): boolean {
  return analysis.states.some((state) => state.between(pack.positive, pack.negative) > pack.rest + 0.05);
}

/** One state as seen from the packs: what each reaches in it. Made once, asked for every pair. */
interface Look {
  readonly state: SolvedState;
  readonly traction: readonly {
    readonly pack: Pack;
    readonly nodes: ReadonlySet<NodeIndex>;
    /** Highest voltage of the 12 V batteries that are one metal with this pack: what is theirs is not its own. */
    readonly joinedTo: Volt;
  }[];
  /** 12 V batteries that nothing on the drawing charges, so that no state shows how high they go. */
  readonly still: readonly { readonly pack: Pack; readonly nodes: ReadonlySet<NodeIndex> }[];
}

const looks = new WeakMap<Analysis, readonly Look[]>();

function looksOf(analysis: Analysis): readonly Look[] {
  let known = looks.get(analysis);
  if (known !== undefined) return known;
  const auxiliary = auxiliaryPacks(analysis);
  const uncharged = auxiliary.filter((pack) => !isCharged(analysis, pack));
  known = analysis.states.map((state) => ({
    state,
    traction: tractionPacks(analysis).map((pack) => {
      const { carried, withLoads } = reachedBy(analysis, pack, state);
      const joined = auxiliary.filter(({ positive }) => carried.has(positive));
      return { pack, nodes: withLoads, joinedTo: Math.max(0, ...joined.map(({ highest }) => highest)) };
    }),
    still: uncharged.map((pack) => ({ pack, nodes: reachedBy(analysis, pack, state).carried })),
  }));
  looks.set(analysis, known);
  return known;
}

export function highestBetween(analysis: Analysis, a: NodeIndex, b: NodeIndex): Highest {
  let best: Highest = { volts: 0, atLeast: 0, states: [], equalising: undefined, packs: [] };
  let equalising: Volt | undefined;
  let sure: Volt = 0;
  const consider = (state: SolvedState, volts: Volt, atLeast: Volt, packs: readonly Pack[]): void => {
    sure = Math.max(sure, atLeast);
    if (volts > best.volts * (1 + 1e-9)) best = { volts, atLeast, states: [state.name], equalising: undefined, packs };
    else if (volts > best.volts * (1 - 1e-3)) best = { ...best, states: [...best.states, state.name] };
  };
  for (const { state, traction, still } of looksOf(analysis)) {
    const volts = Math.abs(state.between(a, b));
    if (Number.isNaN(volts) || volts === 0) continue;
    const feeding: Pack[] = [];
    for (const { pack, nodes, joinedTo } of traction) {
      if (volts > joinedTo && nodes.has(a) && nodes.has(b)) feeding.push(pack);
    }
    if (state.name === "regenerating") {
      const ends = bothEnds(analysis, state).map((end) => Math.abs(end.between(a, b)));
      consider(state, Math.max(volts, ...ends), Math.min(volts, ...ends), feeding);
      continue;
    }
    if (AS_SOLVED.has(state.name)) {
      consider(state, volts, volts, feeding);
      continue;
    }
    const raising =
      feeding.length > 0 ? feeding : still.filter(({ nodes }) => nodes.has(a) && nodes.has(b)).map(({ pack }) => pack);
    const high = volts * raised(raising, (pack) => pack.highest);
    consider(state, high, high, feeding);
    if (feeding.some((pack) => pack.equalising !== undefined)) {
      const equalised = volts * raised(raising, (pack) => pack.equalising ?? pack.highest);
      equalising = Math.max(equalising ?? 0, equalised);
    }
  }
  return { ...best, atLeast: sure, equalising };
}

/** What the voltage across a pair rises by when the packs that feed it go from rest to this voltage. */
function raised(packs: readonly Pack[], to: (pack: Pack) => Volt): Ratio {
  return packs.reduce((most, pack) => (pack.rest > 0 ? Math.max(most, to(pack) / pack.rest) : most), 1);
}

/** Blocks of these packs whose chemistry nobody stated: their highest voltage is not known. A converter has none to state. */
export function unstatedChemistry(packs: readonly Pack[]): readonly MissingField[] {
  return packs.flatMap((pack) =>
    pack.blocks
      .filter(({ kind, values }) => "chemistry" in kind.parameters && values.choice("chemistry") === undefined)
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
