/**
 * Readings as people hand them in: a file of the shape {"state","readings":[{"plus","minus","volts"}]} (or a list of
 * such), or those kept in the project. Terminals are named as on the drawing, "F1:2"; the vehicle's metal is "chassis".
 */
import type { Analysis } from "../circuit/analysis.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { NodeIndex } from "../network/network.ts";
import { choiceOf } from "../project/nearest.ts";
import { scanJson } from "../project/scan.ts";
import { parseQuantity } from "../quantity/parse.ts";
import type { Volt } from "../quantity/kinds.ts";
import type { Points, ReadingSet } from "./diagnose.ts";

/** `problem`: one sentence with place and remedy. */
export type ReadReadings =
  | { readonly ok: true; readonly sets: readonly ReadingSet[] }
  | { readonly ok: false; readonly problem: string };

/** More than anybody measures on one vehicle; what it is for is that a slip does not take for ever. */
const MOST_READINGS = 2000;
/** Nothing on a vehicle, its mains inlet included, stands higher. */
const MOST_VOLTS: Volt = 10_000;
const DEPTH = 6;

const SHAPE =
  'Write {"state":"parked","readings":[{"plus":"F1:2","minus":"chassis","volts":76.1}]}, or a list of such in brackets.';

class Unreadable extends Error {}

/** Reads the text of a file of readings. */
export function readReadings(text: string, analysis: Analysis): ReadReadings {
  return told(() => {
    const broken = scanJson(text, DEPTH, 50_000);
    if (broken !== undefined) throw new Unreadable(`${brokenAt(broken)} ${SHAPE}`);
    const document: unknown = JSON.parse(text);
    const sets: readonly unknown[] = Array.isArray(document) ? document : [document];
    if (sets.length === 0) throw new Unreadable(`It holds no readings. ${SHAPE}`);
    return counted(
      sets.map((set, index) => setOf(analysis, set, sets.length > 1 ? `Entry ${index + 1}` : "The readings")),
    );
  });
}

/** The readings kept in the project. */
export function projectReadings(analysis: Analysis): ReadReadings {
  const { readings } = analysis.network.project;
  return told(() => {
    const states = [...new Set(readings.map(({ state }) => state))];
    return counted(
      states.map((state) => {
        known(analysis, state, "The project's readings");
        const own = readings.map((reading, index) => ({ reading, place: `Reading ${index + 1} of the project` }));
        return collected(
          state,
          own
            .filter(({ reading }) => reading.state === state)
            .map(({ reading, place }) => readingOf(analysis, reading, place)),
        );
      }),
    );
  });
}

function told(read: () => readonly ReadingSet[]): ReadReadings {
  try {
    return { ok: true, sets: read() };
  } catch (problem) {
    if (problem instanceof Unreadable) return { ok: false, problem: problem.message };
    throw problem;
  }
}

function counted(sets: readonly ReadingSet[]): readonly ReadingSet[] {
  const count = sets.reduce((sum, { volts }) => sum + volts.length, 0);
  if (count === 0) throw new Unreadable("There is not one reading in it: measure at least one voltage.");
  if (count > MOST_READINGS) {
    throw new Unreadable(`It holds ${count} readings, more than ${MOST_READINGS}: keep those near the trouble.`);
  }
  return sets;
}

function setOf(analysis: Analysis, set: unknown, place: string): ReadingSet {
  const { state, readings } = fields(set, place);
  if (typeof state !== "string") throw new Unreadable(`${place}: the state is missing. ${SHAPE}`);
  known(analysis, state, place);
  if (!Array.isArray(readings)) throw new Unreadable(`${place}: the list "readings" is missing. ${SHAPE}`);
  const where = (index: number): string => `Reading ${index + 1} in the state ${state}`;
  return collected(
    state,
    readings.map((reading: unknown, index) => readingOf(analysis, fields(reading, where(index)), where(index))),
  );
}

function known(analysis: Analysis, state: string, place: string): void {
  if (analysis.state(state) !== undefined) return;
  const names = analysis.states.map(({ name }) => name);
  throw new Unreadable(`${place}: this drawing has no state "${cut(state)}". ${choiceOf(state, names)}`);
}

interface OneReading {
  readonly points: Points;
  readonly volts: Volt;
}

function collected(state: string, list: readonly OneReading[]): ReadingSet {
  return { state, points: list.map(({ points }) => points), volts: list.map(({ volts }) => volts) };
}

function readingOf(
  analysis: Analysis,
  { plus, minus, volts }: Readonly<Record<string, unknown>> | { plus: string; minus: string; volts: string },
  place: string,
): OneReading {
  const points = [nodeAt(analysis, plus, `${place}, plus`), nodeAt(analysis, minus, `${place}, minus`)] as const;
  return { points, volts: voltsOf(volts, `${place}, volts`) };
}

function voltsOf(volts: unknown, place: string): Volt {
  const reading = typeof volts === "string" ? parseQuantity(volts, "voltage") : undefined;
  const value = reading?.ok === true ? reading.value : typeof volts === "number" ? volts : NaN;
  if (Number.isFinite(value) && Math.abs(value) <= MOST_VOLTS) return value;
  throw new Unreadable(`${place}: write what the meter showed as a number of volts, such as 76.1.`);
}

function nodeAt({ network }: Analysis, named: unknown, place: string): NodeIndex {
  if (named === "chassis") return CHASSIS_NODE;
  const example = 'Name a terminal as on the drawing, such as "F1:2", or "chassis".';
  if (typeof named !== "string") throw new Unreadable(`${place}: the place is missing. ${example}`);
  const colon = named.lastIndexOf(":");
  const [designation, terminal] = [named.slice(0, Math.max(0, colon)), named.slice(colon + 1)];
  if (colon < 1) throw new Unreadable(`${place}: "${cut(named)}" is no terminal. ${example}`);
  const part = network.parts.find((each) => each.part.designation === designation);
  if (part === undefined) {
    const designations = network.parts.map((each) => each.part.designation);
    const choice = choiceOf(designation, designations);
    throw new Unreadable(`${place}: there is no part "${cut(designation)}" on this drawing. ${choice}`);
  }
  const node = part.terminals.some(({ id }) => id === terminal) ? part.nodes.get(terminal) : undefined;
  if (node === undefined) {
    const ids = part.terminals.map(({ id }) => id);
    throw new Unreadable(`${place}: ${designation} has no terminal "${cut(terminal)}". ${choiceOf(terminal, ids)}`);
  }
  return node;
}

function fields(value: unknown, place: string): Readonly<Record<string, unknown>> {
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return { ...value };
  throw new Unreadable(`${place}: braces are missing. ${SHAPE}`);
}

const cut = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}...` : text);

function brokenAt(broken: NonNullable<ReturnType<typeof scanJson>>): string {
  switch (broken.fault) {
    case "grammar":
      return `It breaks off at line ${broken.line}, column ${broken.column}: ${broken.expected} should stand there.`;
    case "ends-early":
      return `It ends too early, at line ${broken.line}.`;
    case "too-deep":
      return `Brackets lie too deep in one another at line ${broken.line}.`;
    case "too-many":
      return "It holds far more than readings.";
    case "name-twice":
      return `The name "${cut(broken.name)}" stands twice in one pair of braces at line ${broken.line}.`;
  }
}
