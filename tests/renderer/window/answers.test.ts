/** What the window asks of the analysis beyond the steady picture: each question its answer, a stale one none. */
import { describe, expect, it } from "vitest";
import { addReading } from "../../../core/project/commands/add-reading.ts";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import type { Project } from "../../../core/project/document.ts";
import { AnalysisEngine } from "../../../renderer/window/analysis/engine.ts";
import type { FromWorker } from "../../../renderer/window/analysis/protocol.ts";
import { demos } from "../../demos/demo-files.ts";
import { connected } from "../../harness/connected-analysis.ts";
import { drawing } from "../../harness/drawing.ts";

function pickup(): Project {
  const found = demos.find(({ name }) => name === "farm-pickup-96v");
  if (found === undefined) throw new Error("there is no farm pickup");
  return found.project;
}

const idOf = (project: Project, designation: string): string =>
  project.parts.find((part) => part.designation === designation)?.id ?? "";

describe("a question", () => {
  it("about a transition is answered with its events and curves, and each moment with the drawing at it", async () => {
    const { ask, store } = connected(pickup(), 0);
    const told = await ask({ about: "transition", name: "key-on" });
    const closes = told?.document.events.filter(
      ({ id, what }) => what === "closes" && id === idOf(store.project, "Q1"),
    );
    expect(closes?.length).toBeGreaterThan(0);
    const times = told?.document.times ?? [];
    for (const { values } of told?.curves ?? []) expect(values.length).toBe(times.length);
    const at = store.now.solved?.terminals.indexOf(`${idOf(store.project, "T1")}:B+`) ?? -1;
    expect(at).toBeGreaterThanOrEqual(0);
    const first = await ask({ about: "moment", name: "key-on", time: 0 });
    const last = await ask({ about: "moment", name: "key-on", time: times.at(-1) ?? 0 });
    const minus = store.now.solved?.packNegative ?? -1;
    const bus = (view: typeof first): number => (view?.volts[at] ?? NaN) - (view?.volts[minus] ?? NaN);
    // The bus: empty while parked, the pack's 103.2 V (48 cells of 2.15 V) less a few drops when ready.
    expect(Math.abs(bus(first))).toBeLessThan(1);
    expect(bus(last)).toBeGreaterThan(100);
    expect(bus(last)).toBeLessThan(104);
  });

  it("about a transition that the drawing has no controls for gets none", async () => {
    const { ask } = connected(drawing().part("G1", "battery-pack", {}).build(), 0);
    expect(await ask({ about: "transition", name: "plug-in" })).toBeUndefined();
    expect(await ask({ about: "moment", name: "plug-in", time: 0 })).toBeUndefined();
  });

  it("about the faults lists them, and one of them is a state to show", async () => {
    const { ask } = connected(pickup(), 0);
    const faults = (await ask({ about: "faults" }))?.faults ?? [];
    const welded = faults.find(({ kind, what }) => kind === "contact-welded" && what.includes("Q1"));
    const state = await ask({ about: "fault", key: welded?.key ?? "", state: "parked" });
    expect(state?.name).toContain("parked, with this fault");
    expect(await ask({ about: "fault", key: "nowhere", state: "parked" })).toBeUndefined();
  });

  it("about the studies is answered for a wire and for a part, with nothing for what is not there", async () => {
    const { ask, store } = connected(pickup(), 0);
    const [wire] = store.project.wires;
    const ofWire = await ask({ about: "studies", wire: wire?.id ?? "" });
    expect(ofWire?.flatMap(({ rows }) => rows.map(({ label }) => label))).toContain("Ampacity as drawn");
    const ofFuse = await ask({ about: "studies", part: idOf(store.project, "F1") });
    expect(ofFuse?.flatMap(({ rows }) => rows.map(({ label }) => label))).toContain("Smallest standard");
    expect(await ask({ about: "studies", part: "p9999" })).toEqual([]);
  });

  it("about readings names the fault that was put in first; without readings it says so", async () => {
    const { ask, store } = connected(pickup(), 0);
    expect(await ask({ about: "readings" })).toEqual({ problem: expect.stringMatching(/^There is not one reading/) });
    const faults = (await ask({ about: "faults" }))?.faults ?? [];
    const welded = faults.find(({ kind, what }) => kind === "contact-welded" && what.includes("Q1"));
    // What a meter shows with the main contactor welded: the whole pack across the controller while parked.
    const shown = await ask({ about: "fault", key: welded?.key ?? "", state: "parked" });
    const terminals = store.now.solved?.terminals ?? [];
    const volts = (place: string): number => {
      const [designation = "", terminal = ""] = place.split(":");
      return shown?.volts[terminals.indexOf(`${idOf(store.project, designation)}:${terminal}`)] ?? NaN;
    };
    const read = (plus: string, minus: string): string => `${(volts(plus) - volts(minus)).toFixed(1)} V`;
    for (const [plus, minus] of [
      ["T1:B+", "T1:B-"],
      ["R1:1", "T1:B-"],
    ] as const)
      store.perform(addReading, { state: "parked", plus, minus, volts: read(plus, minus) });
    const told = await ask({ about: "readings" });
    if (told === undefined || !("document" in told)) throw new Error("the readings were not explained");
    const best = told.document.faults.filter(({ rank }) => rank === 1).map(({ key }) => key);
    expect(best).toContain(welded?.key);
    expect(best).not.toContain("none");
  });
});

