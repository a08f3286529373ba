/**
 * The 12 V side as a budget: what its loads draw in each state, what converters and chargers can give, how long the
 * battery makes up the rest or carries all of it, what the parked vehicle draws, and what coils get from an empty
 * battery. Everything comes from the solved states; Kirchhoff's law gives the demand (what all sources give together).
 */
import type { Analysis, Pack, SolvedState } from "../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import type { CoilSpec } from "../parts/define.ts";
import type { Role } from "../parts/element.ts";
import type { Ampere, Coulomb, Second, Volt } from "../quantity/kinds.ts";
import { CHEMISTRIES } from "../standards/cells.ts";
import { LOWEST_AUXILIARY } from "../standards/coils.ts";
import type { Source } from "../standards/source.ts";
import { usableCharge, usableShare } from "../standards/usable-charge.ts";
import type { MissingField } from "./missing-field.ts";
import { drawsOf } from "./power-draws.ts";
import type { PowerDraw } from "./power-draws.ts";
import { feeds } from "./words/feeds.ts";
import type { Feed } from "./words/feeds.ts";

export interface AuxiliaryBudget {
  /** One for each 12 V battery, and for each converter or dc source that stands on no battery. */
  readonly systems: readonly AuxiliarySystem[];
  /** What each battery and pack loses while the vehicle is parked. */
  readonly standing: readonly StandingDrain[];
}

export interface AuxiliarySystem {
  /** The battery, or the lone output. */
  readonly supply: Pack;
  readonly battery: boolean;
  /** Rated; undefined: unstated (`missing` names it), or no battery. */
  readonly capacity: Coulomb | undefined;
  /** What may be used of it: for sure, and at most. */
  readonly usable: readonly [Coulomb, Coulomb] | undefined;
  readonly usableSource: Source;
  readonly states: readonly StateBudget[];
  /** Every coil that this side feeds in some state, with the battery at its end of discharge (10.5 V). */
  readonly coils: readonly CoilOnLowBattery[];
  /** Fields for want of which some figure is undefined or rests on an assumption. */
  readonly missing: readonly MissingField[];
}

export interface StateBudget {
  readonly state: string;
  readonly bus: Volt;
  /** What draws, greatest first. */
  readonly loads: readonly PowerDraw[];
  /** What all loads draw together, charging of the battery not counted. */
  readonly demand: Ampere;
  /** Loads whose figure is assumed for want of a field. */
  readonly assumed: readonly MissingField[];
  /** Converters, chargers and dc sources that are on and joined to this side. */
  readonly outputs: readonly Output[];
  /** What those can give together; undefined where the limit of one is unstated; 0 where none is on. */
  readonly capable: Ampere | undefined;
  /** What the battery has to add, or what is lacking without one: demand above `capable`. */
  readonly shortfall: Ampere | undefined;
  /** How long the battery adds the shortfall; Infinity where there is none. Undefined: no battery, or unknown. */
  readonly whileShort: readonly [Second, Second] | undefined;
  /** How long the battery carries everything by itself, should the converter fail. */
  readonly onBatteryAlone: readonly [Second, Second] | undefined;
}

export interface Output {
  readonly part: NetworkPart;
  readonly delivers: Ampere;
  /** Its stated limit. */
  readonly most: Ampere | undefined;
  readonly limitField: MissingField | undefined;
}

export interface CoilOnLowBattery {
  readonly part: NetworkPart;
  readonly coil: CoilSpec;
  readonly state: string;
  /** Wires hot, battery at 10.5 V, no converter. */
  readonly volts: Volt;
}

export interface StandingDrain {
  readonly pack: Pack;
  /** "parked", or "parked after driving" where more is drawn then. */
  readonly state: string;
  readonly afterDriving: boolean;
  readonly current: Ampere;
  readonly draws: readonly PowerDraw[];
  readonly capacity: Coulomb | undefined;
  /** Until what may be used of the capacity is gone, self-discharge not counted. Undefined: capacity unstated. */
  readonly flatAfter: readonly [Second, Second] | undefined;
  readonly usableSource: Source;
  readonly missing: readonly MissingField[];
}

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt"];

const remembered = new WeakMap<Analysis, AuxiliaryBudget>();

