/** What a fuse or breaker carries steadily, and the next smaller rating that would carry it as well. */
import type { Analysis } from "../../circuit/analysis.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { CONTINUOUS_SHARE, largestRating, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import type { Device } from "../../studies/words/devices.ts";
import { faults } from "../../studies/words/faults.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { bothEnds } from "../../studies/words/resistance-ends.ts";
import type { MissingField, Remedy } from "../define.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
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

/** Ratings that a remedy may propose: those sold in which the load uses four fifths at most. */
function proposed(device: Device, load: DeviceLoad): readonly Ampere[] {
  const { rating, ratingField } = device;
  if (rating === undefined || !("part" in ratingField) || device.inside || load.unknown) return [];
  return STANDARD_RATINGS.filter((each) => each * CONTINUOUS_SHARE >= load.high);
}

function fit({ ratingField }: Device, rating: Ampere | undefined, id: string): readonly Remedy[] {
  if (rating === undefined || !("part" in ratingField)) return [];
  const changes = [{ part: ratingField.part, name: ratingField.parameter, value: `${rating} A` }];
  const apply: Remedy["apply"] = (project) => execute(project, setParameter, { changes }, KINDS).project;
  return [{ id, label: `Fit one of ${rating} A`, apply }];
}

/** The largest standard rating below its own that suits and still carries the load with a fifth to spare. */
export function smallerDevice(
  analysis: Analysis,
  device: Device,
  suits: (rating: Ampere) => boolean,
): readonly Remedy[] {
  const own = device.rating ?? 0;
  const ratings = proposed(device, deviceLoad(analysis, device));
  return fit(
    device,
    ratings.findLast((each) => each < own && suits(each)),
    "smaller-device",
  );
}

/** The next larger rating, if the wires that it protects and its holder allow it (33 CFR 183.455). */
export function largerDevice(analysis: Analysis, device: Device, load: DeviceLoad): readonly Remedy[] {
  const own = device.rating ?? 0;
  const most = Math.min(device.part.values.number("holderRating") ?? Infinity, allowedBehind(analysis, device));
  return fit(
    device,
    proposed(device, load).find((each) => each > own && each <= most),
    "larger-device",
  );
}

function allowedBehind(analysis: Analysis, device: Device): Ampere {
  let most = Infinity;
  for (const fault of faults(analysis)) {
    if (!fault.devices.includes(device)) continue;
    const volts = nominalVoltage(analysis, fault.walk.feed);
    for (const { conductor } of [...fault.way, ...fault.back]) {
      const ampacity = conductor === undefined ? undefined : wireAmpacity(analysis, conductor);
      if (ampacity !== undefined) most = Math.min(most, ampacity.known ? largestRating(ampacity.low, volts) : 0);
    }
  }
  return most;
}