describe("while the drawing changes", () => {
  it("a question about an older revision gets no answer", async () => {
    const told: FromWorker[] = [];
    const engine = new AnalysisEngine(
      (message) => told.push(message),
      () => new Promise((resolve) => setImmediate(resolve)),
    );
    await engine.hear({ say: "open", revision: 7, project: pickup() });
    const question = { about: "transition", name: "key-on" } as const;
    await engine.hear({ say: "ask", revision: 6, id: 1, question });
    await engine.hear({ say: "ask", revision: 7, id: 2, question });
    const answers = told.flatMap((message) => (message.say === "answer" ? [message] : []));
    expect(answers.map(({ id, answer }) => [id, answer === undefined])).toEqual([
      [1, true],
      [2, false],
    ]);
  });

  it("a long study of faults stands aside: the newer drawing is solved and checked, and then asked anew", async () => {
    const { ask, store, solved, pauses, settled } = connected(pickup(), 0);
    await settled();
    const before = solved.length;
    const order: string[] = [];
    const old = ask({ about: "faults" }).then((answer) => order.push(answer === undefined ? "given up" : "answered"));
    // The study is under way: it has let messages in at least once.
    const begun = pauses();
    while (pauses() === begun) await new Promise((resolve) => setImmediate(resolve));
    store.perform(deleteEntries, { parts: [], wires: [store.project.wires[0]?.id ?? ""] });
    await settled();
    order.push("checked");
    await old;
    expect(solved.length).toBe(before + 1);
    expect(order).toEqual(["given up", "checked"]);
    expect((await ask({ about: "faults" }))?.faults.length).toBeGreaterThan(0);
  });
});

describe("readings", () => {
  it("are kept in the project, undone like any edit, and follow a part's new name", () => {
    const { store } = connected(pickup(), 0);
    store.perform(addReading, { state: "parked", plus: "f1:2", minus: "Chassis", volts: "76,1" });
    const kept = store.project.readings;
    expect(kept.map(({ plus, minus }) => [plus, minus])).toEqual([["F1:2", "chassis"]]);
    store.perform(rename, { what: "part", id: idOf(store.project, "F1"), name: "F91" });
    expect(store.project.readings[0]?.plus).toBe("F91:2");
    store.undo();
    store.undo();
    expect(store.project.readings).toEqual([]);
  });

  it.each([
    [{ plus: "F99:1", minus: "chassis", volts: "12" }, /^Plus: there is no part "F99" on this drawing\. /],
    [{ plus: "F1:9", minus: "chassis", volts: "12" }, /^Plus: F1 has no terminal "9"\. /],
    [{ plus: "F1", minus: "chassis", volts: "12" }, /^Plus: "F1" is no terminal\. Write it as on the drawing/],
    [{ plus: "F1:1", minus: "F1:1", volts: "12" }, /^Both leads are at F1:1\. Name two places\.$/],
    [{ plus: "F1:1", minus: "chassis", volts: "a lot" }, /^Write what the meter showed as a number of volts/],
  ])("%j is refused in one sentence", (given, words) => {
    const { store } = connected(pickup(), 0);
    store.perform(addReading, { state: "parked", ...given });
    expect(store.project.readings).toEqual([]);
    expect(store.now.notice).toMatch(words);
    expect(store.now.notice).not.toMatch(/\n/);
  });
});
