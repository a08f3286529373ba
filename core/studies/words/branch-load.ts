/** What a fuse, a breaker or a contact carries steadily. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { bothEnds } from "./resistance-ends.ts";
import { wireCurrents } from "./wire-currents.ts";
import type { MissingField } from "../missing-field.ts";

export interface BranchLoad {
  /** The greatest steady current, at both ends of what is only known as a range. */
  readonly low: Ampere;
  readonly high: Ampere;
  readonly states: readonly string[];
  /** What would have to be stated of a drive or an output before the figure means anything. */
  readonly missing: readonly MissingField[];
  readonly unknown: boolean;
}

export function branchLoad(analysis: Analysis, branch: Branch): BranchLoad {
  const { network } = analysis;
  const currents = wireCurrents(analysis);
  // In series with a single wire at one of its ends it carries just what that wire carries, a charger's limit included.
  for (const node of [branch.a, branch.b]) {
    const end = network.terminalOfNode[node];
    const [wire, ...others] = end === undefined ? [] : network.wiresAt(end);
    const conductor = wire === undefined || others.length > 0 ? undefined : network.conductorByWire.get(wire.id);
    const current = conductor === undefined ? undefined : currents.get(conductor);
    if (current === undefined || sharesNode(analysis, branch, node)) continue;
    const low = Math.max(0, ...current.states.map((each) => each.low));
    return {
      low,
      high: current.most,
      states: [...new Set(current.states.flatMap((each) => (each.low > 0.99 * low ? [each.state] : [])))],
      missing: [...(current.drive ?? []), ...current.unlimited],
      unknown: current.drive !== undefined || current.unlimited.length > 0,
    };
  }
  const each = analysis.states.map((state) => {
    const ends = [state, ...bothEnds(analysis, state)].map((solved) => Math.abs(solved.currents[branch.index] ?? 0));
    return { state: state.name, low: Math.min(...ends), high: Math.max(...ends) };
  });
  const low = Math.max(0, ...each.map((one) => one.low));
  return {
    low,
    high: Math.max(0, ...each.map((one) => one.high)),
    states: each.flatMap((one) => (one.low > 0.99 * low ? [one.state] : [])),
    ...unknownOf(analysis, branch),
  };
}

/** Of a branch between wires of unknown current on both sides nobody knows the current either. */
function unknownOf(analysis: Analysis, { a, b }: Branch): Pick<BranchLoad, "missing" | "unknown"> {
  const { network } = analysis;
  const currents = wireCurrents(analysis);
  const sides = [a, b].map((node) => {
    const end = network.terminalOfNode[node];
    return (end === undefined ? [] : network.wiresAt(end)).flatMap((wire) => {
      const conductor = network.conductorByWire.get(wire.id);
      const current = conductor === undefined ? undefined : currents.get(conductor);
      return current === undefined ? [] : [...(current.drive ?? []), ...current.unlimited];
    });
  });
  const unknown = sides.every((side) => side.length > 0);
  const missing = unknown ? [...new Map(sides.flat().map((field) => [JSON.stringify(field), field])).values()] : [];
  return { missing, unknown };
}

/** Another element of the same part leads on from this terminal: the other throw of a changeover contact. */
function sharesNode({ network }: Analysis, { part, index }: Branch, node: number): boolean {
  if (part === undefined) return true;
  return network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .some((other) => other.index !== index && other.role !== "leak" && (other.a === node || other.b === node));
}
