/**
 * Isolation of the traction circuit from the chassis: what the two-reading method of UN R100 gives for the leaks that
 * the drawing states, and what a meter with its own resistance reads on the solved network.
 */
import type { Analysis, Pack, SolvedState } from "../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { Ohm, Volt } from "../quantity/kinds.ts";
import {
  ISOLATION_AC,
  ISOLATION_DC,
  isolationFromReadings,
  METER_RESISTANCE,
  readingResistor,
} from "../standards/isolation.ts";
import type { MissingField } from "./missing-field.ts";
import { belongingAt } from "./words/belongs.ts";
import { isFedBy, isLive, tractionPacks } from "./words/live.ts";

/** A leak of stated size between a node of the traction circuit and the chassis. */
export interface Leak {
  readonly part: NetworkPart;
  readonly node: NodeIndex;
  readonly ohms: Ohm;
}

/** The parameter that states what a part leaks: a source's, load's or converter's isolation, a monitor's own resistance. */
function leakParameter(part: NetworkPart): string | undefined {
  if ("isolation" in part.kind.parameters) return "isolation";
  return "internalResistance" in part.kind.parameters ? "internalResistance" : undefined;
}

function leaksOf(analysis: Analysis, part: NetworkPart, state: SolvedState): readonly Leak[] {
  return analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .flatMap(({ a, b, index, role }): Leak[] => {
      const element = state.elements[index];
      if (element?.type !== "resistance" || (role !== "leak" && role !== "sense")) return [];
      const toChassis = (node: NodeIndex): boolean => belongingAt(analysis, node).chassis;
      if (toChassis(a) === toChassis(b)) return [];
      return [{ part, node: toChassis(a) ? b : a, ohms: element.resistance }];
    });
}

/**
 * What the two-reading method gives for the stated leaks alone. A high-ohm meter from each pole to chassis reads where
 * the leaks put the chassis between the poles; with a resistor between the larger reading's pole and chassis that
 * reading falls to V Ro / (Ro + R), R being all leaks in parallel.
 */
function isolation(pack: Pack, state: SolvedState, leaks: readonly Leak[]): Ohm {
  const volts = Math.abs(state.between(pack.positive, pack.negative));
  const siemens = leaks.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
  const negative: Volt =
    leaks.reduce((sum, { node, ohms }) => sum + state.between(node, pack.negative) / ohms, 0) / siemens;
  const positive = volts - negative;
  const resistor = readingResistor(ISOLATION_AC, volts);
  const unloaded = Math.max(Math.abs(negative), Math.abs(positive));
  const loaded = (unloaded * resistor) / (resistor + 1 / siemens);
  return isolationFromReadings({
    pack: volts,
    negative: Math.abs(negative),
    positive: Math.abs(positive),
    loaded,
    resistor,
  });
}

export interface MeasuredIsolation {
  readonly ohms: Ohm;
  readonly states: readonly string[];
  readonly leaks: readonly Leak[];
}

function lowest(analysis: Analysis, pack: Pack, stated: readonly NetworkPart[]): MeasuredIsolation | undefined {
  let worst: MeasuredIsolation | undefined;
  for (const state of analysis.states) {
    // A pack that a contact has open in its middle has no two poles to measure between.
    if (!isFedBy(analysis, pack, state, pack.positive)) continue;
    const leaks = stated.flatMap((part) =>
      leaksOf(analysis, part, state).filter(({ node }) => isLive(analysis, pack, state, node)),
    );
    if (leaks.length === 0) continue;
    const ohms = isolation(pack, state, leaks);
    if (!Number.isFinite(ohms)) continue;
    if (worst === undefined || ohms < worst.ohms * (1 - 1e-3)) worst = { ohms, states: [state.name], leaks };
    else if (ohms < worst.ohms * (1 + 1e-3)) worst = { ...worst, states: [...worst.states, state.name] };
  }
  return worst;
}

/** A controller with three phases makes an AC circuit that is one metal with the pack. */
function hasAcDrive(parts: readonly NetworkPart[]): boolean {
  return parts.some(
    ({ kind, nodes }) => kind.traits.controller === true && nodes.has("U") && nodes.has("V") && nodes.has("W"),
  );
}

/** Ohm per volt that is too little, and the reading below which something is getting worse. */
export interface IsolationLimits {
  readonly least: number;
  readonly sound: number;
}

