/** Pulses above the rating of a device while something is switched on: what it has to let pass without melting. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { clearingDevice, preArcingI2t } from "../../studies/fuse-clearing.ts";
import type { Device } from "../../studies/words/devices.ts";

/** Transitions in which loads and capacitors are switched on. */
const SWITCHING_ON: readonly TransitionName[] = ["key-on", "drive", "plug-in"];

export function switchingOn(analysis: Analysis): readonly Transition[] {
  return SWITCHING_ON.flatMap((name) => analysis.transition(name) ?? []);
}

export interface Pulse {
  readonly transition: TransitionName;
  readonly peak: Ampere;
  /** I2t while the current is above the rating, in A2s. */
  readonly energy: number;
  /** Of a device of this make, at the pulse's own mean: melts at the earliest, has surely cleared. */
  readonly least: number;
  readonly most: number;
}

export function pulsesThrough(transition: Transition, device: Device): readonly Pulse[] {
  const { rating } = device;
  if (rating === undefined) return [];
  const currents = transition.currents(device.branch.index);
  const { times } = transition;
  const pulses: Pulse[] = [];
  let [energy, duration, peak] = [0, 0, 0];
  const close = (): void => {
    if (energy > 0 && duration > 0) {
      const melting = preArcingI2t(clearingDevice(device.part), Math.sqrt(energy / duration));
      pulses.push({
        transition: transition.name,
        peak,
        energy,
        least: melting?.least ?? 0,
        most: melting?.most ?? Infinity,
      });
    }
    [energy, duration, peak] = [0, 0, 0];
  };
  for (let sample = 1; sample < times.length; sample += 1) {
    const [before, now] = [Math.abs(currents[sample - 1] ?? 0), Math.abs(currents[sample] ?? 0)];
    const step = (times[sample] ?? 0) - (times[sample - 1] ?? 0);
    if (Math.max(before, now) <= rating) {
      close();
      continue;
    }
    // The integral of the square of a straight line.
    energy += (step * (before ** 2 + before * now + now ** 2)) / 3;
    duration += step;
    peak = Math.max(peak, before, now);
  }
  close();
  return pulses;
}
