/**
 * Low-voltage terminals with their reference and what they stand: the control pins of a controller that is fed from
 * 12 V, and the supply pairs of parts with a stated voltage rating. And which of them touch a traction pack on one side
 * only: one leak or one more return then puts the whole pack across them.
 */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { TWELVE_VOLT_RANGE } from "../../standards/coils.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { isOnPack, tractionPacks } from "../../studies/words/live.ts";
import { belongingAt } from "../../studies/words/belongs.ts";

export interface LowVoltagePair {
  readonly part: NetworkPart;
  readonly terminal: string;
  readonly node: NodeIndex;
  readonly reference: string;
  readonly referenceNode: NodeIndex;
  /** undefined: nobody stated it. */
  readonly rating: Volt | undefined;
  readonly parameter: string;
  /** Joined to 12 V by its maker's statement, so that the 16 V of a 12 V system stand in for an unstated rating. */
  readonly twelveVolt: boolean;
}

export interface PackOnLowVoltage {
  readonly pair: LowVoltagePair;
  readonly pack: Pack;
  /** Highest voltage that can come across the pair. */
  readonly volts: Volt;
}

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "resistor", "diode"];

/** Pins that are made for the pack or for a port of their own. */
const OTHER_PINS = new Set(["pack-sense", "serial-tx", "serial-rx", "serial-ground"]);

const isWired = (analysis: Analysis, part: NetworkPart, terminal: string): boolean =>
  analysis.network.wiresAt([part.part.id, terminal]).length > 0;

function controllerPairs(analysis: Analysis, part: NetworkPart): readonly LowVoltagePair[] {
  const referenceNode = part.nodes.get("logic-");
  if (referenceNode === undefined) return [];
  const stated = part.values.number("logicMax");
  return part.terminals.flatMap(({ id, form }): LowVoltagePair[] => {
    const node = part.nodes.get(id);
    if (form !== "pin" || id === "logic-" || OTHER_PINS.has(id) || node === undefined) return [];
    if (!isWired(analysis, part, id)) return [];
    return [
      {
        part,
        terminal: id,
        node,
        reference: "logic-",
        referenceNode,
        rating: stated ?? TWELVE_VOLT_RANGE[1],
        parameter: "logicMax",
        twelveVolt: true,
      },
    ];
  });
}

function ratedPairs(analysis: Analysis, part: NetworkPart): readonly LowVoltagePair[] {
  const limits = part.kind.limits(part.values).filter(({ kind }) => kind === "voltage-across");
  return part.kind.supplyPairs(part.values).flatMap((pair): LowVoltagePair[] => {
    if (pair.main || pair.direction !== "input") return [];
    const limit = limits.find(({ a, b }) => a === pair.plus && b === pair.minus);
    const [node, referenceNode] = [part.nodes.get(pair.plus), part.nodes.get(pair.minus)];
    if (limit === undefined || node === undefined || referenceNode === undefined) return [];
    if (!isWired(analysis, part, pair.plus) || !isWired(analysis, part, pair.minus)) return [];
    const { parameter } = limit;
    const rating: Volt | undefined = part.values.number(parameter);
    const ends = { terminal: pair.plus, node, reference: pair.minus, referenceNode };
    return [{ part, ...ends, rating, parameter, twelveVolt: false }];
  });
}

/** By controller: undefined where nobody stated what feeds its logic. */
export function lowVoltagePairs(analysis: Analysis, part: NetworkPart): readonly LowVoltagePair[] {
  if (part.kind.traits.controller !== true) return ratedPairs(analysis, part);
  const feed = part.values.choice("logicFeed");
  return feed === "isolated-12v" || feed === "shared-12v" ? controllerPairs(analysis, part) : [];
}

/**
 * The pack that can come across a pair, if there is one: both ends on it and the solved voltage above the rating, or
 * one end on it and the other on the 12 V side, on chassis, or (a controller's pins) anywhere else.
 */
function packAcross(analysis: Analysis, pair: LowVoltagePair): PackOnLowVoltage | undefined {
  const limit = pair.rating ?? 0;
  for (const pack of tractionPacks(analysis)) {
    const reference = isOnPack(analysis, pack, pair.referenceNode);
    // A pin that hangs on nothing but its own part (a throttle's) goes where the reference goes.
    const follows = pair.twelveVolt && reference && belongingAt(analysis, pair.node).traction.includes(pack);
    const at = follows || isOnPack(analysis, pack, pair.node);
    if (!at && !reference) continue;
    if (at && reference) {
      if (!pair.twelveVolt) continue;
      const solved = analysis.states.reduce((most, state) => {
        const volts = Math.abs(state.between(pair.node, pair.referenceNode));
        return Number.isNaN(volts) ? most : Math.max(most, volts);
      }, 0);
      // The pair takes its share of the pack at rest; on charge the share is the same, the pack higher.
      const volts = pack.rest > 0 ? (solved * pack.highest) / pack.rest : solved;
      if (volts > limit) return { pair, pack, volts };
      continue;
    }
    if (pack.highest <= limit) continue;
    const elsewhere = pair.twelveVolt || hangsOn(analysis, at ? pair.referenceNode : pair.node);
    if (elsewhere && isWired(analysis, pair.part, at ? pair.reference : pair.terminal)) {
      return { pair, pack, volts: pack.highest };
    }
  }
  return undefined;
}

/**
 * On the 12 V side or the chassis by something other than a load: the loose end of a lamp goes where its other end goes,
 * and nothing comes across it.
 */
function hangsOn(analysis: Analysis, node: NodeIndex): boolean {
  const { auxiliary, chassis } = belongingAt(analysis, node);
  if (auxiliary.length === 0 && !chassis) return false;
  return (
    auxiliary.some((pack) => isOnPack(analysis, pack, node)) ||
    analysis.states.some((state) => analysis.reach(state, node, { through: METAL }).has(CHASSIS_NODE))
  );
}

const kept = new WeakMap<Analysis, readonly PackOnLowVoltage[]>();

/** Every low-voltage pair that a pack can come across, in the order of parts and terminals. Kept per analysis. */
export function packsOnLowVoltage(analysis: Analysis): readonly PackOnLowVoltage[] {
  let found = kept.get(analysis);
  if (found === undefined) {
    found = analysis.network.parts.flatMap((part) =>
      lowVoltagePairs(analysis, part).flatMap((pair) => packAcross(analysis, pair) ?? []),
    );
    kept.set(analysis, found);
  }
  return found;
}
