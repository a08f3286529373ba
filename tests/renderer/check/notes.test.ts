/** What the margin makes of a check document: numbers, groups of missing fields, verdict, links. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { CheckDocument, JsonFinding } from "../../../core/checks/report-json.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { acceptFinding } from "../../../core/project/commands/accept-finding.ts";
import { execute } from "../../../core/project/commands/define.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { Project } from "../../../core/project/document.ts";
import { missingGroups } from "../../../renderer/check/missing-groups.ts";
import { notesOf, numbersByPlace } from "../../../core/documents/numbering.ts";
import { nothingFound } from "../../../core/documents/verdict.ts";
import { notesAt } from "../../../renderer/check/numbering.ts";
import { goTo, openFinding } from "../../../renderer/check/places.ts";
import { piecesOf, TERMS } from "../../../renderer/controls/terms.ts";
import { EditorStore } from "../../../renderer/window/editor-store.ts";
import { demos } from "../../demos/demo-files.ts";

function demo(name: string): Project {
  const found = demos.find((each) => each.name === name);
  if (found === undefined) throw new Error(`There is no demo ${name}.`);
  return found.project;
}

const PICKUP = demo("farm-pickup-96v-faulty");

function check(project: Project): CheckDocument {
  const analysis = analyse(project);
  return checkJson(project, analysis, runChecks(analysis));
}

const CHECKED = check(PICKUP);

const partNamed = (designation: string): string =>
  PICKUP.parts.find((part) => part.designation === designation)?.id ?? "";

const finding = (change: Partial<JsonFinding>): JsonFinding => {
  const [first] = CHECKED.findings;
  if (first === undefined) throw new Error("The faulty demo has no finding.");
  return { ...first, ...change };
};

const listener = { opened: () => undefined, edited: () => undefined, mend: () => undefined };

describe("numbers", () => {
  it("count those that are not accepted, in the order of the document", () => {
    const document = {
      ...CHECKED,
      findings: [
        finding({ id: "a" }),
        finding({ id: "b", accepted: { who: "A. Smith", when: "2026-11-25", why: "x" } }),
        finding({ id: "c" }),
      ],
    };
    expect(notesOf(document).map(({ number, finding: { id } }) => [number, id])).toEqual([
      [1, "a"],
      [2, "c"],
    ]);
    expect(notesOf(null)).toEqual([]);
  });

  it("stand once at each place, and a place of two findings bears both", () => {
    const g6 = { part: "G6", id: "p6" } as const;
    const post = { part: "G6", id: "p6", terminal: "+" } as const;
    const document = {
      ...CHECKED,
      findings: [
        finding({ id: "a", where: [g6, g6, post] }),
        finding({ id: "b", where: [g6, { wire: "W1", id: "w1" }] }),
      ],
    };
    const notes = notesOf(document);
    expect(numbersByPlace(notes, null).map(({ key, notes: at }) => [key, at.map(({ number }) => number)])).toEqual([
      ["p6", [1, 2]],
      ["p6:+", [1]],
      ["w1", [2]],
    ]);
    expect(notesAt(notes, { parts: [], wires: ["w1"] }).map(({ number }) => number)).toEqual([2]);
  });
});

describe("places", () => {
  it("select what stands there and turn to its sheet; a place on the sheet shown leaves it", () => {
    const store = new EditorStore(PICKUP, listener);
    const [first, second] = PICKUP.sheets.map(({ id }) => id);
    const wire = PICKUP.wires.find(({ number }) => number === "W41")?.id ?? "";
    expect(store.now.sheet).toBe(first);
    goTo(store, { wire: "W41", id: wire });
    expect(store.now.sheet).toBe(second);
    expect(store.now.selection).toEqual({ parts: [], wires: [wire] });
    const fuse = notesOf(CHECKED).find(({ finding: each }) => each.check === "protection-voltage-low");
    if (fuse === undefined) throw new Error("The fuse of 32 V is not found.");
    openFinding(store, fuse.finding);
    expect(store.now).toMatchObject({
      sheet: first,
      finding: fuse.finding.id,
      selection: { parts: [partNamed("F3")], wires: [] },
    });
  });
});

describe("what is missing", () => {
  const { project } = execute(
    PICKUP,
    setParameter,
    {
      changes: ["F3", "F4"].map((name) => ({ part: partNamed(name), name: "interrupting", value: undefined })),
    },
    KINDS,
  );
  const document = check(project);

  it("is grouped by field, with every thing that lacks it and the checks that wait", () => {
    const { groups } = missingGroups(project, document);
    const group = groups.find(({ title }) => title === "Interrupting rating");
    expect(group?.items.map(({ thing }) => thing)).toEqual(["F3", "F4"]);
    expect(group?.items[0]).toMatchObject({ select: { parts: [partNamed("F3")] }, field: "interrupting" });
    expect(group?.items[0]?.checks).toContain("protection-interrupting-low");
  });

  it("says the same by ids and by names", () => {
    for (const { missing, fields } of document.notChecked) expect(missing).toHaveLength(fields.length);
    expect(document.notChecked.flatMap(({ missing }) => missing)).toContain("F3.interrupting");
  });

  it("lists what no statement can mend by itself", () => {
    const broken = { check: "lug-misfit", where: [], missing: [], fields: [], why: "The check stopped." };
    expect(missingGroups(PICKUP, { ...CHECKED, notChecked: [broken] })).toEqual({
      groups: [],
      unfounded: [{ check: "lug-misfit", why: "The check stopped.", where: [] }],
    });
  });
});

describe("acceptance", () => {
  it("holds with the hash that the document names, and not with another", () => {
    const [first] = CHECKED.findings;
    if (first === undefined) throw new Error("The faulty demo has no finding.");
    const accept = (hash: string): Project =>
      execute(PICKUP, acceptFinding, { key: first.id, who: "A. Smith", when: "2026-11-25", why: "Known.", hash }, KINDS)
        .project;
    expect(check(accept(first.hash)).findings.find(({ id }) => id === first.id)?.accepted?.why).toBe("Known.");
    expect(check(accept("00000000")).findings.find(({ id }) => id === first.id)?.accepted).toBeNull();
  });
});

describe("where nothing is found", () => {
  it("the counts say what was looked at, and nothing says that it is safe", () => {
    const counts = { ...CHECKED.counts, passed: 12, doesNotApply: 1, notChecked: 0, accepted: 0 };
    expect(nothingFound(counts)).toBe(
      "Nothing found. Checks passed 12 times and did not apply once. Every check had what it needed.",
    );
    const open = nothingFound({ ...counts, notChecked: 3, accepted: 2 });
    expect(open).toContain("3 could not be made");
    expect(open).toContain("2 accepted with a reason");
    expect(open).not.toMatch(/safe|every check had/i);
  });
});

describe("terms of the trade", () => {
  it("are glossed where they first stand, whole words only, and nothing of the text is lost", () => {
    const text = "The lug on the stud; another lug, a plug, a blockage. Pre-charge first.";
    const pieces = piecesOf(text);
    expect(pieces.map((piece) => piece.text).join("")).toBe(text);
    expect(pieces.filter(({ gloss }) => gloss !== undefined).map((piece) => piece.text)).toEqual([
      "lug",
      "stud",
      "Pre-charge",
    ]);
  });

  it("are one sentence each", () => {
    for (const [term, gloss] of Object.entries(TERMS)) {
      expect(gloss, term).toMatch(/^[A-Z][^]*\.$/);
      expect(gloss, term).not.toMatch(/[.!?] [A-Z]/);
    }
  });
});
