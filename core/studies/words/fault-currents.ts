/** Currents of a bolted fault, solved with everything else held as it stands. Kept for each fault. */
import type { Analysis, Change } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { devices } from "./devices.ts";
import type { Fault } from "./faults.ts";
import type { MissingField } from "../missing-field.ts";

export interface FaultQuestion {
  /** Lowest resistance of the sources: most current. Highest: least. */
  readonly resistances: "lowest" | "highest";
  /** With every device taken out: what still flows has none in its loop. */
  readonly withoutDevices?: boolean;
}

const remembered = new WeakMap<Fault, Map<string, Float64Array>>();

/** Current of every branch. */
export function faultCurrents(analysis: Analysis, fault: Fault, question: FaultQuestion): Float64Array {
  const key = `${question.resistances} ${String(question.withoutDevices === true)}`;
  const known = remembered.get(fault) ?? new Map<string, Float64Array>();
  remembered.set(fault, known);
  let currents = known.get(key);
  if (currents === undefined) {
    const change: Change = {
      shorts: [[fault.from, fault.to]],
      hold: true,
      resistances: question.resistances,
      ...(question.withoutDevices === true ? { open: [...devices(analysis).keys()] } : {}),
    };
    known.set(key, (currents = analysis.solveChanged(fault.walk.state, change).currents));
  }
  return currents;
}

export function through(currents: Float64Array, conductor: Conductor): Ampere {
  return Math.abs(currents[conductor.branch] ?? 0);
}

/**
 * The least current of a wire in this fault, with the batteries at the highest end of their resistance; `most` itself
 * where they state it, as nothing else in the loop is a range.
 */
export function leastThrough(
  analysis: Analysis,
  fault: Fault,
  conductor: Conductor,
  most: Ampere,
  withoutDevices: boolean,
): Ampere {
  if (unstatedResistance(fault).length === 0) return most;
  return through(faultCurrents(analysis, fault, { resistances: "highest", withoutDevices }), conductor);
}

/** Blocks of the feed whose resistance is only known as a range. */
export function unstatedResistance(fault: Fault): readonly MissingField[] {
  if (!fault.walk.feed.storage) return [];
  return fault.walk.feed.parts
    .filter(({ values }) => values.number("resistance") === undefined)
    .map(({ part }) => ({ part: part.id, parameter: "resistance" }));
}

/** Wires in the loop of a fault for whose length or size something was assumed. */
export function assumedInLoop(fault: Fault): readonly MissingField[] {
  return [...fault.way, ...fault.back].flatMap(({ conductor }) =>
    (conductor?.assumed ?? []).map((field) => ({ wire: conductor?.wire.id ?? "", field })),
  );
}
