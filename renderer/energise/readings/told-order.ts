/** Readings in the order in which the diagnosis counts them: state by state, as each state comes first. */
import type { Reading } from "../../../core/project/document.ts";

export function inToldOrder(readings: readonly Reading[]): readonly Reading[] {
  const states = [...new Set(readings.map(({ state }) => state))];
  return states.flatMap((state) => readings.filter((reading) => reading.state === state));
}
