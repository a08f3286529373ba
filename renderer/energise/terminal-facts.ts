/** What is known of one terminal in the solved states: its net, volts, potential, the currents of its wires. */
import type { Project, WireEnd } from "../../core/project/document.ts";
import { partById, wiresAt } from "../../core/project/lookup.ts";
import { printQuantity } from "../../core/quantity/print.ts";
import { POTENTIALS } from "../window/analysis/protocol.ts";
import type { Potential, SolvedView, StateView } from "../window/analysis/protocol.ts";

const WORDS: Readonly<Record<Potential, string>> = {
  dead: "dead",
  auxiliary: "12 V circuit",
  traction: "traction",
  chassis: "chassis",
  floating: "floating",
};

export interface TerminalInState {
  /** Several where the figures are the same. */
  readonly states: readonly string[];
  readonly potential: string;
  readonly toChassis: string;
  /** undefined in a drawing without a traction pack. */
  readonly toPackNegative: string | undefined;
}

const volts = (value: number | undefined): string =>
  value === undefined || !Number.isFinite(value) ? "held by nothing" : printQuantity(value, "voltage");

export function terminalInState(solved: SolvedView, state: StateView, index: number): TerminalInState {
  const own = state.volts[index];
  const negative = solved.packNegative === -1 ? undefined : state.volts[solved.packNegative];
  return {
    states: [state.name],
    potential: WORDS[POTENTIALS[state.potential[index] ?? 0] ?? "dead"],
    toChassis: volts(own),
    toPackNegative: negative === undefined ? undefined : volts(own === undefined ? undefined : own - negative),
  };
}

/** States that read the same stand in one row, where the first of them stood. */
export function merged(rows: readonly TerminalInState[]): readonly TerminalInState[] {
  const byReading = new Map<string, TerminalInState>();
  for (const row of rows) {
    const key = [row.potential, row.toChassis, row.toPackNegative].join("|");
    const there = byReading.get(key);
    byReading.set(key, there === undefined ? row : { ...there, states: [...there.states, ...row.states] });
  }
  return [...byReading.values()];
}

export interface WireThere {
  readonly id: string;
  readonly number: string;
  /** "F1:2", or "a loose end". */
  readonly other: string;
  /** "12.4 A out", in the chosen state. */
  readonly current: string | undefined;
}

export const terminalName = (project: Project, [part, terminal]: WireEnd): string =>
  `${partById(project, part)?.designation ?? part}:${terminal}`;

/** The wires on a terminal, each with where it leads and what it carries away from here. */
export function wiresThere(
  project: Project,
  solved: SolvedView | null,
  state: StateView | undefined,
  end: WireEnd,
): readonly WireThere[] {
  return wiresAt(project, end).map((wire) => {
    const [a, b] = wire.ends;
    const fromHere = a !== null && a[0] === end[0] && a[1] === end[1];
    const other = fromHere ? b : a;
    const amps = state?.amps[solved?.wires.indexOf(wire.id) ?? -1];
    return {
      id: wire.id,
      number: wire.number,
      other: other === null ? "a loose end" : terminalName(project, other),
      current: amps === undefined ? undefined : currentWords(fromHere ? amps : -amps),
    };
  });
}

/** Below this a current is the meter's noise and the leaks': it has no direction worth telling. */
const STILL = 1e-3;

export function currentWords(amps: number): string | undefined {
  if (!Number.isFinite(amps)) return undefined;
  if (Math.abs(amps) < STILL) return "no current";
  return `${printQuantity(Math.abs(amps), "current")} ${amps > 0 ? "out" : "in"}`;
}
