import { describe, expect, test } from "vitest";
import { terminalCover } from "../../../core/project/cover.ts";
import type { Enclosure, Part, Project, Wire } from "../../../core/project/document.ts";
import { newProject } from "../../../core/project/new-project.ts";

interface Setting {
  readonly parameters?: Part["parameters"];
  readonly covers?: readonly string[];
  /** Boots on the lugs at the terminal; undefined = the wire says nothing. */
  readonly boots?: readonly (boolean | null | undefined)[];
  readonly enclosure?: Partial<Enclosure>;
}

function cover({ parameters = {}, covers, boots = [], enclosure }: Setting) {
  const part: Part = {
    id: "p1",
    designation: "G1",
    kind: "battery-block",
    parameters,
    views: [],
    ...(covers === undefined ? {} : { covers }),
    ...(enclosure === undefined ? {} : { enclosure: "e1" }),
  };
  // Alternately end A and end B, so that both sides are looked at.
  const wires = boots.map((boot, index): Wire => {
    const here = ["p1", "+"] as const;
    const first = index % 2 === 0;
    const stated = boot === undefined ? {} : { boots: first ? ([boot, !boot] as const) : ([!boot, boot] as const) };
    return { id: `w${index + 1}`, number: "", ends: first ? [here, ["p1", "-"]] : [["p1", "-"], here], ...stated };
  });
  const project: Project = {
    ...newProject(),
    parts: [part],
    wires,
    enclosures: enclosure === undefined ? [] : [{ id: "e1", name: "Box", ...enclosure }],
  };
  return terminalCover(project, part, "+");
}

describe("covered: any one of four", () => {
  test.each<[string, Setting]>([
    ["finish", { parameters: { finish: "booted" } }],
    ["finish of this terminal, against the part's", { parameters: { finish: "bare", "finish-+": "booted" } }],
    ["boot on the only lug", { boots: [true] }],
    ["boots on every lug", { parameters: { finish: "bare" }, boots: [true, true] }],
    ["a fixed cover", { parameters: { finish: "bare" }, covers: ["+"] }],
    ["an enclosure that opens with a tool", { parameters: { finish: "bare" }, enclosure: { toolClosed: true } }],
  ])("%s", (_, setting) => expect(cover(setting)).toBe("covered"));
});

describe("bare: stated, and nothing left open", () => {
  test.each<[string, Setting]>([
    ["finish", { parameters: { finish: "bare" } }],
    ["finish of this terminal, against the part's", { parameters: { finish: "booted", "finish-+": "bare" } }],
    ["one of two lugs without a boot", { parameters: { finish: "bare" }, boots: [true, false] }],
    ["one boot, the other lug says nothing", { parameters: { finish: "bare" }, boots: [true, undefined] }],
    ["a cover over another terminal", { parameters: { finish: "bare" }, covers: ["-"] }],
    ["an enclosure that opens by hand", { parameters: { finish: "bare" }, enclosure: { toolClosed: false } }],
  ])("%s", (_, setting) => expect(cover(setting)).toBe("bare"));
});

describe("unstated: never bare, never covered", () => {
  test.each<[string, Setting]>([
    ["nothing said", {}],
    ["finish known to be unknown", { parameters: { finish: null } }],
    ["unknown for this terminal", { parameters: { finish: "booted", "finish-+": null } }],
    ["no boots, but no word on the part", { boots: [false, false] }],
    ["some boots, no word on the part", { boots: [true, false] }],
    ["bare, but a boot is unknown", { parameters: { finish: "bare" }, boots: [null] }],
    ["bare, in an enclosure of which nothing is said", { parameters: { finish: "bare" }, enclosure: {} }],
    [
      "bare, in an enclosure of which nothing is known",
      { parameters: { finish: "bare" }, enclosure: { toolClosed: null } },
    ],
  ])("%s", (_, setting) => expect(cover(setting)).toBe("unstated"));
});
