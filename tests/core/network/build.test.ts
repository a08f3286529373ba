/** The network of small drawings: nets, names, structures, wires, leaks. */
import { describe, expect, it } from "vitest";
import { buildNetwork } from "../../../core/network/build.ts";
import { compareNatural } from "../../../core/network/natural-order.ts";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import type { Project } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { madeUp } from "../circuit/made-up-kinds.ts";

const stud = (structure: string): PartKind =>
  madeUp(`stud-${structure}`, ["stud"], () => [
    {
      type: "resistance",
      name: "tie",
      a: "stud",
      b: `#structure:${structure}`,
      role: "conductor",
      resistance: 50e-6,
      joins: true,
    },
  ]);
const BAR = madeUp("bar", ["1", "2", "3"], () =>
  ["2", "3"].map((end) => ({
    type: "resistance",
    name: `tie-${end}`,
    a: "1",
    b: end,
    role: "conductor",
    resistance: 50e-6,
    joins: true,
  })),
);
const KINDS = [stud("body"), stud("frame"), stud("motor"), BAR];
const network = (project: Project) =>
  buildNetwork(project, (name) => KINDS.find(({ kind }) => kind === name) ?? kindOf(name));
const draw = () => drawing({ kinds: KINDS });
const netNames = (project: Project) =>
  network(project)
    .nets.filter(({ terminals }) => terminals.length > 0)
    .map(({ name }) => name);

describe("natural order", () => {
  it("counts digits as numbers", () => {
    expect(["F10:1", "F1:2", "F2:1", "F1:1", "F1:10"].sort(compareNatural)).toEqual([
      "F1:1",
      "F1:2",
      "F1:10",
      "F2:1",
      "F10:1",
    ]);
  });
});

describe("nets", () => {
  it("joins terminals by wires and busbars, never by contacts", () => {
    const project = draw()
      .part("X1", "bar")
      .part("S1", "switch")
      .part("S2", "switch")
      .wires({}, "X1:1 - S1:common", "X1:3 - S2:common")
      .build();
    expect(netNames(project)).toEqual(["S1:common", "S1:out", "S2:out"]);
  });

  it("bears the user's name where one was given", () => {
    const project = draw()
      .part("S1", "switch")
      .part("S2", "switch")
      .wire("S1:out", "S2:common")
      .netName("S2:common", "lamp feed")
      .build();
    expect(netNames(project)).toEqual(["S1:common", "lamp feed", "S2:out"]);
  });

  it("leaves out wires with a loose end, and those that end nowhere", () => {
    const loose = draw().part("S1", "switch").wire("S1:out", null).build();
    const astray: Project = {
      ...loose,
      wires: [
        {
          id: "w9",
          number: "W9",
          ends: [
            ["p1", "out"],
            ["p7", "1"],
          ],
        },
      ],
    };
    expect(network(loose).conductors).toEqual([]);
    expect(network(astray).conductors).toEqual([]);
    expect(network(astray).wiresAt(["p1", "out"])).toHaveLength(1);
  });

  it("gives every net with terminals a leak of its own, the chassis none", () => {
    const built = network(draw().part("X1", "stud-body").part("S1", "switch").build());
    expect(built.branches.filter(({ name }) => name === "leak").map(({ a }) => built.terminalOfNode[a])).toEqual([
      ["p2", "common"],
      ["p2", "out"],
    ]);
  });
});

describe("structures", () => {
  it("takes the body as chassis; others join it only through wires", () => {
    const project = draw().part("X1", "stud-frame").part("X2", "stud-frame").part("X3", "stud-body").build();
    const built = network(project);
    const net = (part: string) => built.nets[built.netOfNode[built.nodeOf([part, "stud"])] ?? -1];
    expect(net("p3")?.chassis).toBe(true);
    expect(net("p1")?.chassis).toBe(false);
    expect(net("p1")).toBe(net("p2"));
  });

  it("takes the next that is drawn where there is no body", () => {
    const built = network(draw().part("X1", "stud-motor").part("X2", "stud-frame").build());
    const net = (part: string) => built.nets[built.netOfNode[built.nodeOf([part, "stud"])] ?? -1];
    expect([net("p1")?.chassis, net("p2")?.chassis]).toEqual([false, true]);
  });
});

describe("wires", () => {
  const figures = (options: Parameters<ReturnType<typeof drawing>["wire"]>[2]) => {
    const built = network(draw().part("S1", "switch").part("S2", "switch").wire("S1:out", "S2:out", options).build());
    const conductor = built.conductorByWire.get("w1");
    if (conductor === undefined) throw new Error("no conductor");
    return conductor;
  };

  it("takes metric sizes from IEC 60228 class 5, with two joints of 50 uohm", () => {
    // IEC 60228 table 3: 35 mm2 plain, 0.554 ohm/km at 20 C.
    expect(figures({ size: "35 mm2", length: "2 m" }).cold).toBeCloseTo(2 * 0.554e-3 + 100e-6, 9);
  });

  it("takes gauges from ASTM B258 and the resistivity of annealed copper", () => {
    // 10 AWG: 5.261 mm2, 3.27704 ohm/km at 20 C.
    expect(figures({ size: "10 AWG", length: "1 m" }).cold).toBeCloseTo(3.27704e-3 + 100e-6, 8);
  });

  it("is hot at the insulation's limit, 70 C if unstated", () => {
    // IEC 60228 form for copper: (234.5 + t) / 254.5.
    const cold = figures({ size: "35 mm2", length: "1 m" }).cold - 100e-6;
    expect((figures({ size: "35 mm2", length: "1 m" }).hot - 100e-6) / cold).toBeCloseTo(304.5 / 254.5, 3);
    const rubber = figures({ size: "35 mm2", length: "1 m", insulation: { temperature: "105 C" } });
    expect((rubber.hot - 100e-6) / cold).toBeCloseTo(339.5 / 254.5, 3);
  });

  it("assumes 1 m without a length and 1 mohm in all without a size, and says so", () => {
    expect(figures({ size: "35 mm2" })).toMatchObject({ assumed: ["length"] });
    expect(figures({ size: "35 mm2" }).cold).toBeCloseTo(0.554e-3 + 100e-6, 9);
    expect(figures({ length: "3 m" })).toMatchObject({ assumed: ["size"], cold: 1e-3, area: undefined });
    expect(figures({ size: null, length: null })).toMatchObject({ assumed: ["length", "size"], cold: 1e-3 });
  });
});
