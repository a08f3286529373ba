/** Leads a branch that begins ahead of a fuse or breaker from behind it instead. */
import type { Analysis } from "../../circuit/analysis.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import { CONTINUOUS_SHARE, largestRating } from "../../standards/overcurrent.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import { devices } from "../../studies/words/devices.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { ampacityOf, demand } from "./fit-fuse.ts";
import type { Branching } from "./fit-fuse.ts";

/**
 * Offered where exactly one device begins at the same point, may protect the branch's wires and carries both loads
 * with a fifth to spare (NEC 210.20).
 */
export function behindDevice(analysis: Analysis, branching: Branching): readonly Remedy[] {
  const { network } = analysis;
  const { walk, first, near, wires } = branching;
  const load = demand(analysis, branching);
  if (load === undefined) return [];
  const most = largestRating(ampacityOf(analysis, wires), nominalVoltage(analysis, walk.feed));
  const here = network.netOfNode[near];
  // A charger's or converter's own fuse is there for its output.
  const outputs = new Set(
    supplyPairs(network)
      .filter(({ pair }) => pair.direction === "output")
      .flatMap(({ plus, minus }) => [network.netOfNode[plus], network.netOfNode[minus]]),
  );
  const fitting = [...devices(analysis).values()].flatMap(({ branch, part, rating, inside, endsOverloads }) => {
    const far = [branch.a, branch.b].find((node) => network.netOfNode[node] !== here);
    const to = network.terminalOfNode[far ?? -1];
    const begins = [branch.a, branch.b].some((node) => network.netOfNode[node] === here);
    if (far === undefined || outputs.has(network.netOfNode[far])) return [];
    if (inside || !endsOverloads || !begins || to === undefined || rating === undefined || rating > most) return [];
    const own = branchLoad(analysis, branch);
    return own.unknown || own.high + load > rating * CONTINUOUS_SHARE ? [] : [{ part, to }];
  });
  const [device, ...others] = fitting;
  if (device === undefined || others.length > 0) return [];
  const { wire } = first;
  const label = `Lead wire ${wire.number} from ${network.label(device.to)}, behind ${device.part.part.designation}`;
  return [
    remedy("behind-device", label, (edit) =>
      edit.run(reconnect, { wire: wire.id, end: first.a === near ? 0 : 1, to: device.to }),
    ),
  ];
}
