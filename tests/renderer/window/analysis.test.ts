/** The analysis as the window hears it: findings come while the rest is looked at, and a remedy comes back as an edit. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import type { Project } from "../../../core/project/document.ts";
import type { EditorStore } from "../../../renderer/window/editor-store.ts";
import { connected } from "../../harness/connected-analysis.ts";
import { drawing } from "../../harness/drawing.ts";

/** Two parts of one name: a finding with a remedy. */
const namedTwice = (): Project =>
  drawing()
    .part("G1", "battery-pack", {})
    .part("F1", "fuse", {})
    .part("F2", "fuse", {})
    .wire("G1:+", "F1:1")
    .wire("F1:2", "F2:1")
    .wire("F2:2", "G1:-")
    .build();

const plain = (project: Project): unknown => {
  const analysis = analyse(project);
  return checkJson(project, analysis, runChecks(analysis));
};

describe("findings", () => {
  it("come whole on opening; after an edit what has changed comes before the rest, and ends as if all were looked at anew", async () => {
    const { store, heard, settled } = connected(namedTwice(), 20);
    await settled();
    expect(heard.map(({ whole }) => whole)).toEqual([true]);
    const fuse = store.project.parts.find(({ designation }) => designation === "F2")?.id ?? "";
    store.perform(deleteEntries, { parts: [fuse], wires: [] });
    await settled();
    const after = heard.slice(1);
    expect(after.length).toBeGreaterThan(1);
    expect(after.map(({ whole }) => whole)).toEqual([...after.slice(1).map(() => false), true]);
    for (const { document } of after) expect(JSON.stringify(document)).not.toContain(`"${fuse}"`);
    expect(after.at(-1)?.document).toEqual(plain(store.project));
  });

  it("are told once where there is no time to tell more often", async () => {
    const { store, heard, settled } = connected(namedTwice(), 0);
    await settled();
    store.perform(deleteEntries, { parts: [], wires: [store.project.wires[0]?.id ?? ""] });
    await settled();
    expect(heard.map(({ whole }) => whole)).toEqual([true, true]);
    expect(heard.at(-1)?.document).toEqual(plain(store.project));
  });
});

describe("a remedy", () => {
  const twice = (): Project => {
    const project = namedTwice();
    return {
      ...project,
      parts: project.parts.map((part) => (part.designation === "F2" ? { ...part, designation: "F1" } : part)),
    };
  };
  const finding = (store: EditorStore) =>
    store.now.checked?.document.findings.find(({ check }) => check === "designation-duplicate");

  it("is one edit that mends the finding, and undo takes it back", async () => {
    const { store, settled } = connected(twice(), 0);
    await settled();
    const before = store.project;
    const found = finding(store);
    const remedy = found?.remedies[0];
    if (found === undefined || remedy === undefined) throw new Error("the finding offers no remedy");
    store.mend(found.id, remedy.id);
    expect(store.now.history.past.map(({ label }) => label)).toEqual([remedy.label]);
    await settled();
    expect(finding(store)).toBeUndefined();
    expect(store.project.parts[0]).toBe(before.parts[0]);
    store.undo();
    await settled();
    expect(store.project.parts).toEqual(before.parts);
    expect(finding(store)).toBeDefined();
  });

  it("that was asked for before the drawing changed does nothing", async () => {
    const { store, settled } = connected(twice(), 0);
    await settled();
    const found = finding(store);
    store.perform(deleteEntries, { parts: [], wires: [store.project.wires[0]?.id ?? ""] });
    store.mend(found?.id ?? "", found?.remedies[0]?.id ?? "");
    await settled();
    expect(store.now.history.past).toHaveLength(1);
  });
});
