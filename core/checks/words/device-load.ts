/** What a fuse or breaker carries steadily, and the next smaller rating that would carry it as well. */
import type { Analysis } from "../../circuit/analysis.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { CONTINUOUS_SHARE, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import type { Device } from "../../studies/words/devices.ts";
import { bothEnds } from "../../studies/words/resistance-ends.ts";
import type { MissingField, Remedy } from "../define.ts";
import { wireCurrents } from "../../studies/words/wire-currents.ts";

export interface DeviceLoad {
  /** The greatest steady current, at both ends of what is only known as a range. */
  readonly low: Ampere;
  readonly high: Ampere;
  readonly states: readonly string[];
  /** What would have to be stated of a drive or an output before the figure means anything. */
  readonly missing: readonly MissingField[];
  readonly unknown: boolean;
}

export function deviceLoad(analysis: Analysis, { branch }: Device): DeviceLoad {
  const { network } = analysis;
  const currents = wireCurrents(analysis);
  // In series with a single wire at one of its ends it carries just what that wire carries, a charger's limit included.
  for (const node of [branch.a, branch.b]) {
    const end = network.terminalOfNode[node];
    const [wire, ...others] = end === undefined ? [] : network.wiresAt(end);
    const conductor = wire === undefined || others.length > 0 ? undefined : network.conductorByWire.get(wire.id);
    const current = conductor === undefined ? undefined : currents.get(conductor);
    if (current === undefined) continue;
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
    missing: [],
    unknown: false,
  };
}

/** The largest standard rating below its own that suits and still carries the load with a fifth to spare. */
export function smallerDevice(
  analysis: Analysis,
  device: Device,
  suits: (rating: Ampere) => boolean,
): readonly Remedy[] {
  const { rating, ratingField } = device;
  if (rating === undefined || !("part" in ratingField) || device.inside) return [];
  const load = deviceLoad(analysis, device);
  if (load.unknown) return [];
  const smaller = STANDARD_RATINGS.findLast(
    (each) => each < rating && each * CONTINUOUS_SHARE >= load.high && suits(each),
  );
  if (smaller === undefined) return [];
  const changes = [{ part: ratingField.part, name: ratingField.parameter, value: `${smaller} A` }];
  return [
    {
      id: "smaller-device",
      label: `Fit one of ${smaller} A`,
      apply: (project) => execute(project, setParameter, { changes }, KINDS).project,
    },
  ];
}