/** The budget of a drawing, made once for an analysis. */
export function auxiliaryBudget(analysis: Analysis): AuxiliaryBudget {
  let budget = remembered.get(analysis);
  if (budget === undefined) {
    const batteries = analysis.packs.filter(({ duty }) => duty === "auxiliary");
    const lone = analysis.supplies.filter(({ duty }) => duty === "auxiliary");
    budget = {
      systems: [
        ...batteries.map((pack) => systemOf(analysis, pack, true)),
        ...lone.map((pack) => systemOf(analysis, pack, false)),
      ],
      standing: analysis.packs.flatMap((pack) => standingOf(analysis, pack) ?? []),
    };
    remembered.set(analysis, budget);
  }
  return budget;
}

interface Stock {
  readonly capacity: Coulomb | undefined;
  readonly usable: readonly [Coulomb, Coulomb] | undefined;
  readonly usableSource: Source;
  readonly missing: readonly MissingField[];
}

/** Rated capacity of a battery: the smallest block's, times the strings side by side. */
function stockOf({ blocks, rest, chemistry: known }: Pack, analysis: Analysis): Stock {
  const chemistry = CHEMISTRIES.find((each) => each === known);
  const usableSource = usableShare(chemistry).source;
  const missing = blocks.flatMap(({ part, values }): MissingField[] =>
    values.number("capacity") === undefined ? [{ part: part.id, parameter: "capacity" }] : [],
  );
  const parked = analysis.state("parked") ?? analysis.states[0];
  if (missing.length > 0 || blocks.length === 0 || parked === undefined) {
    return { capacity: undefined, usable: undefined, usableSource, missing };
  }
  const emfs = blocks.map((block) => emfOf(analysis, parked, block));
  const strings = rest > 0 ? Math.max(1, Math.round(emfs.reduce((sum, emf) => sum + emf, 0) / rest)) : 1;
  const capacity = strings * Math.min(...blocks.map(({ values }) => values.number("capacity") ?? 0));
  return { capacity, usable: usableCharge(capacity, chemistry), usableSource, missing };
}

function emfOf({ network }: Analysis, state: SolvedState, part: NetworkPart): Volt {
  return network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount).reduce((sum, { index }) => {
    const element = state.elements[index];
    return element?.type === "source" ? sum + element.emf : sum;
  }, 0);
}

const lasts = (
  usable: readonly [Coulomb, Coulomb] | undefined,
  current: Ampere,
): readonly [Second, Second] | undefined =>
  usable === undefined ? undefined : current <= 0 ? [Infinity, Infinity] : [usable[0] / current, usable[1] / current];

function systemOf(analysis: Analysis, supply: Pack, battery: boolean): AuxiliarySystem {
  const stock: Stock = battery
    ? stockOf(supply, analysis)
    : { capacity: undefined, usable: undefined, usableSource: usableShare(undefined).source, missing: [] };
  const states = analysis.states.map((state) => stateBudget(analysis, supply, battery, state, stock));
  const fields = [
    ...stock.missing,
    ...states.flatMap(({ outputs, assumed }) => [
      ...assumed,
      ...outputs.flatMap(({ most, limitField }) =>
        most === undefined && limitField !== undefined ? [limitField] : [],
      ),
    ]),
  ];
  let coils: readonly CoilOnLowBattery[] | undefined;
  return {
    supply,
    battery,
    capacity: stock.capacity,
    usable: stock.usable,
    usableSource: stock.usableSource,
    states,
    // Every state solved once more, with hot wires: only for those who ask.
    get coils() {
      return (coils ??= coilsOnLowBattery(analysis, supply));
    },
    missing: distinct(fields),
  };
}

function distinct(fields: readonly MissingField[]): readonly MissingField[] {
  return [...new Map(fields.map((field) => [JSON.stringify(field), field])).values()];
}

/** Nodes that metal joins to a pole in a state. */
const joinedTo = (analysis: Analysis, state: SolvedState, pole: NodeIndex): ReadonlySet<NodeIndex> =>
  analysis.reach(state, pole, { through: METAL });

/** What a battery gives (negative: takes): the currents of the sources whose plus is joined to its positive pole. */
function given(analysis: Analysis, state: SolvedState, pack: Pack, plus: ReadonlySet<NodeIndex>): Ampere {
  return pack.blocks.reduce(
    (sum, { firstBranch, branchCount }) =>
      analysis.network.branches.slice(firstBranch, firstBranch + branchCount).reduce((own, { index, a }) => {
        const element = state.elements[index];
        return element?.type === "source" && plus.has(a) ? own + (state.currents[index] ?? 0) : own;
      }, sum),
    0,
  );
}

/** Less than this is no current. */
const LEAST: Ampere = 1e-4;

