/**
 * After an edit much of what was solved and checked is used again. Whatever is edited, in whatever order: the answers
 * are those of an analysis that starts from nothing. LOOMWRIGHT_LONG=1 makes longer sequences.
 */
import { describe, expect, it } from "vitest";
import { checkJson } from "../../../core/checks/report-json.ts";
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import { conclude, runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { connect } from "../../../core/project/commands/connect.ts";
import type { Command } from "../../../core/project/commands/define.ts";
import { execute, Refused } from "../../../core/project/commands/define.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { nameNet } from "../../../core/project/commands/name-net.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import { setPartField } from "../../../core/project/commands/set-part-field.ts";
import { setTitle } from "../../../core/project/commands/set-title.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import { swapWireEnds } from "../../../core/project/commands/swap-wire-ends.ts";
import type { Project, WireEnd } from "../../../core/project/document.ts";
import { CheckMemory, REMEMBERED } from "../../../renderer/window/analysis/round.ts";
import { demos } from "../../demos/demo-files.ts";

const long = process.env["LOOMWRIGHT_LONG"] === "1";
const SEEDS = long ? [1, 2, 3, 4, 5, 6] : [1];
const EDITS = long ? 40 : 9;

/** Mulberry32: the same dice for the same seed. */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

type Roll = <Item>(items: readonly Item[]) => Item | undefined;
type Edit = (project: Project, roll: Roll) => Project;

function done<Given, Result>(project: Project, command: Command<Given, Result>, given: Given): Project {
  try {
    return execute(project, command, given, KINDS).project;
  } catch (refusal) {
    if (refusal instanceof Refused) return project;
    throw refusal;
  }
}

const anyEnd = (project: Project, roll: Roll): WireEnd | null => roll(project.wires)?.ends[roll([0, 1]) ?? 0] ?? null;

const setWire =
  (fields: (roll: Roll) => Parameters<typeof setWireField.change>[1]["changes"][number]["fields"]): Edit =>
  (project, roll) => {
    const wire = roll(project.wires);
    return wire === undefined
      ? project
      : done(project, setWireField, { changes: [{ wire: wire.id, fields: fields(roll) }] });
  };

/** Something that may stand in the field: a choice, a figure of its dimension, unknown, or nothing. */
const PLAUSIBLE = [
  "1",
  "5",
  "12 V",
  "24 V",
  "96 V",
  "10 A",
  "200 A",
  "2 kA",
  "90 ohm",
  "5 mF",
  "20 W",
  "0.3 s",
  "50 Ah",
];

const EDITS_OF: Readonly<Record<string, Edit>> = {
  "the length of a wire": setWire((roll) => ({ length: roll(["0.1 m", "0.6 m", "3 m", "8 m", null]) })),
  "the size of a wire": setWire((roll) => ({ size: roll(["0.75 mm2", "4 mm2", "50 mm2", null]) })),
  "the insulation of a wire": setWire((roll) => ({
    insulation: {
      material: "PVC",
      volts: roll(["60 V", "600 V"]) ?? null,
      temperature: roll(["70 C", "105 C"]) ?? null,
    },
  })),
  "the colour of a wire": setWire((roll) => ({ colour: roll(["OG", "BK", "RD"]) })),
  "a parameter": (project, roll) => {
    const part = roll(project.parts);
    const spec = roll(Object.entries(KINDS.get(part?.kind ?? "")?.parameters ?? {}));
    if (part === undefined || spec === undefined) return project;
    const [name, { default: usual, ...form }] = spec;
    const words = "choices" in form ? form.choices : [...PLAUSIBLE, usual];
    // What does not fit the field is refused; tried until something does.
    for (let tries = 0; tries < 30; tries += 1) {
      const value = roll([...words, null, undefined]);
      const after = done(project, setParameter, { changes: [{ part: part.id, name, value }] });
      if (after !== project) return after;
    }
    return project;
  },
  "a designation": (project, roll) => {
    const part = roll(project.parts);
    const name = roll(["F77", "A1", "K05", "X200"]) ?? "";
    return part === undefined ? project : done(project, rename, { what: "part", id: part.id, name });
  },
  "the number of a wire": (project, roll) => {
    const wire = roll(project.wires);
    return wire === undefined
      ? project
      : done(project, rename, { what: "wire", id: wire.id, name: roll(["1", "900"]) ?? "" });
  },
  "the name of a net": (project, roll) => {
    const at = anyEnd(project, roll);
    return at === null ? project : done(project, nameNet, { at, name: roll(["bus", "feed", null]) ?? null });
  },
  "the place of a symbol": (project, roll) => {
    const part = roll(project.parts.filter(({ views }) => views.length > 0));
    const view = roll(part?.views ?? []);
    if (part === undefined || view === undefined) return project;
    const [x, y] = [view.x + 2.5 * (roll([-2, 1, 4]) ?? 0), view.y + 2.5];
    return done(project, moveView, { moves: [{ part: part.id, view: view.view, x, y }] });
  },
  "the title": (project, roll) => done(project, setTitle, { title: roll(["Pickup", "Tug"]) }),
  "the zone of a part": (project, roll) => {
    const part = roll(project.parts);
    const fields = { zone: roll([...project.zones.map(({ id }) => id), undefined]) };
    return part === undefined ? project : done(project, setPartField, { changes: [{ part: part.id, fields }] });
  },
  "a wire less": (project, roll) =>
    done(project, deleteEntries, { wires: roll(project.wires.map(({ id }) => [id])) ?? [] }),
  "a part less": (project, roll) =>
    done(project, deleteEntries, { parts: roll(project.parts.map(({ id }) => [id])) ?? [] }),
  "a part more": (project, roll) => done(project, addPart, { kind: roll([...KINDS.keys()]) ?? "fuse" }),
  "a wire more": (project, roll) =>
    done(project, connect, { from: anyEnd(project, roll), to: anyEnd(project, roll), fields: { size: "2.5 mm2" } }),
  "two wires changed over": (project, roll) => {
    const [a, b] = [roll(project.wires), roll(project.wires)];
    if (a === undefined || b === undefined) return project;
    return done(project, swapWireEnds, {
      a: { wire: a.id, end: roll<0 | 1>([0, 1]) ?? 0 },
      b: { wire: b.id, end: roll<0 | 1>([0, 1]) ?? 1 },
    });
  },
};

/** The checks as the window's worker runs them, edit by edit. */
class Again {
  #analyses: readonly Analysis[] = [];
  readonly #memory = new CheckMemory();

  check(project: Project): CheckDocument {
    const analysis = analyse(project, undefined, ...this.#analyses);
    this.#analyses = [analysis, ...this.#analyses].slice(0, REMEMBERED);
    for (const check of this.#memory.order()) {
      if (this.#memory.recall(check, project) === undefined) this.#memory.run(check, analysis, () => 0);
    }
    return checkJson(project, analysis, conclude(analysis, this.#memory.outcomes(project)));
  }
}

function fromNothing(project: Project): CheckDocument {
  const analysis = analyse(project);
  return checkJson(project, analysis, runChecks(analysis));
}

/** Figures to what the solver answers for; a hash stands for three digits of them, which may tip over. */
function told(document: CheckDocument): unknown {
  const rounded = (_: string, value: unknown): unknown =>
    typeof value === "number" && Number.isFinite(value) ? Number(value.toPrecision(6)) : value;
  return JSON.parse(JSON.stringify(document, rounded));
}

describe("checked again after an edit", () => {
  const random = SEEDS.flatMap((seed) => demos.map((demo) => [demo.name, seed, demo.project] as const));
  it.each(random)(
    "%s, dice %i: as if from nothing",
    (_name, seed, project) => {
      const next = dice(seed);
      const roll: Roll = (items) => items[Math.floor(next() * items.length)];
      const again = new Again();
      again.check(project);
      let now = project;
      const made: string[] = [];
      const documents = [project];
      // What an undone deletion brings back is equal and not the same.
      const back: Edit = () => structuredClone(roll(documents.slice(1, 4))) ?? now;
      while (made.length < EDITS) {
        const [name, edit] = roll([...Object.entries(EDITS_OF), ["undone", back] as const, ["undone", back] as const])!;
        const after = edit(now, roll);
        if (after === now) continue;
        documents.unshift(after);
        now = after;
        made.push(name);
        expect(told(again.check(now)), made.join(", ")).toEqual(told(fromNothing(now)));
      }
    },
    600_000,
  );

  it.each(Object.entries(EDITS_OF))(
    "%s: as if from nothing",
    (_name, edit) => {
      const [, demo] = demos;
      const next = dice(20261125);
      const roll: Roll = (items) => items[Math.floor(next() * items.length)];
      const again = new Again();
      again.check(demo!.project);
      let now = demo!.project;
      for (let tries = 0; tries < 20 && now === demo!.project; tries += 1) now = edit(now, roll);
      expect(now).not.toBe(demo!.project);
      expect(told(again.check(now))).toEqual(told(fromNothing(now)));
    },
    60_000,
  );
});
