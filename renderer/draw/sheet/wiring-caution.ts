/**
 * What a wire between two terminals would do wrong, said before it is drawn. Read off the solved drawing, so it is
 * said of what is there; nothing is refused, and what nobody can know yet is not said.
 */
import { KINDS } from "../../../core/parts/catalogue.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import { DisjointSets } from "../../../core/network/sets.ts";
import type { Project, WireEnd } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import { POTENTIALS } from "../../window/analysis/protocol.ts";
import type { Potential, SolvedView } from "../../window/analysis/protocol.ts";
import { terminalIndex } from "./wire-look.ts";

/** One sentence, or undefined where nothing speaks against it. */
export function wiringCaution(
  project: Project,
  solved: SolvedView | null,
  from: WireEnd,
  to: WireEnd,
): string | undefined {
  const [a, b] = [terminalKey(from), terminalKey(to)];
  if (a === b) return undefined;
  if (solved === null) return undefined;
  const terminals = terminalIndex(solved);
  const [at, bt] = [terminals.get(a), terminals.get(b)];
  if (at === undefined || bt === undefined) return undefined;
  const [netA, netB] = [solved.netOfTerminal[at] ?? -1, solved.netOfTerminal[bt] ?? -1];
  if (netA !== -1 && netA === netB) return "Both ends are one net already: this wire would change nothing.";
  const shorted = shortedBattery(project, solved, netA, netB);
  if (shorted !== undefined) return `Bolted short: this would join plus and minus of ${shorted}.`;
  for (const state of solved.states) {
    const potentials = [at, bt].map((index): Potential => POTENTIALS[state.potential[index] ?? 0] ?? "dead");
    if (!potentials.includes("traction")) continue;
    if (potentials.includes("auxiliary"))
      return `Traction on the low-voltage circuit: in "${state.name}" one end is live from the pack.`;
    if (potentials.includes("chassis"))
      return `Traction on the chassis: in "${state.name}" one end is live from the pack.`;
  }
  return undefined;
}

/** Designation of a battery whose poles lie in the two nets, with nothing but wires, fuses and closed isolators between. */
function shortedBattery(project: Project, solved: SolvedView, netA: number, netB: number): string | undefined {
  const terminals = terminalIndex(solved);
  const sets = new DisjointSets(solved.nets.length);
  const netOf = (part: string, terminal: string): number => {
    const at = terminals.get(terminalKey([part, terminal]));
    return at === undefined ? -1 : (solved.netOfTerminal[at] ?? -1);
  };
  const batteries: (readonly [name: string, plus: number, minus: number])[] = [];
  for (const part of project.parts) {
    const known = knownPart(part, KINDS);
    if (known === undefined) continue;
    const { device, disconnect, battery } = known.kind.traits;
    const [first, second] = known.terminals;
    if (battery === true) batteries.push([part.designation, netOf(part.id, "+"), netOf(part.id, "-")]);
    else if ((device !== undefined || disconnect === true) && first !== undefined && second !== undefined) {
      const [one, other] = [netOf(part.id, first.id), netOf(part.id, second.id)];
      if (one !== -1 && other !== -1) sets.join(one, other);
    }
  }
  const [a, b] = [sets.find(netA), sets.find(netB)];
  return batteries.find(([, plus, minus]) => {
    if (plus === -1 || minus === -1) return false;
    const [p, m] = [sets.find(plus), sets.find(minus)];
    return (p === a && m === b) || (p === b && m === a);
  })?.[0];
}
