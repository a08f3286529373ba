/**
 * Sources, protection and passive parts: figures against published tables and formulas, and small drawings worked by
 * hand for what converters, chargers and control units do.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis, SolvedState } from "../../../core/circuit/analysis.ts";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { PartContext, PartState } from "../../../core/parts/define.ts";
import type { Element } from "../../../core/parts/element.ts";
import { readValues } from "../../../core/parts/values.ts";
import { drawing, type Drawing } from "../../harness/drawing.ts";
import { conditionIn } from "./operating-conditions.ts";

type Given = Readonly<Record<string, string>>;

function elements(name: string, parameters: Given, state: string, more: Partial<PartContext> = {}): readonly Element[] {
  const kind = kindOf(name);
  if (kind === undefined) throw new Error(`there is no kind ${name}`);
  const values = readValues(kind, parameters);
  const condition = conditionIn(state);
  return kind.circuit({
    values,
    condition,
    position: kind.control?.at(condition, values) ?? "",
    state: kind.initial?.(values) ?? {},
    wired: () => true,
    motorCurrent: undefined,
    ...more,
  });
}

function named<T extends Element["type"]>(
  list: readonly Element[],
  name: string,
  type: T,
): Extract<Element, { type: T }> {
  const found = list.find((each) => each.name === name);
  if (found?.type !== type) throw new Error(`there is no ${type} ${name}`);
  return found as Extract<Element, { type: T }>;
}

const emf = (name: string, parameters: Given, state: string, more: Partial<PartContext> = {}): number =>
  named(elements(name, parameters, state, more), "emf", "source").emf;

describe("batteries", () => {
  // Published block counts: n x 12 V lead full at rest, highest on charge (absorption up to 2.47 V a cell).
  it.each([
    [4, 50.8, 59.3],
    [6, 76.2, 88.9],
    [8, 101.6, 118.6],
    [12, 152.4, 177.8],
  ])("of %i blocks of flooded lead stand at %f V full and %f V on charge", (blocks, full, charge) => {
    const given = { chemistry: "flooded-lead", blocks: String(blocks) };
    expect(emf("battery-pack", given, "parked")).toBeCloseTo(full, 1);
    expect(emf("battery-pack", given, "driving")).toBeCloseTo(full, 1);
    expect(emf("battery-pack", given, "charging")).toBeCloseTo(charge, 1);
  });

  it.each([
    ["lifepo4", "16", 58.4],
    ["lifepo4", "45", 164.25],
    ["nmc", "96", 403.2],
  ])("of %s, %s cells, stand at %f V on charge", (chemistry, cells, charge) => {
    expect(emf("battery-block", { chemistry, cells }, "charging")).toBeCloseTo(charge, 2);
  });

  it("are at a tenth when low, or at their stated charge", () => {
    // Published open-circuit table: 10 % 11.31 V, 50 % 12.06 V.
    expect(emf("battery-block", { chemistry: "flooded-lead" }, "driving-low")).toBeCloseTo(11.31, 6);
    expect(emf("battery-block", { chemistry: "flooded-lead", chargeState: "50 %" }, "parked")).toBeCloseTo(12.06, 6);
  });

  it("that serve the 12 V side stand rested and full whatever the pack does", () => {
    const given = { chemistry: "flooded-lead" };
    expect(emf("battery-block", { ...given, duty: "auxiliary" }, "charging")).toBeCloseTo(12.7, 6);
    expect(emf("battery-block", given, "charging", { duty: "auxiliary" })).toBeCloseTo(12.7, 6);
    // What is stated stands over what the wiring looks like.
    expect(emf("battery-block", { ...given, duty: "traction" }, "charging", { duty: "auxiliary" })).toBeCloseTo(
      14.82,
      6,
    );
  });

  it("have a stated resistance, or a range that holds the published ones", () => {
    const source = (given: Given) => named(elements("battery-block", given, "parked"), "emf", "source");
    expect(source({ resistance: "4 mohm" })).toMatchObject({ resistance: 0.004 });
    expect(source({ resistance: "4 mohm" }).range).toBeUndefined();
    // From memory: 12 V 100 Ah flooded 5 to 8 mohm, 6 V 225 Ah flooded 2 to 4 mohm.
    for (const [given, least, greatest] of [
      [{ chemistry: "flooded-lead", cells: "6", capacity: "100 Ah" }, 5e-3, 8e-3],
      [{ chemistry: "flooded-lead", cells: "3", capacity: "225 Ah" }, 2e-3, 4e-3],
      [{ chemistry: "lifepo4", cells: "1", capacity: "100 Ah" }, 0.3e-3, 0.6e-3],
    ] as const) {
      const [low, high] = source(given).range ?? [NaN, NaN];
      expect(low).toBeLessThanOrEqual(least * 1.01);
      expect(high).toBeGreaterThanOrEqual(greatest * 0.99);
      expect(source(given).resistance).toBeGreaterThan(low);
      expect(source(given).resistance).toBeLessThan(high);
    }
  });

  it("add a jumper between every two blocks, and a fuse only where its rating is stated", () => {
    const given = { blocks: "6", resistance: "5 mohm" };
    expect(named(elements("battery-pack", given, "parked"), "emf", "source").resistance).toBeCloseTo(0.0305, 9);
    expect(elements("battery-pack", given, "parked").some(({ role }) => role === "protection")).toBe(false);
    const fused = elements("battery-pack", { ...given, internalFuseRating: "200 A" }, "parked");
    expect(named(fused, "fuse", "contact")).toMatchObject({ role: "protection", b: "+", resistance: 0.0005 });
    expect(named(fused, "emf", "source").a).toBe(named(fused, "fuse", "contact").a);
  });

  it("leak to chassis by what they are: wet strings share 1 Mohm, sealed blocks 10 Mohm each, or as measured", () => {
    const leaks = (given: Given): readonly Element[] =>
      elements("battery-block", given, "parked").filter(({ role }) => role === "leak");
    const together = (list: readonly Element[]): number =>
      1 / list.reduce((sum, leak) => sum + ("resistance" in leak ? 1 / leak.resistance : NaN), 0);
    expect(together(leaks({ chemistry: "flooded-lead" }))).toBeCloseTo(1e6, 3);
    expect(leaks({ chemistry: "flooded-lead" }).every((leak) => "shared" in leak)).toBe(true);
    expect(together(leaks({ chemistry: "nmc" }))).toBeCloseTo(10e6, 3);
    const measured = leaks({ chemistry: "flooded-lead", isolation: "20 kohm" });
    expect(measured).toMatchObject([{ a: "-", resistance: 20_000 }]);
  });
});

describe("protection and passive parts", () => {
  it("make 0.1 V at a fuse's rating", () => {
    expect(named(elements("fuse", { rating: "250 A" }, "ready"), "link", "contact")).toMatchObject({
      closed: true,
      resistance: 0.0004,
      movedBy: "none",
    });
  });

  it("open a breaker where the disconnect is out", () => {
    const closed = (state: string): boolean =>
      named(elements("circuit-breaker", {}, state), "contact", "contact").closed;
    expect([closed("stored"), closed("parked"), closed("driving")]).toEqual([false, true, true]);
  });

  it("clamp either way or one way, from 1 to 2", () => {
    const clamp = (type: string) =>
      named(elements("suppressor", { type, clampVoltage: "33 V" }, "ready"), "clamp", "clamp");
    expect(clamp("zener")).toMatchObject({ a: "1", b: "2", clamp: 33, oneWay: true });
    expect(clamp("varistor")).toMatchObject({ clamp: 33, oneWay: false });
    expect(elements("suppressor", { type: "rc" }, "ready").map(({ type }) => type)).toEqual([
      "resistance",
      "capacitor",
    ]);
  });

  it("divide by the stated ratio", () => {
    const list = elements("voltage-divider", { ratio: "10 %" }, "ready");
    const [upper, lower] = ["upper", "lower"].map((name) => named(list, name, "resistance").resistance);
    expect((lower ?? NaN) / ((upper ?? NaN) + (lower ?? NaN))).toBeCloseTo(0.1, 12);
  });
});

const THIN = { size: "2.5 mm2", length: "1 m" };

const partOf = (analysis: Analysis, designation: string) => {
  const part = analysis.network.parts.find((candidate) => candidate.part.designation === designation);
  if (part === undefined) throw new Error(`no ${designation}`);
  return part;
};
const stateOf = (analysis: Analysis, state: SolvedState | undefined, designation: string): PartState =>
  state?.partStates[partOf(analysis, designation).index] ?? {};
const current = (analysis: Analysis, state: string, designation: string, element: string): number => {
  const { firstBranch, branchCount } = partOf(analysis, designation);
  for (let index = firstBranch; index < firstBranch + branchCount; index += 1) {
    if (analysis.network.branches[index]?.name === element) return analysis.state(state)?.currents[index] ?? NaN;
  }
  throw new Error(`${designation} has no ${element}`);
};
const between = (analysis: Analysis, state: string, part: string, a: string, b: string): number => {
  const { nodes } = partOf(analysis, part);
  return analysis.state(state)?.between(nodes.get(a) ?? NaN, nodes.get(b) ?? NaN) ?? NaN;
};

describe("a converter", () => {
  const supply = (converter: Given, ...wires: readonly string[]): Analysis => {
    const sketch: Drawing = drawing()
      .part("G1", "battery-pack", { blocks: "6", resistance: "5 mohm", duty: "traction" })
      .part("S1", "key-switch")
      .part("R1", "resistor", { resistance: "100 ohm" })
      .part("T2", "dc-dc-converter", { inputMin: "48 V", outputCurrentMax: "30 A", ...converter })
      .part("E1", "resistor", { resistance: "1 ohm" })
      .wires(THIN, "G1:+ - S1:battery", "G1:- - T2:in-", "T2:out+ - E1:1", "T2:out- - E1:2");
    for (const wire of wires) sketch.wires(THIN, wire);
    return analyse(sketch.build());
  };

  it("delivers its voltage and draws the power divided by its efficiency", () => {
    const analysis = supply({}, "G1:+ - T2:in+");
    const out = between(analysis, "ready", "T2", "out+", "out-");
    expect(out).toBeCloseTo(13.8, 0);
    expect(current(analysis, "ready", "T2", "output")).toBeCloseTo(between(analysis, "ready", "E1", "1", "2"), 5);
    const drawn = current(analysis, "ready", "T2", "input") * between(analysis, "ready", "T2", "in+", "in-");
    expect(drawn).toBeCloseTo((13.8 * current(analysis, "ready", "T2", "output")) / 0.9, -1);
  });

  it("holds its output current at its limit", () => {
    const analysis = supply({ outputCurrentMax: "5 A" }, "G1:+ - T2:in+");
    expect(current(analysis, "ready", "T2", "output")).toBeCloseTo(5, 6);
    expect(between(analysis, "ready", "E1", "1", "2")).toBeCloseTo(5, 5);
  });

  it("is off below its least input, on with the key", () => {
    const off = supply({ inputMin: "80 V" }, "G1:+ - T2:in+");
    expect(stateOf(off, off.state("ready"), "T2")).toEqual({ on: false });
    const keyed = supply({}, "S1:ignition - T2:in+");
    expect(stateOf(keyed, keyed.state("parked"), "T2")).toEqual({ on: false });
    expect(stateOf(keyed, keyed.state("ready"), "T2")).toEqual({ on: true });
  });

  it("that has an enable input waits for it", () => {
    const open = supply({ enableInput: "active-high" }, "G1:+ - T2:in+");
    expect(stateOf(open, open.state("ready"), "T2")).toEqual({ on: false });
    const analysis = supply({ enableInput: "active-high", isolated: "no" }, "G1:+ - T2:in+", "S1:ignition - T2:enable");
    expect(stateOf(analysis, analysis.state("parked"), "T2")).toEqual({ on: false });
    expect(stateOf(analysis, analysis.state("ready"), "T2")).toEqual({ on: true });
  });

  it("cannot start through a resistor, says so, and does not chatter", () => {
    const analysis = supply({}, "G1:+ - R1:1", "R1:2 - T2:in+");
    const ready = analysis.state("ready");
    expect(stateOf(analysis, ready, "T2")).toMatchObject({ on: false });
    expect(ready?.remarks.map(({ remark }) => remark)).toEqual(["cannot start on this feed"]);
    expect(ready?.chatter).toEqual([]);
  });

  it("joins input and output minus only where it is stated not isolated", () => {
    const ties = (isolated: Given): number =>
      elements("dc-dc-converter", isolated, "ready").filter(({ name }) => name === "common-minus").length;
    expect([ties({ isolated: "no" }), ties({ isolated: "yes" }), ties({})]).toEqual([1, 0, 0]);
  });
});

describe("a charger", () => {
  const plugged = (charger: Given, ...wires: readonly string[]): Analysis => {
    const sketch = drawing()
      .part("G1", "battery-pack", { blocks: "6", resistance: "5 mohm", duty: "traction" })
      .part("X5", "inlet", { inputVoltage: "230 V" })
      .part("T3", "charger", { outputVoltageMax: "92 V", outputCurrentMax: "20 A", ...charger })
      .wires(THIN, "T3:out+ - G1:+", "T3:out- - G1:-");
    for (const wire of wires) sketch.wires(THIN, wire);
    return analyse(sketch.build());
  };

  it("charges on its own cord, at its limit at most, and opens its inhibit contact", () => {
    const analysis = plugged({ mainsPlug: "yes" });
    expect(stateOf(analysis, analysis.state("charging"), "T3")).toEqual({ mains: true, charging: true });
    // 92 V against 88.92 V through 30.5 mohm and leads of some 15 mohm would be 60 A.
    expect(current(analysis, "charging", "T3", "output")).toBeCloseTo(20, 6);
    expect(stateOf(analysis, analysis.state("parked"), "T3")).toEqual({ mains: false, charging: false });
  });

  it("without a cord waits for the mains at L and N", () => {
    const bare = plugged({ mainsPlug: "no" });
    expect(stateOf(bare, bare.state("charging"), "T3")).toEqual({ mains: false, charging: false });
    const wired = plugged({ mainsPlug: "no" }, "X5:L - T3:L", "X5:N - T3:N");
    expect(stateOf(wired, wired.state("charging"), "T3")).toEqual({ mains: true, charging: true });
    // 20 A at some 90 V and 90 % from 230 V: about 8.7 A.
    expect(current(wired, "charging", "T3", "input")).toBeCloseTo(8.7, 0);
  });

  it("that looks for a battery delivers nothing onto an open pair", () => {
    const open = (batteryDetect: string): PartState => {
      const analysis = analyse(
        drawing().part("T3", "charger", { mainsPlug: "yes", outputVoltageMax: "92 V", batteryDetect }).build(),
      );
      return stateOf(analysis, analysis.state("charging"), "T3");
    };
    expect(open("yes")).toEqual({ mains: true, charging: false });
    expect(open("no")).toEqual({ mains: true, charging: true });
  });

  it("that states no voltage delivers nothing and says so", () => {
    const analysis = analyse(drawing().part("T3", "charger", { mainsPlug: "yes" }).build());
    expect(analysis.state("charging")?.remarks.map(({ remark }) => remark)).toEqual([
      "states no output voltage, so that it delivers nothing",
    ]);
  });
});

describe("a control unit", () => {
  const unit = (parameters: Given): Analysis =>
    analyse(
      drawing()
        .part("G9", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", resistance: "10 mohm" })
        .part("S1", "key-switch")
        .part("S2", "switch")
        .part("K5", "control-unit", { inputs: "2", outputs: "2", ...parameters })
        .part("P1", "lamp", { voltage: "12 V", power: "10 W" })
        .wires(THIN, "G9:+ - S1:battery", "S1:ignition - K5:supply+", "G9:- - K5:supply-", "S1:ignition - S2:common")
        .wires(THIN, "S2:out - K5:in-1", "G9:+ - K5:in-2", "K5:out-1 - P1:+", "P1:- - K5:supply-")
        .build(),
    );
  const outputs = (parameters: Given): unknown[] => {
    const analysis = unit(parameters);
    return ["parked", "ready", "driving"].map((state) => stateOf(analysis, analysis.state(state), "K5")["out-1"]);
  };

  it("lets an output follow states, inputs and volts while it is supplied", () => {
    expect(outputs({ "out-1-follows": "driving" })).toEqual([false, false, true]);
    expect(outputs({ "out-1-follows": "in-1 and not driving" })).toEqual([false, true, false]);
    expect(outputs({ "out-1-follows": "volts(in-2, in-1) < 1 V" })).toEqual([false, true, true]);
    expect(outputs({ "out-1-follows": "volts(in-2) > 14 V" })).toEqual([false, false, false]);
    expect(outputs({})).toEqual([false, false, false]);
  });

  it("feeds a load from its plus, or takes it to its minus", () => {
    const high = unit({ "out-1-follows": "ready", outputType: "high-side" });
    expect(between(high, "ready", "P1", "+", "-")).toBeCloseTo(12.9, 0);
    expect(Math.abs(between(high, "driving", "P1", "+", "-"))).toBeLessThan(0.1);
    const low = unit({ "out-1-follows": "ready", outputType: "low-side" });
    expect(Math.abs(between(low, "ready", "P1", "+", "-"))).toBeLessThan(0.1);
  });
});

describe("a field output", () => {
  it("feeds the field at the bus voltage while driving and is dead otherwise", () => {
    const analysis = analyse(
      drawing()
        .part("G1", "battery-pack", { blocks: "4", resistance: "5 mohm" })
        .part("T1", "dc-controller", { logicFeed: "pack-fed", currentContinuous: "100 A" })
        .part("M1", "motor-separately-excited", { fieldResistance: "2 ohm", currentContinuous: "150 A" })
        .part("S2", "selector-switch")
        .wires(THIN, "G1:+ - T1:B+", "G1:- - T1:B-", "G1:+ - T1:logic+", "T1:M+ - M1:A1", "M1:A2 - T1:M-")
        .wires(THIN, "T1:F1 - M1:F1", "T1:F2 - M1:F2", "G1:+ - S2:common", "S2:a - T1:forward", "S2:b - T1:reverse")
        .build(),
    );
    const bus = between(analysis, "driving", "T1", "B+", "B-");
    // 2 ohm behind two transistors of 50 mohm and two wires.
    expect(between(analysis, "driving", "M1", "F1", "F2")).toBeGreaterThan(0.93 * bus);
    expect(between(analysis, "reversing", "M1", "F1", "F2")).toBeLessThan(-0.93 * bus);
    expect(Math.abs(between(analysis, "ready", "M1", "F1", "F2"))).toBeLessThan(0.01);
  });
});
