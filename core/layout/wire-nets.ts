/** Which wires are one net by wires alone: lines that may touch on the sheet. */
import { DisjointSets } from "../network/sets.ts";
import type { Project, WireId } from "../project/document.ts";
import { terminalKey } from "./placed-view.ts";

/** A number from 1 for each wire; equal where wires meet at a terminal, directly or through others. */
export function wireNets(project: Project): ReadonlyMap<WireId, number> {
  const places = new Map<string, number>();
  const sets = new DisjointSets(project.wires.length);
  project.wires.forEach((wire, index) => {
    for (const end of wire.ends) {
      if (end === null) continue;
      const key = terminalKey(end);
      const first = places.get(key);
      if (first === undefined) places.set(key, index);
      else sets.join(first, index);
    }
  });
  return new Map(project.wires.map((wire, index) => [wire.id, sets.find(index) + 1]));
}
