/** Questions on solved states: changes, paths, reach, floating, two-point resistance. Figures worked out by hand. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis, SolvedState } from "../../../core/circuit/analysis.ts";
import {
  conductorsOf,
  elementOf,
  netAt,
  voltsBetween,
  wireCurrent,
  drivenCurrent,
} from "../../../core/circuit/questions.ts";
import { kindOf } from "../../../core/parts/catalogue.ts";
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";
import { madeUp } from "./made-up-kinds.ts";

/** 12 V behind 0.1 ohm, known to lie between 0.05 and 0.2 ohm. */
const CELL = madeUp("cell", ["+", "-"], () => [
  {
    type: "source",
    name: "emf",
    a: "+",
    b: "-",
    role: "source",
    emf: 12,
    resistance: 0.1,
    range: [0.05, 0.2],
    storage: true,
  },
]);
const LOAD = madeUp("two-ohms", ["1", "2"], () => [
  { type: "resistance", name: "r", a: "1", b: "2", role: "load", resistance: 2 },
]);
const KINDS = [CELL, LOAD];
const analysed = (sketch: Drawing): Analysis =>
  analyse(sketch.build(), (name) => KINDS.find(({ kind }) => kind === name) ?? kindOf(name));

/** Cell, switch (on while the key would be), load; wires w1 w2 w3 of 1 mohm each. */
const lit = () =>
  drawing({ kinds: KINDS })
    .part("G1", "cell")
    .part("S1", "switch")
    .part("R1", "two-ohms")
    .part("R2", "two-ohms")
    .wires({}, "G1:+ - S1:common", "S1:out - R1:1", "R1:2 - G1:-");
const SWITCH = 0.01;

const stateOf = (analysis: Analysis, name: string): SolvedState => {
  const state = analysis.state(name);
  if (state === undefined) throw new Error(`no ${name}`);
  return state;
};
const node = (analysis: Analysis, part: string, terminal: string) => analysis.network.nodeOf([part, terminal]);

describe("a change to a state", () => {
  const analysis = analysed(lit());
  const ready = stateOf(analysis, "ready");
  const ends = [node(analysis, "p3", "1"), node(analysis, "p3", "2")] as const;

  it("inserts a bolted short and tells its current", () => {
    // 12 V over cell, three wires, switch.
    const { shortCurrents } = analysis.solveChanged(ready, { shorts: [ends] });
    expect(shortCurrents).toHaveLength(1);
    expect(shortCurrents[0]).toBeCloseTo(12 / (0.1 + 0.003 + SWITCH), 2);
  });

  it("takes either end of a known range, or hot wires", () => {
    const current = (resistances: "lowest" | "highest") =>
      analysis.solveChanged(ready, { shorts: [ends], resistances }).shortCurrents[0] ?? NaN;
    expect(current("lowest")).toBeCloseTo(12 / (0.05 + 0.003 + SWITCH), 1);
    expect(current("highest")).toBeCloseTo(12 / (0.2 + 0.003 + SWITCH), 2);
    const wired = analysed(lit().wire("G1:-", "R2:1", { size: "10 mm2", length: "1 m" }).wire("R2:2", "S1:out"));
    const drop = (resistances: "nominal" | "hot") => {
      const state = wired.solveChanged(stateOf(wired, "ready"), { resistances });
      return Math.abs(state.between(node(wired, "p1", "-"), node(wired, "p4", "1")));
    };
    expect(drop("hot") / drop("nominal")).toBeGreaterThan(1.1);
  });

  it("opens a wire, and a part's own branch", () => {
    const wire = analysis.network.conductorByWire.get("w2")?.branch ?? -1;
    const load = analysis.network.branches.find(({ part }) => part?.part.id === "p3")?.index ?? -1;
    for (const branch of [wire, load]) {
      const opened = analysis.solveChanged(ready, { open: [branch] });
      expect(Math.abs(wireCurrent(opened, analysis.network, "w1") ?? NaN)).toBeLessThan(1e-6);
    }
    expect(Math.abs(wireCurrent(ready, analysis.network, "w1") ?? NaN)).toBeGreaterThan(5);
  });

  it("sets a control, on top of an earlier change", () => {
    const off = analysis.solveChanged(ready, { set: { p2: "off" } });
    expect(voltsBetween(off, analysis.network.parts[2]!, "1", "2")).toBeCloseTo(0, 6);
    const still = analysis.solveChanged(off, { shorts: [ends] });
    expect(Math.abs(still.shortCurrents[0] ?? NaN)).toBeLessThan(1e-6);
  });

  it("lets relays settle again, or holds them", () => {
    const relay = analysed(
      drawing({ kinds: KINDS })
        .part("G1", "cell")
        .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "100 ohm" })
        .wires({}, "G1:+ - K1:coil+", "K1:coil- - G1:-"),
    );
    const state = stateOf(relay, "ready");
    const open = [relay.network.conductorByWire.get("w1")?.branch ?? -1];
    expect(relay.solveChanged(state, { open }).partStates[1]).toEqual({ coil: false });
    expect(relay.solveChanged(state, { open, hold: true }).partStates[1]).toEqual({ coil: true });
  });
});

