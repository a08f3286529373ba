/**
 * Taps: a short, thinner conductor that leaves a well-protected one and ends at a device of its own, or at a resistor
 * that limits the current (33 CFR 183.455(b): the distance within which a device may follow).
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { exits, wayWithin } from "./fault-exits.ts";
import type { Fault } from "./faults.ts";
import { runVerdict } from "./run-length.ts";
import type { RunVerdict } from "./run-length.ts";

/**
 * Is the wire at `index` of a way (pole first, beginning at `origin`) part of such a tap? Undefined where it leads to
 * something else as well, or where the fault lies behind its own device. `thin` tells which wires of the way are too thin for the device before them.
 */
export function tapVerdict(
  analysis: Analysis,
  { walk, devices }: Fault,
  origin: NodeIndex,
  way: readonly Branch[],
  index: number,
  thin: (branch: Branch) => boolean,
): RunVerdict | undefined {
  const wire = way[index];
  if (wire === undefined) return undefined;
  let start = index;
  for (let i = index - 1; i >= 0; i -= 1) {
    const branch = way[i];
    if (branch === undefined || branch.role === "protection" || (branch.conductor !== undefined && !thin(branch)))
      break;
    start = i;
  }
  const nodes = nodesAlong(origin, way);
  const far = nodes[index + 1];
  if (far === undefined) return undefined;
  const beyond = exits(analysis, far, wire, walk.poles);
  if (beyond.open.length > 0 || beyond.entrances.length === 0) return undefined;
  if (beyond.entrances.some(({ branch }) => devices.some((device) => device.branch === branch))) return undefined;
  const verdicts = beyond.entrances.map(({ node }) =>
    runVerdict(analysis, [...way.slice(start, index + 1), ...wayWithin(beyond, node)], false),
  );
  return verdicts.reduce((worst, each) => (order(each) > order(worst) ? each : worst));
}

function order({ verdict }: RunVerdict): number {
  return verdict === "within" ? 0 : verdict === "open" ? 1 : 2;
}

/** The nodes of a way, one more than its branches. */
export function nodesAlong(origin: NodeIndex, way: readonly Branch[]): readonly NodeIndex[] {
  const nodes = [origin];
  for (const { a, b } of way) {
    const at = nodes[nodes.length - 1];
    nodes.push(a === at ? b : a);
  }
  return nodes;
}
