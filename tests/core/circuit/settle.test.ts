/** Settling on made-up kinds: the arithmetic of each case is written beside it. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import type { Element } from "../../../core/parts/element.ts";
import type { Project } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { madeUp } from "./made-up-kinds.ts";

const source = (emf: number, resistance: number): Element => ({
  type: "source",
  name: "emf",
  a: "+",
  b: "-",
  role: "source",
  emf,
  resistance,
  storage: true,
});
const ohms = (name: string, a: string, b: string, resistance: number): Element => ({
  type: "resistance",
  name,
  a,
  b,
  role: "resistor",
  resistance,
});

const CELL = madeUp("cell", ["+", "-"], () => [source(12, 0.1)]);
const LOAD = madeUp("two-ohms", ["1", "2"], () => [ohms("r", "1", "2", 2)]);
const KINDS = [CELL, LOAD];
const lookup = (kinds: readonly PartKind[]) => (name: string) =>
  kinds.find(({ kind }) => kind === name) ?? kindOf(name);
const analysed = (project: Project, kinds: readonly PartKind[] = KINDS) => analyse(project, lookup(kinds));

describe("settling", () => {
  it("gives the volts and amperes of a loaded string by hand", () => {
    // Two 12 V cells of 0.1 ohm, a 2 ohm load, three wires of no size: 1 mohm each. I = 24 / (0.2 + 2 + 0.003).
    const project = drawing({ kinds: KINDS })
      .parts("cell", {}, "G1", "G2")
      .part("R1", "two-ohms")
      .wires({}, "G1:- - G2:+", "G1:+ - R1:1", "R1:2 - G2:-")
      .build();
    const analysis = analysed(project);
    const parked = analysis.state("parked");
    const current = 24 / 2.203;
    const node = (part: string, terminal: string) => analysis.network.nodeOf([part, terminal]);
    expect(parked?.between(node("p3", "1"), node("p3", "2"))).toBeCloseTo(2 * current, 8);
    expect(Math.abs(parked?.currents[analysis.network.conductorByWire.get("w1")?.branch ?? -1] ?? 0)).toBeCloseTo(
      current,
      8,
    );
    expect(analysis.states.map(({ name }) => name)).toEqual([
      "parked",
      "key-on",
      "pre-charging",
      "ready",
      "driving",
      "driving-low",
    ]);
  });

  it("calls a relay that cuts its own coil chatter, and names only it", () => {
    const project = drawing({ kinds: KINDS })
      .part("G1", "cell")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "100 ohm" })
      .part("K2", "relay", { coilVoltage: "12 V", coilResistance: "100 ohm" })
      .wires({}, "G1:+ - K1:common", "K1:nc - K1:coil+", "K1:coil- - G1:-", "G1:+ - K2:coil+", "K2:coil- - G1:-")
      .build();
    const ready = analysed(project).state("ready");
    expect(ready?.chatter.map(({ part }) => part.designation)).toEqual(["K1"]);
    expect(ready?.partStates[2]).toEqual({ coil: true });
  });

  it("lets one of two relays that lock each other out win instead of calling it chatter", () => {
    const project = drawing({ kinds: KINDS })
      .part("G1", "cell")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "100 ohm" })
      .part("K2", "relay", { coilVoltage: "12 V", coilResistance: "100 ohm" })
      .wires({}, "G1:+ - K1:common", "K1:nc - K2:coil+", "K2:coil- - G1:-")
      .wires({}, "G1:+ - K2:common", "K2:nc - K1:coil+", "K1:coil- - G1:-")
      .build();
    const ready = analysed(project).state("ready");
    expect(ready?.chatter).toEqual([]);
    expect([ready?.partStates[1]?.["coil"], ready?.partStates[2]?.["coil"]].sort()).toEqual([false, true]);
  });

  it("reports a kind that cannot say what it is, and treats it as open", () => {
    const broken = madeUp("broken", ["1", "2"], () => {
      throw new Error("no figure for the bridge");
    });
    const project = drawing({ kinds: [...KINDS, broken] })
      .part("G1", "cell")
      .part("R1", "broken")
      .wires({}, "G1:+ - R1:1", "R1:2 - G1:-")
      .build();
    const ready = analysed(project, [...KINDS, broken]).state("ready");
    expect(ready?.remarks.map(({ part, remark }) => [part.part.designation, remark])).toEqual([
      ["R1", "no figure for the bridge"],
    ]);
    expect([...(ready?.currents ?? [])].every((current) => Math.abs(current) < 1e-6)).toBe(true);
  });

  it("reports a kind whose list of elements changes with the condition", () => {
    const fickle = madeUp("fickle", ["1", "2"], () => [], {
      circuit: ({ condition }) => (condition.state === "driving" ? [] : [ohms("r", "1", "2", 2)]),
    });
    const project = drawing({ kinds: [...KINDS, fickle] })
      .part("G1", "cell")
      .part("R1", "fickle")
      .wires({}, "G1:+ - R1:1", "R1:2 - G1:-")
      .build();
    const analysis = analysed(project, [...KINDS, fickle]);
    expect(analysis.state("ready")?.remarks).toEqual([]);
    expect(analysis.state("driving")?.remarks).toHaveLength(1);
  });

  it("stops at a kind whose state never comes to rest", () => {
    const creeping = madeUp("creeping", ["1", "2"], () => [ohms("r", "1", "2", 2)], {
      initial: () => ({ count: 0 }),
      settle: ({ state }) => ({ count: Number(state["count"]) + 1 }),
    });
    const project = drawing({ kinds: [creeping] })
      .part("R1", "creeping")
      .build();
    expect(
      analysed(project, [creeping])
        .state("parked")
        ?.chatter.map(({ part }) => part.designation),
    ).toEqual(["R1"]);
  });

  it("solves an empty drawing", () => {
    const analysis = analyse(drawing().build());
    expect(analysis.states).toHaveLength(6);
    expect(analysis.packs).toEqual([]);
    expect(analysis.belonging(0)).toEqual({ traction: [], auxiliary: [], chassis: true });
  });
});