describe("paths", () => {
  const analysis = analysed(lit());
  const [plus, load] = [node(analysis, "p1", "+"), node(analysis, "p3", "1")];

  it("cross what they may, contacts as they stand or closed", () => {
    const through = ["conductor", "contact"] as const;
    const path = (name: string, contacts: "as-is" | "closed") =>
      analysis.path(stateOf(analysis, name), plus, load, { through, contacts })?.map((branch) => branch.name);
    expect(path("ready", "as-is")).toEqual(["wire", "contact", "wire"]);
    expect(path("parked", "as-is")).toBeUndefined();
    expect(path("parked", "closed")).toEqual(["wire", "contact", "wire"]);
    expect(analysis.path(stateOf(analysis, "ready"), plus, load, { through: ["conductor"] })).toBeUndefined();
  });

  it("are empty from a node to itself, and leave out what they are told to", () => {
    const ready = stateOf(analysis, "ready");
    expect(analysis.path(ready, plus, plus, { through: ["conductor"] })).toEqual([]);
    const without = [analysis.network.conductorByWire.get("w1")?.branch ?? -1];
    expect(analysis.path(ready, plus, load, { through: ["conductor", "contact"], without })).toBeUndefined();
    expect([...analysis.reach(ready, plus, { through: ["conductor", "contact"], without })]).toEqual([plus]);
  });

  it("reach all the metal that hangs together", () => {
    const reached = analysis.reach(stateOf(analysis, "ready"), plus, {
      through: ["conductor", "contact", "load", "source"],
    });
    expect(reached.size).toBe(6);
  });
});

describe("what floats", () => {
  it("is what neither source nor chassis reaches but through leaks", () => {
    const analysis = analysed(lit());
    const floats = (name: string, part: string, terminal: string) =>
      stateOf(analysis, name).floating(node(analysis, part, terminal));
    expect(floats("ready", "p3", "1")).toBe(false);
    expect(floats("ready", "p4", "1")).toBe(true);
    expect(stateOf(analysis, "ready").floating(0)).toBe(false);
    // Through the load and back to the cell's minus: not floating though the switch is off.
    expect(floats("parked", "p3", "1")).toBe(false);
  });
});

describe("resistance between two points", () => {
  it("is what a meter would read with the EMFs gone", () => {
    const analysis = analysed(lit());
    const across = (name: string) =>
      analysis.resistanceBetween(stateOf(analysis, name), node(analysis, "p3", "1"), node(analysis, "p3", "2"));
    const feed = 0.1 + 0.003 + SWITCH;
    expect(across("ready")).toBeCloseTo((2 * feed) / (2 + feed), 6);
    expect(across("parked")).toBeCloseTo(2, 6);
  });
});

describe("short questions", () => {
  const analysis = analysed(lit().wire("R2:1", null));
  const { network } = analysis;
  const ready = stateOf(analysis, "ready");

  it("find a net, its wires and their currents", () => {
    const net = netAt(network, ["p1", "+"]);
    expect(net?.name).toBe("G1:+");
    expect(net === undefined ? [] : conductorsOf(network, net).map(({ wire }) => wire.id)).toEqual(["w1"]);
    expect(wireCurrent(ready, network, "w1")).toBeCloseTo(12 / (2 + 0.1 + 0.003 + SWITCH), 6);
    expect(wireCurrent(ready, network, "w4")).toBeUndefined();
    expect(netAt(network, ["p9", "1"])).toBeUndefined();
  });

  it("tell a feed from a voltage behind leaks", () => {
    const through = (name: string, part: string, a: string, b: string) =>
      drivenCurrent(analysis, stateOf(analysis, name), node(analysis, part, a), node(analysis, part, b));
    expect(through("ready", "p3", "1", "2")).toBeCloseTo(12 / (0.1 + 0.003 + SWITCH), 2);
    // From the cell's plus to a terminal that only the leaks reach: 10 Gohm against half the cell.
    expect(Math.abs(drivenCurrent(analysis, ready, node(analysis, "p1", "+"), node(analysis, "p4", "1")))).toBeLessThan(
      1e-8,
    );
    expect(through("ready", "p3", "2", "1")).toBeLessThan(-100);
  });

  it("find an element with its current", () => {
    const [cell] = network.parts;
    if (cell === undefined) throw new Error("no cell");
    expect(elementOf(ready, network, cell, "emf")?.current).toBeCloseTo(12 / (2 + 0.1 + 0.003 + SWITCH), 6);
    expect(elementOf(ready, network, cell, "coil")).toBeUndefined();
  });
});
