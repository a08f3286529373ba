/** What is said of a wire before it is drawn, read off the solved drawing. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Project, WireEnd } from "../../../core/project/document.ts";
import { solvedView } from "../../../renderer/window/analysis/solved-view.ts";
import { wiringCaution } from "../../../renderer/draw/sheet/wiring-caution.ts";
import { wireLooks } from "../../../renderer/draw/sheet/wire-look.ts";
import { amperes, currentMarks } from "../../../renderer/draw/sheet/current-marks.ts";
import { SceneKeeper } from "../../../renderer/draw/sheet/scene.ts";
import { drawing } from "../../harness/drawing.ts";

/** A 48 V pack with a fuse, a 12 V battery with a lamp and a chassis point. */
const vehicle = (): Project =>
  drawing()
    .part("G1", "battery-pack", {
      blocks: "4",
      cells: "6",
      chemistry: "flooded-lead",
      capacity: "100 Ah",
      duty: "traction",
    })
    .part("F1", "fuse", { rating: "100 A" })
    .part("G2", "battery-block", { cells: "6", chemistry: "flooded-lead", capacity: "40 Ah", duty: "auxiliary" })
    .part("P1", "lamp", { power: "21 W", voltage: "12 V" })
    .part("X1", "chassis-point", {})
    .part("R1", "resistor", { resistance: "100 ohm" })
    .wire("G1:+", "F1:1")
    .wire("G2:+", "P1:+")
    .wire("P1:-", "G2:-")
    .wire("G2:-", "X1:stud")
    .build();

describe("before a wire is let go", () => {
  const project = vehicle();
  const solved = solvedView(1, analyse(project));
  const end = (text: string): WireEnd => {
    const [designation, terminal = ""] = text.split(":");
    const part = project.parts.find((candidate) => candidate.designation === designation);
    if (part === undefined) throw new Error(`no part ${text}`);
    return [part.id, terminal];
  };
  const caution = (from: string, to: string): string | undefined => wiringCaution(project, solved, end(from), end(to));

  it.each([
    ["G1:+", "G1:-", /^Bolted short.*G1/],
    // A fuse between does not make it right: it blows.
    ["F1:2", "G1:-", /^Bolted short.*G1/],
    ["G1:-", "F1:2", /^Bolted short.*G1/],
    ["G2:+", "X1:stud", /^Bolted short.*G2/],
    ["G1:+", "F1:1", /one net already/],
    ["F1:2", "P1:+", /^Traction on the low-voltage circuit/],
    ["X1:stud", "G1:-", /^Traction on the chassis/],
  ])("%s to %s is told", (from, to, words) => {
    expect(caution(from, to)).toMatch(words);
  });

  it.each([
    ["F1:2", "R1:1"],
    ["R1:2", "G1:-"],
    ["P1:+", "R1:1"],
  ])("%s to %s is nobody's mistake", (from, to) => {
    expect(caution(from, to)).toBeUndefined();
  });

  it("nothing is said of a drawing that is not solved yet", () => {
    expect(wiringCaution(project, null, end("G1:+"), end("G1:-"))).toBeUndefined();
  });
});

describe("a wire in an operating state", () => {
  const project = vehicle();
  const solved = solvedView(1, analyse(project));
  const state = solved.states[0];
  const [toFuse, toLamp, fromLamp] = project.wires;

  it("looks as live as its terminals are", () => {
    const { look } = wireLooks(solved, state);
    expect([toFuse, toLamp, fromLamp].map((wire) => (wire === undefined ? "" : look(wire)))).toEqual([
      "traction",
      "auxiliary",
      "chassis",
    ]);
  });

  it("looks as on the printed sheet while no state is shown", () => {
    const { look, current } = wireLooks(solved, undefined);
    expect([toFuse, toLamp].map((wire) => (wire === undefined ? "" : look(wire)))).toEqual([
      "traction-circuit",
      "plain",
    ]);
    expect(current(toLamp?.id ?? "")).toBeUndefined();
  });

  it("has its current written with an arrowhead that points the way it flows", () => {
    // 21 W at about 12.6 V: 1.7 A, by Ohm's law; from plus through the lamp.
    const scene = new SceneKeeper().sceneOf(project, project.sheets[0]?.id ?? "");
    if (scene === undefined) throw new Error("no sheet");
    const { current } = wireLooks(solved, state);
    const amps = current(toLamp?.id ?? "") ?? 0;
    expect(amps).toBeGreaterThan(1.4);
    expect(amps).toBeLessThan(2);
    const marks = currentMarks(scene, (wire) => (wire === toLamp?.id ? amps : undefined));
    expect(marks).toHaveLength(1);
    const back = currentMarks(scene, (wire) => (wire === toLamp?.id ? -amps : undefined));
    expect(Math.abs((marks[0]?.angle ?? 0) - (back[0]?.angle ?? 0))).toBe(180);
    expect(marks[0]?.figure?.text).toBe(amperes(amps));
    expect([152.3, -8.34, 0.45].map(amperes)).toEqual(["152 A", "8.3 A", "0.45 A"]);
  });
});
