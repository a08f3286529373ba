/** Operating states of the person's own: made, changed, renamed, removed; what cannot be is refused in words. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { addState } from "../../../core/project/commands/add-state.ts";
import { changeState } from "../../../core/project/commands/change-state.ts";
import { execute } from "../../../core/project/commands/define.ts";
import type { Command } from "../../../core/project/commands/define.ts";
import { removeState } from "../../../core/project/commands/remove-state.ts";
import type { Project } from "../../../core/project/document.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { drawing } from "../../harness/drawing.ts";

const lampCircuit = (): Project =>
  drawing()
    .part("G1", "battery-block", { duty: "auxiliary" })
    .part("S1", "switch", {})
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .wire("G1:+", "S1:common")
    .wire("S1:out", "P1:+")
    .wire("P1:-", "G1:-")
    .build();

const idOf = (project: Project, name: string): string =>
  project.parts.find(({ designation }) => designation === name)?.id ?? "";

const done = <Given, Result>(project: Project, command: Command<Given, Result>, given: Given): Project =>
  execute(project, command, given, KINDS).project;

const closedIn = (project: Project, state: string): boolean | undefined => {
  const solved = analyse(project).states.find(({ name }) => name === state);
  return solved?.elements.some((element) => element.type === "contact" && element.closed);
};

describe("a state of the person's own", () => {
  it("is a built-in one with a control set by hand, and is solved as such", () => {
    const project = lampCircuit();
    const s1 = idOf(project, "S1");
    expect(closedIn(project, "parked")).toBe(false);
    const towed = done(project, addState, { name: "towed", from: "parked", set: { [s1]: "on" } });
    expect(closedIn(towed, "towed")).toBe(true);
    expect(closedIn(towed, "parked")).toBe(false);
    const back = done(towed, changeState, { state: "towed", set: { [s1]: null } });
    expect(back.states).toEqual([{ name: "towed", from: "parked", set: {} }]);
    expect(closedIn(back, "towed")).toBe(false);
  });

  it("is renamed with the readings taken in it, written, read back, and removed", () => {
    const project = { ...lampCircuit(), readings: [{ state: "towed", plus: "1", minus: "2", volts: "12 V" }] };
    const named = done(done(project, addState, { name: "towed", from: "driving", set: {} }), changeState, {
      state: "towed",
      name: "on-a-slope",
    });
    expect(named.states.map(({ name }) => name)).toEqual(["on-a-slope"]);
    expect(named.readings[0]?.state).toBe("on-a-slope");
    expect(readProject(writeProject(named))).toMatchObject({ ok: true, project: named });
    const gone = done(named, removeState, { state: "on-a-slope" });
    expect([gone.states, gone.readings]).toEqual([[], []]);
  });

  const made = done(lampCircuit(), addState, { name: "towed", from: "parked", set: {} });
  for (const [what, refusal, edit] of [
    ["capital letters", /lower-case letters/, () => done(made, addState, { name: "Towed", from: "parked", set: {} })],
    [
      "a built-in name",
      /built-in state is called ready/,
      () => done(made, changeState, { state: "towed", name: "ready" }),
    ],
    [
      "a name taken",
      /a state called towed already/,
      () => done(made, addState, { name: "towed", from: "parked", set: {} }),
    ],
    [
      "a start that is none",
      /no built-in state called towed/,
      () => done(made, addState, { name: "a", from: "towed", set: {} }),
    ],
    [
      "a position that is none",
      /S1 has no position sideways/,
      () => done(made, changeState, { state: "towed", set: { [idOf(made, "S1")]: "sideways" } }),
    ],
    [
      "a part without control",
      /P1 has nothing to set/,
      () => done(made, changeState, { state: "towed", set: { [idOf(made, "P1")]: "on" } }),
    ],
    ["a state that is gone", /no state of your own called washed/, () => done(made, removeState, { state: "washed" })],
  ] as const)
    it(`refuses ${what}`, () => expect(edit).toThrow(refusal));
});
