/** Pulses above the rating of a device while something is switched on: what it has to let pass without melting. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { BranchIndex } from "../../network/network.ts";
import type { Ampere, Second } from "../../quantity/kinds.ts";
import { clearingDevice, preArcingI2t } from "../fuse-clearing.ts";
import type { Device } from "./devices.ts";

/** Transitions in which loads and capacitors are switched on. */
const SWITCHING_ON: readonly TransitionName[] = ["key-on", "drive", "plug-in"];

export function switchingOn(analysis: Analysis): readonly Transition[] {
  return SWITCHING_ON.flatMap((name) => analysis.transition(name) ?? []);
}

/** A stretch of time in which a current stays above some level. */
export interface Surge {
  readonly transition: TransitionName;
  readonly peak: Ampere;
  /** I2t of it, in A2s. */
  readonly energy: number;
  readonly duration: Second;
}

/** What flows through a branch above a level, surge by surge. */
export function surgesAbove(transition: Transition, branch: BranchIndex, level: Ampere): readonly Surge[] {
  const currents = transition.currents(branch);
  const { times } = transition;
  const surges: Surge[] = [];
  let [energy, duration, peak] = [0, 0, 0];
  const close = (): void => {
    if (energy > 0 && duration > 0) surges.push({ transition: transition.name, peak, energy, duration });
    [energy, duration, peak] = [0, 0, 0];
  };
  for (let sample = 1; sample < times.length; sample += 1) {
    const [before, now] = [Math.abs(currents[sample - 1] ?? 0), Math.abs(currents[sample] ?? 0)];
    const step = (times[sample] ?? 0) - (times[sample - 1] ?? 0);
    if (Math.max(before, now) <= level) {
      close();
      continue;
    }
    // The integral of the square of a straight line.
    energy += (step * (before ** 2 + before * now + now ** 2)) / 3;
    duration += step;
    peak = Math.max(peak, before, now);
  }
  close();
  return surges;
}

export interface Pulse extends Surge {
  /** Of a device of this make, at the pulse's own mean: melts at the earliest, has surely cleared. */
  readonly least: number;
  readonly most: number;
}

/** Surges above a device's own rating, beside what melts it. */
export function pulsesThrough(transition: Transition, device: Device): readonly Pulse[] {
  const { rating } = device;
  if (rating === undefined) return [];
  return surgesAbove(transition, device.branch.index, rating).map((surge) => {
    const melting = preArcingI2t(clearingDevice(device.part), Math.sqrt(surge.energy / surge.duration));
    return { ...surge, least: melting?.least ?? 0, most: melting?.most ?? Infinity };
  });
}