export interface PackIsolation {
  readonly pack: Pack;
  /** The chassis is part of the traction circuit: there is nothing to measure. */
  readonly joined: boolean;
  /** By the stated leaks alone, in the worst states; undefined where none is stated, or nothing leaks. */
  readonly measured: MeasuredIsolation | undefined;
  /** Of the pack's highest voltage, in ohm per volt; Infinity where nothing is measured. */
  readonly perVolt: number;
  /** An AC drive is one metal with the pack. */
  readonly ac: boolean;
  readonly limits: IsolationLimits;
  /** Parts on the pack that do not state their isolation. */
  readonly missing: readonly MissingField[];
}

/** Every traction pack, by the isolation that its parts state. */
export function packIsolations(analysis: Analysis): readonly PackIsolation[] {
  return tractionPacks(analysis).map((pack): PackIsolation => {
    const joined = belongingAt(analysis, CHASSIS_NODE).traction.includes(pack);
    const onPack = analysis.network.parts.filter((part) =>
      [...part.nodes.values()].some(
        (node) => node !== CHASSIS_NODE && analysis.states.some((state) => isLive(analysis, pack, state, node)),
      ),
    );
    const leaking = onPack.filter((part) => leakParameter(part) !== undefined);
    const isStated = (part: NetworkPart): boolean => part.values.stated(leakParameter(part) ?? "") === "confirmed";
    const missing = leaking
      .filter((part) => !isStated(part))
      .map((part): MissingField => ({ part: part.part.id, parameter: leakParameter(part) ?? "" }));
    const measured = joined ? undefined : lowest(analysis, pack, leaking.filter(isStated));
    const ac = hasAcDrive(onPack);
    return {
      pack,
      joined,
      measured,
      perVolt: measured === undefined ? Infinity : measured.ohms / pack.highest,
      ac,
      limits: { least: ac ? ISOLATION_AC : ISOLATION_DC, sound: ISOLATION_AC },
      missing,
    };
  });
}

export interface MeterReadings {
  readonly pack: Pack;
  readonly state: string;
  readonly meter: Ohm;
  /** Between the poles; each pole to chassis, sizes. */
  readonly volts: Volt;
  readonly negative: Volt;
  readonly positive: Volt;
  /** The larger of the two again, with this resistor between that pole and chassis. */
  readonly loadedPole: "negative" | "positive";
  readonly resistor: Ohm;
  readonly loaded: Volt;
  /** Ri = Ro Vb (1/V' - 1/V): the smaller of the two leaks. */
  readonly isolation: Ohm;
  /** Of the voltage between the poles. */
  readonly perVolt: number;
}

/**
 * What a meter reads from each pole of a pack to chassis in a state, its own resistance counted, on the solved network
 * with all its leaks (Thevenin: the voltage without the meter behind the two-point resistance).
 * @param resistor Ro; 500 ohm per volt unless given (UN R100 recommends the limit times the voltage)
 * @returns undefined where a pole has no voltage to chassis that could be read, as on a pack that is open in its middle
 */
export function meterReadings(
  analysis: Analysis,
  pack: Pack,
  state: SolvedState,
  { meter = METER_RESISTANCE, resistor }: { readonly meter?: Ohm; readonly resistor?: Ohm } = {},
): MeterReadings | undefined {
  const volts = Math.abs(state.between(pack.positive, pack.negative));
  const at = (pole: NodeIndex, across: Ohm): Volt => {
    const inside = analysis.resistanceBetween(state, pole, CHASSIS_NODE);
    const share = across === Infinity ? 1 : across / (across + inside);
    return Math.abs(state.between(pole, CHASSIS_NODE)) * share;
  };
  const [negative, positive] = [at(pack.negative, meter), at(pack.positive, meter)];
  if (!(volts > 0) || Number.isNaN(negative) || Number.isNaN(positive)) return undefined;
  const known = resistor ?? readingResistor(ISOLATION_AC, volts);
  const loadedPole = negative >= positive ? "negative" : "positive";
  const parallel = meter === Infinity ? known : (known * meter) / (known + meter);
  const loaded = at(loadedPole === "negative" ? pack.negative : pack.positive, parallel);
  const isolation = isolationFromReadings({ pack: volts, negative, positive, loaded, resistor: known });
  return {
    pack,
    state: state.name,
    meter,
    volts,
    negative,
    positive,
    loadedPole,
    resistor: known,
    loaded,
    isolation,
    perVolt: isolation / volts,
  };
}
