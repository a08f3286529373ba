/** A whole 96 V cart through its day: what is in, what stands on the bus, what flows in the motor, state by state. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { SolvedState } from "../../../core/circuit/analysis.ts";
import { elementOf, voltsBetween } from "../../../core/circuit/questions.ts";
import type { NetworkPart } from "../../../core/network/network.ts";
import { drawing } from "../../harness/drawing.ts";

const HEAVY = { size: "35 mm2", length: "0.3 m" };
const SMALL = { size: "1.5 mm2", length: "2 m" };
const BLOCK = { chemistry: "flooded-lead", capacity: "100 Ah" };

function cart() {
  const sketch = drawing();
  for (let block = 1; block <= 8; block += 1) {
    sketch.part(`G${block}`, "battery-block", BLOCK);
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch
    .part("G9", "battery-block", BLOCK)
    .part("X1", "chassis-point", { structure: "body" })
    .part("Q9", "manual-disconnect")
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("R1", "resistor", { resistance: "100 ohm" })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "96 V",
      voltageMin: "60 V",
      inputCapacitance: "5 mF",
      currentContinuous: "200 A",
      regeneration: "yes",
      regenerationCutVoltage: "118 V",
      contactorDriver: "low-side",
    })
    .part("M1", "motor-series", { currentContinuous: "150 A" })
    .part("S1", "key-switch")
    .part("S2", "emergency-stop")
    .part("S3", "selector-switch")
    .part("B1", "throttle-two-wire")
    .part("F2", "fuse", { rating: "15 A" })
    .part("F3", "fuse", { rating: "10 A" })
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "60 V", outputCurrentMax: "30 A" })
    .part("T3", "charger", {
      chemistry: "flooded-lead",
      mainsPlug: "yes",
      isolated: "yes",
      outputVoltageMax: "119 V",
      outputCurrentMax: "15 A",
    })
    .wires(HEAVY, "G8:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "F1:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "G9:- - X1:stud", "G9:+ - F3:1", "F3:2 - S1:battery", "S1:ignition - S2:11")
    .wires(SMALL, "S2:12 - K1:coil+", "K1:coil- - X1:stud", "S2:12 - Q1:coil+", "Q1:coil- - T1:contactor-out")
    .wires(
      SMALL,
      "S2:12 - T1:logic+",
      "T1:logic- - X1:stud",
      "S1:ignition - S3:common",
      "S3:a - T1:forward",
      "S3:b - T1:reverse",
    )
    .wires(SMALL, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2")
    .wires(SMALL, "Q1:load - F2:1", "F2:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - F3:1", "T2:out- - X1:stud")
    .wires(SMALL, "T3:out+ - Q9:load", "T3:out- - G1:-");
}

const analysis = analyse(cart().build());
const { network } = analysis;
const part = (designation: string): NetworkPart => {
  const found = network.parts.find((candidate) => candidate.part.designation === designation);
  if (found === undefined) throw new Error(`no ${designation}`);
  return found;
};
const each = <Value>(ask: (state: SolvedState) => Value): Record<string, Value> =>
  Object.fromEntries(analysis.states.map((state) => [state.name, ask(state)]));
const bus = (state: SolvedState) => voltsBetween(state, part("T1"), "B+", "B-") ?? NaN;
const pack = (state: SolvedState) =>
  state.between(network.nodeOf([part("G8").part.id, "+"]), network.nodeOf([part("G1").part.id, "-"]));

describe("a cart through its day", () => {
  it("has every built-in state", () => {
    expect(analysis.states.map(({ name }) => name)).toEqual([
      "stored",
      "parked",
      "key-on",
      "pre-charging",
      "ready",
      "driving",
      "driving-low",
      "reversing",
      "regenerating",
      "emergency-stop",
      "charging",
    ]);
    expect(each(({ chatter, remarks, converged }) => [chatter.length, remarks.length, converged])).toEqual(
      each(() => [0, 0, true]),
    );
  });

  it("pulls its contactor in once the bus is charged, and lets go with key or stop", () => {
    expect(each((state) => state.partStates[part("Q1").index]?.["coil"])).toEqual({
      stored: false,
      parked: false,
      "key-on": false,
      "pre-charging": false,
      ready: true,
      driving: true,
      "driving-low": true,
      reversing: true,
      regenerating: true,
      "emergency-stop": false,
      charging: false,
    });
    expect(analysis.parkedAfterDriving?.partStates[part("Q1").index]).toEqual({ coil: false });
  });

  it("has its bus at 63.2 % while pre-charging, at the pack's voltage when ready", () => {
    const steady = analysis.state("pre-charging");
    if (steady === undefined) throw new Error("no pre-charging");
    expect(bus(steady) / 101.6).toBeCloseTo(0.632, 3);
    const ready = analysis.state("ready");
    expect(ready && bus(ready)).toBeCloseTo(ready ? pack(ready) : NaN, 1);
  });

  it("puts the motor's continuous current through the motor, turned round in regeneration", () => {
    const amps = each((state) => elementOf(state, network, part("M1"), "armature")?.current ?? NaN);
    for (const name of ["driving", "driving-low", "reversing"]) expect(amps[name]).toBeCloseTo(150, 3);
    expect(amps["regenerating"]).toBeLessThan(-10);
    for (const name of ["stored", "parked", "key-on", "ready", "emergency-stop", "charging"])
      expect(Math.abs(amps[name] ?? NaN)).toBeLessThan(0.01);
  });

  it("feeds the 12 V side from the converter while the contactor is in", () => {
    const volts = each((state) => voltsBetween(state, part("G9"), "+", "-") ?? NaN);
    const converter = each((state) => elementOf(state, network, part("T2"), "output")?.current ?? NaN);
    expect(volts["driving"]).toBeGreaterThan(12.7);
    expect(converter["driving"]).toBeGreaterThan(5);
    expect(volts["parked"]).toBeCloseTo(12.7, 2);
    expect(Math.abs(converter["parked"] ?? NaN)).toBeLessThan(1e-3);
  });

  it("fills the pack in charging: current goes into the blocks", () => {
    const charging = analysis.state("charging");
    if (charging === undefined) throw new Error("no charging");
    expect(elementOf(charging, network, part("T3"), "output")?.current).toBeGreaterThan(1);
    expect(elementOf(charging, network, part("G4"), "emf")?.current).toBeLessThan(-1);
    expect(pack(charging)).toBeGreaterThan(8 * 6 * 2.4);
  });

  it("is looked at plugged in while driving and while stored", () => {
    expect(analysis.plugged.map(({ name, condition }) => [name, condition.mains])).toEqual([
      ["driving while plugged in", "plugged"],
      ["stored while plugged in", "plugged"],
    ]);
  });

  it("is looked at with each two-position control turned once, the selector in every position", () => {
    const driving = analysis.flipped.map(({ name }) => name).filter((name) => name.startsWith("driving with"));
    expect(driving).toContain("driving with S1 off");
    expect(driving).toContain("driving with S2 pressed");
    expect(driving).toContain("driving with S3 b");
    expect(driving).toContain("driving with S3 centre");
  });

  it("has one traction pack of eight and one 12 V battery", () => {
    expect(analysis.packs.map(({ duty, blocks }) => [duty, blocks.length])).toEqual([
      ["traction", 8],
      ["auxiliary", 1],
    ]);
    expect(analysis.supplies).toEqual([]);
  });
});
