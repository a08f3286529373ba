/** The next smaller or larger rating of a fuse or breaker that its load and its wires allow. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { CONTINUOUS_SHARE, largestRating, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import type { Device } from "../../studies/words/devices.ts";
import { faults } from "../../studies/words/faults.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import type { Remedy } from "../define.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import type { BranchLoad } from "../../studies/words/branch-load.ts";
import { exchangeDevice } from "./exchange-device.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";

/** Ratings that a remedy may propose: those sold in which the load uses four fifths at most. */
function proposed(device: Device, load: BranchLoad): readonly Ampere[] {
  if (device.rating === undefined || device.inside || load.unknown) return [];
  return STANDARD_RATINGS.filter((each) => each * CONTINUOUS_SHARE >= load.high);
}

function fit(device: Device, rating: Ampere | undefined, id: string): readonly Remedy[] {
  if (rating === undefined) return [];
  return exchangeDevice(id, device, { rating }, `of ${rating} A`);
}

/** The largest standard rating below its own that suits and still carries the load with a fifth to spare. */
export function smallerDevice(
  analysis: Analysis,
  device: Device,
  suits: (rating: Ampere) => boolean,
): readonly Remedy[] {
  const own = device.rating ?? 0;
  const ratings = proposed(device, branchLoad(analysis, device.branch));
  return fit(
    device,
    ratings.findLast((each) => each < own && suits(each)),
    "smaller-device",
  );
}

/** The next larger rating, if the wires that it protects and its holder allow it (33 CFR 183.455). */
export function largerDevice(analysis: Analysis, device: Device, load: BranchLoad): readonly Remedy[] {
  const own = device.rating ?? 0;
  const most = Math.min(device.part.values.number("holderRating") ?? Infinity, allowedBehind(analysis, device));
  return fit(
    device,
    proposed(device, load).find((each) => each > own && each <= most),
    "larger-device",
  );
}

/** The largest rating that may protect every wire behind a device; Infinity where none is. */
export function allowedBehind(analysis: Analysis, device: Device): Ampere {
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
