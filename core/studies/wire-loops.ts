/**
 * The loops in which the wires of a drawing lie: from a source to a consumer or coil and back, the motor's leads of a
 * DC drive included, each with what it may lose and what it loses as drawn.
 */
import type { Analysis } from "../circuit/analysis.ts";
import type { Conductor, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Ampere, Metre, Ratio, Volt } from "../quantity/kinds.ts";
import { CRITICAL_DROP, OTHER_DROP } from "../standards/voltage-drop.ts";
import type { MissingField } from "./missing-field.ts";
import { motorLoops } from "./words/motor-loops.ts";
import { nominalVoltage } from "./words/nominal-voltage.ts";
import { wireLength } from "./words/run-length.ts";
import { supplyPairs } from "./words/supply-pairs.ts";
import { dropsAt, lostIn } from "./words/voltage-drops.ts";

export interface WireLoop {
  readonly consumer: NetworkPart;
  readonly state: string;
  /** Nominal voltage of the source. */
  readonly volts: Volt;
  readonly critical: boolean;
  readonly allowed: Volt;
  /** Each wire once, with what it carries in this state. */
  readonly wires: readonly { readonly conductor: Conductor; readonly amperes: Ampere }[];
  /** All wires, out and back; undefined where one does not state its length. */
  readonly length: Metre | undefined;
  readonly missing: readonly MissingField[];
  /** As drawn, with the wires hot, it loses no more than it may. */
  readonly holds: boolean;
}

interface Consumer {
  readonly part: NetworkPart;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
  readonly main: boolean;
}

const remembered = new WeakMap<Analysis, readonly WireLoop[]>();

/** Every loop of a drawing, consumer by consumer. */
export function wireLoops(analysis: Analysis): readonly WireLoop[] {
  let all = remembered.get(analysis);
  if (all === undefined) {
    remembered.set(analysis, (all = consumersOf(analysis).flatMap((consumer) => loopsOf(analysis, consumer))));
  }
  return all;
}

function consumersOf(analysis: Analysis): readonly Consumer[] {
  const { network } = analysis;
  const pairs = supplyPairs(network).flatMap(({ part, pair, plus, minus, wired }): Consumer[] =>
    wired && pair.direction === "input" ? [{ part, plus, minus, main: pair.main }] : [],
  );
  const listed = new Set(pairs.map(({ plus, minus }) => `${String(plus)} ${String(minus)}`));
  const coils = network.parts.flatMap((part) =>
    (part.kind.coils?.(part.values) ?? []).flatMap((coil): Consumer[] => {
      const [plus, minus] = [part.nodes.get(coil.plus), part.nodes.get(coil.minus)];
      if (plus === undefined || minus === undefined || listed.has(`${String(plus)} ${String(minus)}`)) return [];
      return [{ part, plus, minus, main: false }];
    }),
  );
  return [...pairs, ...coils];
}

/** What states its power is a plain consumer and may lose 10 %, unless brakes or steering hang on it, or may. */
function isCritical({ kind, values }: NetworkPart): boolean {
  if (!("power" in kind.parameters)) return true;
  return "purpose" in kind.parameters && values.choice("purpose") !== "other";
}

const shareOf = (critical: boolean): Ratio => (critical ? CRITICAL_DROP : OTHER_DROP);

function loopsOf(analysis: Analysis, { part, plus, minus, main }: Consumer): readonly WireLoop[] {
  const critical = isCritical(part);
  const motor = main ? (motorLoops(analysis).get(part) ?? []) : [];
  return dropsAt(analysis, plus, minus).map(({ walk, wires: fed }): WireLoop => {
    const lost = [...fed, ...lostIn(analysis, walk.state, motor)];
    const wires = [...new Map(lost.map((each) => [each.conductor, each])).values()];
    const volts = nominalVoltage(analysis, walk.feed);
    const allowed = shareOf(critical) * volts;
    const missing = wires.flatMap(({ conductor }): MissingField[] =>
      wireLength(conductor) === undefined ? [{ wire: conductor.wire.id, field: "length" }] : [],
    );
    const length =
      missing.length > 0 ? undefined : wires.reduce((sum, { conductor }) => sum + (wireLength(conductor) ?? 0), 0);
    const holds = wires.reduce((sum, each) => sum + each.volts, 0) <= allowed;
    return { consumer: part, state: walk.state.name, volts, critical, allowed, wires, length, missing, holds };
  });
}

/** Of the loops of each wire the one that may lose the least for each metre; one of unknown length before all others. */
export function strictestLoops(loops: readonly WireLoop[]): ReadonlyMap<Conductor, WireLoop> {
  const perMetre = ({ allowed, length }: WireLoop): number => (length === undefined ? 0 : allowed / length);
  const strictest = new Map<Conductor, WireLoop>();
  for (const loop of loops) {
    for (const { conductor } of loop.wires) {
      const known = strictest.get(conductor);
      if (known === undefined || perMetre(loop) < perMetre(known)) strictest.set(conductor, loop);
    }
  }
  return strictest;
}
