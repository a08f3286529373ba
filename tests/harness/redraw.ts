/**
 * Redrawings of a drawing that leave its meaning alone: every wire cut in two by a splice, a busbar, a mated
 * connector or a closed contact (total length and size kept), lists shuffled, everything renamed. A verdict that
 * changes with them was read off the picture instead of the circuit.
 */
import type { Part, Project, Wire } from "../../core/project/document.ts";
import type { Redrawing } from "../../core/checks/define.ts";

/** What a redrawn place was called before: inserted wires and parts map to the wire they were cut from. */
export interface Redrawn {
  readonly project: Project;
  readonly origin: ReadonlyMap<string, string>;
}

interface Insert {
  readonly kind: string;
  readonly from: string;
  readonly to: string;
  readonly parameters: Readonly<Record<string, string>>;
}

const INSERTS: Readonly<Record<Exclude<Redrawing, "rename">, Insert>> = {
  splice: { kind: "splice", from: "1", to: "2", parameters: { positions: "2", finish: "booted" } },
  busbar: { kind: "busbar", from: "1", to: "2", parameters: { positions: "2", finish: "booted" } },
  connector: {
    kind: "connector",
    from: "1a",
    to: "1b",
    parameters: {
      positions: "1",
      pinCurrent: "2000 A",
      pinVoltage: "1000 V",
      keyed: "yes",
      touchSafe: "yes",
      leadLength: "10 mm",
      finish: "booted",
    },
  },
  // An inertia switch is closed in every operating state.
  contact: {
    kind: "inertia-switch",
    from: "common",
    to: "nc",
    parameters: { contactVoltage: "1000 V", contactCurrent: "2000 A", finish: "booted" },
  },
};

function halve(length: string | null | undefined, halveLength: (text: string) => string): string | null | undefined {
  return typeof length === "string" ? halveLength(length) : length;
}

/** "1.2 m" -> "0.6 m": the number before the unit, halved. */
function halfOf(text: string): string {
  const match = /^([0-9.]+)(.*)$/.exec(text);
  if (match === null) throw new Error(`cannot halve "${text}"`);
  return `${Number(match[1]) / 2}${match[2] ?? ""}`;
}

/** Cuts every fully connected wire and joins the halves through an inserted part. */
export function insertEverywhere(project: Project, redrawing: Exclude<Redrawing, "rename">): Redrawn {
  const insert = INSERTS[redrawing];
  const origin = new Map<string, string>();
  const parts: Part[] = [...project.parts];
  const wires: Wire[] = [];
  let nextPart = Math.max(0, ...project.parts.map((part) => Number(part.id.slice(1)))) + 1;
  let nextWire = Math.max(0, ...project.wires.map((wire) => Number(wire.id.slice(1)))) + 1;
  const sheet = project.sheets[0]?.id ?? "s1";
  for (const wire of project.wires) {
    const [a, b] = wire.ends;
    if (a === null || b === null) {
      wires.push(wire);
      continue;
    }
    const part: Part = {
      id: `p${nextPart++}`,
      designation: `XZ${nextPart}`,
      kind: insert.kind,
      parameters: insert.parameters,
      views: [{ view: "main", sheet, x: 0, y: 0, turn: 0, mirrored: false }],
    };
    const second = `w${nextWire++}`;
    origin.set(part.id, wire.id);
    origin.set(second, wire.id);
    parts.push(part);
    const length = halve(wire.length, halfOf);
    const lengths = length === undefined ? {} : { length };
    const { routes: _routes, ...rest } = wire;
    const lugs = wire.lugs ?? [null, null];
    // A boot of which nothing is said must not become one that is known to be unknown; the inserted part is covered.
    const bootsAt = (side: 0 | 1) => {
      if (wire.boots === undefined) return {};
      return { boots: side === 0 ? ([wire.boots[0], true] as const) : ([true, wire.boots[1]] as const) };
    };
    wires.push({
      ...rest,
      ...lengths,
      ends: [a, [part.id, insert.from]],
      lugs: [lugs[0], null],
      ...bootsAt(0),
    });
    wires.push({
      ...rest,
      ...lengths,
      id: second,
      number: `${wire.number}b`,
      ends: [[part.id, insert.to], b],
      lugs: [null, lugs[1]],
      ...bootsAt(1),
    });
  }
  return { project: { ...project, parts, wires }, origin };
}

/** New designations, numbers, names; the same letters' worth of meaning is gone. */
export function renameEverything(project: Project): Redrawn {
  return {
    project: {
      ...project,
      parts: project.parts.map((part, index) => ({ ...part, designation: renamed(part.designation, project, index) })),
      wires: project.wires.map((wire) => ({ ...wire, number: wire.number === "" ? "" : `N${wire.number}` })),
      zones: project.zones.map((zone, index) => (zone.name === undefined ? zone : { ...zone, name: `place ${index}` })),
      enclosures: project.enclosures.map((enclosure, index) => ({ ...enclosure, name: `box ${index}` })),
    },
    origin: new Map(),
  };
}

/** Equal designations stay equal (a duplicate is a finding), all others get a letter that says nothing. */
function renamed(designation: string, project: Project, index: number): string {
  const first = project.parts.findIndex((part) => part.designation === designation);
  return `ZZ${(first === -1 ? index : first) + 1}`;
}

/** A deterministic shuffle (multiplicative congruential, seed given). */
function shuffled<T>(items: readonly T[], seed: number): T[] {
  const result = [...items];
  let state = seed;
  for (let i = result.length - 1; i > 0; i--) {
    state = (state * 48271) % 2147483647;
    const j = state % (i + 1);
    const [x, y] = [result[i], result[j]];
    if (x !== undefined && y !== undefined) [result[i], result[j]] = [y, x];
  }
  return result;
}

/** Order of lists, and which end of a wire is written first, mean nothing. */
export function shuffle(project: Project, seed: number): Redrawn {
  return {
    project: {
      ...project,
      parts: shuffled(project.parts, seed),
      wires: shuffled(project.wires, seed + 1),
      sheets: project.sheets,
      zones: shuffled(project.zones, seed + 2),
    },
    origin: new Map(),
  };
}
