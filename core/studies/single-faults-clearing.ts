/** Fuses and breakers that a fault makes open, one after the other, until what is left carries no more than it may. */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { Ratio } from "../quantity/kinds.ts";
import { devices } from "./words/devices.ts";
import type { Device } from "./words/devices.ts";

/** From here a device must open within an hour (UL 248-14: 135 % within 60 min, seen; ISO 8820-3: within 30 min, from memory). */
const CLEARS: Ratio = 1.35;
/** A partial-range fuse opens on short circuits only (common practice, no source; the maker's curve says where it begins). */
const CLEARS_PARTIAL: Ratio = 5;
/** More devices than this in a row are not waited for. */
const MOST_CLEARED = 6;

/** Devices of known rating. */
export function clearingDevices(analysis: Analysis): readonly Device[] {
  return [...devices(analysis).values()].filter(({ rating }) => rating !== undefined && rating > 0);
}

/**
 * The state that a fault leaves behind, and the devices that opened, the one furthest above its rating first. One that
 * is overloaded as drawn is another matter and stays in.
 */
export function cleared(
  analysis: Analysis,
  all: readonly Device[],
  drawn: SolvedState,
  faulted: SolvedState,
): { readonly state: SolvedState; readonly opened: readonly Device[] } {
  let state = faulted;
  const opened: Device[] = [];
  while (opened.length < MOST_CLEARED) {
    let most = 1;
    let first: Device | undefined;
    for (const device of all) {
      const { index } = device.branch;
      const clears = (device.rating ?? Infinity) * (device.endsOverloads ? CLEARS : CLEARS_PARTIAL);
      const times = Math.abs(state.currents[index] ?? 0) / clears;
      if (times <= most || Math.abs(drawn.currents[index] ?? 0) > clears) continue;
      most = times;
      first = device;
    }
    if (first === undefined) break;
    opened.push(first);
    state = analysis.solveChanged(faulted, { open: opened.map(({ branch }) => branch.index) });
  }
  return { state, opened };
}