function stateBudget(
  analysis: Analysis,
  supply: Pack,
  battery: boolean,
  state: SolvedState,
  { usable }: Stock,
): StateBudget {
  const plus = joinedTo(analysis, state, supply.positive);
  const minus = joinedTo(analysis, state, supply.negative);
  const outputs = feeds(analysis).flatMap((feed) => outputOf(feed, state, plus, minus) ?? []);
  const { draws, assumed } = drawsOf(analysis, state, plus, minus);
  const delivered = outputs.reduce((sum, { delivers }) => sum + delivers, 0);
  const solved = delivered + (battery ? given(analysis, state, supply, plus) : 0);
  const bus = Math.abs(state.between(supply.positive, supply.negative));
  const limited = !battery && outputs.some(({ delivers, most }) => most !== undefined && delivers > most * 0.999);
  // An output at its limit without a battery lets the voltage fall: the loads would draw more at its proper voltage.
  const nominal = draws.reduce((sum, { atRated }) => sum + atRated(supply.rest), 0);
  const demand = Math.max(0, limited ? Math.max(solved, nominal) : solved);
  const capable = outputs.reduce<Ampere | undefined>(
    (sum, { most }) => (sum === undefined || most === undefined ? undefined : sum + most),
    0,
  );
  const shortfall = capable === undefined ? undefined : Math.max(0, demand - capable);
  return {
    state: state.name,
    bus: Number.isNaN(bus) ? 0 : bus,
    loads: draws,
    demand: demand < LEAST ? 0 : demand,
    assumed,
    outputs,
    capable,
    shortfall,
    whileShort: !battery || shortfall === undefined ? undefined : lasts(usable, shortfall),
    onBatteryAlone: battery ? lasts(usable, demand < LEAST ? 0 : demand) : undefined,
  };
}

function outputOf(
  feed: Feed,
  state: SolvedState,
  plus: ReadonlySet<NodeIndex>,
  minus: ReadonlySet<NodeIndex>,
): Output | undefined {
  const [source] = feed.sources;
  const [part] = feed.parts;
  const element = source === undefined ? undefined : state.elements[source.index];
  if (source === undefined || part === undefined || element?.type !== "limited-source") return undefined;
  if (element.limit <= 0 || !plus.has(source.a) || !minus.has(source.b)) return undefined;
  return { part, delivers: state.currents[source.index] ?? 0, most: feed.limit, limitField: feed.limitField };
}

function coilsOnLowBattery(analysis: Analysis, supply: Pack): readonly CoilOnLowBattery[] {
  return analysis.states.flatMap((state) => {
    const plus = joinedTo(analysis, state, supply.positive);
    const fed = analysis.network.parts.flatMap((part) =>
      (part.kind.coils?.(part.values) ?? []).flatMap((coil) => {
        const [a, b] = [part.nodes.get(coil.plus), part.nodes.get(coil.minus)];
        return a === undefined || b === undefined || plus.has(a) === plus.has(b) ? [] : [{ part, coil, a, b }];
      }),
    );
    if (fed.length === 0) return [];
    const hot = analysis.solveChanged(state, { resistances: "hot", hold: true });
    const bus = Math.abs(hot.between(supply.positive, supply.negative));
    if (!(bus > 0)) return [];
    return fed.flatMap(({ part, coil, a, b }): CoilOnLowBattery[] => {
      const volts = (Math.abs(hot.between(a, b)) * LOWEST_AUXILIARY) / bus;
      return volts > 0.1 ? [{ part, coil, state: state.name, volts }] : [];
    });
  });
}

function standingOf(analysis: Analysis, pack: Pack): StandingDrain | undefined {
  const after = analysis.parkedAfterDriving;
  const states = [analysis.state("parked"), after].flatMap((state) => state ?? []);
  const looked = states.map((state) => ({
    state,
    current: given(analysis, state, pack, joinedTo(analysis, state, pack.positive)),
  }));
  const [first, ...more] = looked;
  if (first === undefined) return undefined;
  const worst = more.reduce((most, each) => (each.current > most.current * 1.001 ? each : most), first);
  const { state } = worst;
  const current = Math.max(0, worst.current);
  const plus = joinedTo(analysis, state, pack.positive);
  const { draws, assumed } = drawsOf(analysis, state, plus, joinedTo(analysis, state, pack.negative));
  const stock = stockOf(pack, analysis);
  return {
    pack,
    state: state.name,
    afterDriving: state === after,
    current,
    draws,
    capacity: stock.capacity,
    flatAfter: lasts(stock.usable, current),
    usableSource: stock.usableSource,
    missing: distinct([...stock.missing, ...assumed]),
  };
}
