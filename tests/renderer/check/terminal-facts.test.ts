/** The card of a terminal and the stations of the strip, against a circuit that is worked by hand. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { solvedView } from "../../../renderer/window/analysis/solved-view.ts";
import { currentWords, merged, terminalInState, wiresThere } from "../../../renderer/energise/terminal-facts.ts";
import { spokenState } from "../../../renderer/energise/state-words.ts";
import { shownState } from "../../../renderer/window/shown-state.ts";
import { demos } from "../../demos/demo-files.ts";

const tug = demos.find(({ name }) => name === "yard-tug-48v");
if (tug === undefined) throw new Error("There is no tug.");
const { project } = tug;
const solved = solvedView(1, analyse(project));
const stateOf = (view: typeof solved | null, stateName: string | null) =>
  shownState({ beside: null, solved: view, stateName });

describe("a terminal", () => {
  it("volts to pack minus are the difference of its own and the pack minus's to chassis", () => {
    const state = stateOf(solved, "driving");
    if (state === undefined) throw new Error("The tug is never driven.");
    const told = terminalInState(solved, state, solved.packNegative);
    expect(told.toPackNegative).toBe("0 V");
    expect(told.potential).toBe("traction");
  });

  it("what flows out of a wire's one end flows in at its other", () => {
    const state = stateOf(solved, "driving");
    const index = state?.amps.findIndex((amps) => Math.abs(amps) > 10) ?? -1;
    const wire = project.wires.find(({ id }) => id === solved.wires[index]);
    const [a, b] = wire?.ends ?? [];
    if (wire === undefined || a == null || b == null) throw new Error("No wire carries the motor's current.");
    const at = [a, b].map((end) => wiresThere(project, solved, state, end).find(({ id }) => id === wire.id));
    const figures = at.map((there) => there?.current ?? "");
    expect(figures[0]).toMatch(/^[\d.]+ A (in|out)$/);
    expect(figures.map((text) => text.endsWith("out")).sort()).toEqual([false, true]);
    expect(figures[0]?.split(" ")[0]).toBe(figures[1]?.split(" ")[0]);
    expect(at[0]?.other).toContain(`:${b[1]}`);
  });

  it("states that read the same stand in one row", () => {
    const row = (state: string, toChassis: string) => ({
      states: [state],
      potential: "traction",
      toChassis,
      toPackNegative: undefined,
    });
    expect(
      merged([row("stored", "1 V"), row("parked", "2 V"), row("key-on", "1 V")]).map(({ states }) => states),
    ).toEqual([["stored", "key-on"], ["parked"]]);
  });

  it("a current without a figure is not told, and a trickle has no direction", () => {
    expect(currentWords(Number.NaN)).toBeUndefined();
    expect(currentWords(-2e-4)).toBe("no current");
    expect(currentWords(-12.5)).toBe("12.5 A in");
  });
});

describe("a state", () => {
  it("a 12 V circuit that only a converter feeds is live while the converter runs, and not in store", () => {
    expect(
      project.parts.some(({ kind, parameters }) => kind.startsWith("battery") && parameters["duty"] === "auxiliary"),
    ).toBe(false);
    expect(stateOf(solved, "driving")?.live.auxiliary).toBeGreaterThan(3);
    expect(stateOf(solved, "stored")?.live.auxiliary).toBe(0);
  });

  it("is spoken with what is live, its findings and what parts say of themselves", () => {
    const state = stateOf(solved, "parked");
    if (state === undefined) throw new Error("The tug is never parked.");
    const part = project.parts[0];
    const spoken = spokenState(project, null, {
      ...state,
      live: { traction: 1, auxiliary: 4 },
      remarks: [{ part: part?.id ?? "", remark: "cannot start on this feed" }],
    });
    expect(spoken).toBe(
      `parked: 1 net live in traction, 4 nets live in the 12 V circuit, 0 findings, ${part?.designation ?? ""}: cannot start on this feed`,
    );
    expect(stateOf(solved, null)).toBeUndefined();
  });
});
