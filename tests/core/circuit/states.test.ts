/** Operating states of small drawings, with the kinds as they are: who pulls in when, and what stands where. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis, SolvedState } from "../../../core/circuit/analysis.ts";
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";

const SMALL = { size: "2.5 mm2", length: "1 m" };
const HEAVY = { size: "35 mm2", length: "0.3 m" };

/** A 12 V side: battery on the body, fuse, key. */
const twelveVolts = (): Drawing =>
  drawing()
    .part("G9", "battery-block", { chemistry: "flooded-lead", cells: "6", capacity: "60 Ah" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("F9", "fuse", { rating: "10 A" })
    .part("S1", "key-switch")
    .wires(SMALL, "G9:- - X1:stud", "G9:+ - F9:1", "F9:2 - S1:battery");

/** A string of blocks G1 ... with its jumpers. */
const string = (sketch: Drawing, count: number): Drawing => {
  for (let block = 1; block <= count; block += 1) {
    sketch.part(`G${block}`, "battery-block", { chemistry: "flooded-lead", cells: "6", capacity: "100 Ah" });
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch;
};

const partIndex = (analysis: Analysis, designation: string): number => {
  const part = analysis.network.parts.find((candidate) => candidate.part.designation === designation);
  if (part === undefined) throw new Error(`no ${designation}`);
  return part.index;
};
const coil = (analysis: Analysis, designation: string) => (state: SolvedState | undefined) =>
  state?.partStates[partIndex(analysis, designation)]?.["coil"];
const volts = (analysis: Analysis, state: SolvedState | undefined, plus: string, minus: string): number => {
  const node = (text: string): number => {
    if (text === "chassis") return 0;
    const [designation = "", terminal = ""] = text.split(":");
    const part = analysis.network.parts[partIndex(analysis, designation)];
    return analysis.network.nodeOf([part?.part.id ?? "", terminal]);
  };
  return state?.between(node(plus), node(minus)) ?? NaN;
};

describe("a contactor fed by key and emergency stop", () => {
  const analysis = analyse(
    twelveVolts()
      .part("S2", "emergency-stop")
      .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
      .wires(SMALL, "S1:ignition - S2:11", "S2:12 - Q1:coil+", "Q1:coil- - X1:stud")
      .build(),
  );
  const pulledIn = coil(analysis, "Q1");

  it("is in exactly where key and stop let it", () => {
    expect(Object.fromEntries(analysis.states.map((state) => [state.name, pulledIn(state)]))).toEqual({
      parked: false,
      "key-on": true,
      "pre-charging": true,
      ready: true,
      driving: true,
      "driving-low": true,
      "emergency-stop": false,
    });
  });

  it("draws its coil's current through the wires of its feed and return", () => {
    // 12 V and 12 W: 12 ohm, in series with wires, contacts and the battery: a little less than 12.7 V / 12 ohm.
    const amps = Math.abs(
      analysis.state("key-on")?.currents[analysis.network.conductorByWire.get("w5")?.branch ?? -1] ?? 0,
    );
    expect(amps).toBeGreaterThan(1.0);
    expect(amps).toBeLessThan(12.7 / 12);
  });

  it("lets go again after key-off", () => {
    expect(pulledIn(analysis.parkedAfterDriving)).toBe(false);
  });

  it("stays out in each state in which the key is turned off by hand", () => {
    const off = analysis.flipped.filter(({ name }) => name === "driving with S1 off");
    expect(off.map(pulledIn)).toEqual([false]);
  });
});

describe("a relay that holds itself", () => {
  const analysis = analyse(
    twelveVolts()
      .part("S3", "push-button", { contact: "make" })
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .wires(SMALL, "F9:2 - S3:1", "S3:2 - K1:coil+", "K1:coil- - X1:stud", "F9:2 - K1:common", "K1:no - K1:coil+")
      .build(),
  );

  it("stays in after the button, and after key-off: parked has two faces", () => {
    const pulledIn = coil(analysis, "K1");
    expect(pulledIn(analysis.state("parked"))).toBe(false);
    expect(pulledIn(analysis.state("key-on"))).toBe(true);
    expect(pulledIn(analysis.state("driving"))).toBe(true);
    expect(pulledIn(analysis.parkedAfterDriving)).toBe(true);
  });
});

describe("controls set by hand", () => {
  it("unplug a connector in a state of the user's own", () => {
    const analysis = analyse(
      twelveVolts()
        .part("X5", "connector", { positions: "2" })
        .part("H1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "S1:ignition - X5:1a", "X5:1b - H1:+", "H1:- - X1:stud")
        .state("lamp-off-the-plug", "driving", { X5: "unplugged" })
        .build(),
    );
    expect(volts(analysis, analysis.state("driving"), "H1:+", "H1:-")).toBeGreaterThan(12);
    expect(volts(analysis, analysis.state("lamp-off-the-plug"), "H1:+", "H1:-")).toBeCloseTo(0, 6);
    // One net while the drawing has it plugged, whatever a state does.
    const { network } = analysis;
    expect(network.netOfNode[network.nodeOf(["p5", "1a"])]).toBe(network.netOfNode[network.nodeOf(["p6", "+"])]);
  });

  it("turn a selector to both", () => {
    const analysis = analyse(
      twelveVolts()
        .part("S4", "selector-switch", { both: "yes" })
        .part("H1", "lamp", { voltage: "12 V", power: "5 W" })
        .part("H2", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "S1:ignition - S4:common", "S4:a - H1:+", "S4:b - H2:+", "H1:- - X1:stud", "H2:- - X1:stud")
        .state("both-lamps", "driving", { S4: "both" })
        .build(),
    );
    const lit = (name: string) =>
      ["H1", "H2"].map((lamp) => volts(analysis, analysis.state(name), `${lamp}:+`, `${lamp}:-`) > 11);
    expect(lit("driving")).toEqual([true, false]);
    expect(lit("reversing")).toEqual([false, true]);
    expect(lit("both-lamps")).toEqual([true, true]);
    expect(lit("parked")).toEqual([false, false]);
  });
});

describe("the states of a drawing", () => {
  const names = (sketch: Drawing) => analyse(sketch.build()).states.map(({ name }) => name);
  const ALWAYS = ["parked", "key-on", "pre-charging", "ready", "driving", "driving-low"];

  it("are those whose controls it has", () => {
    expect(names(drawing())).toEqual(ALWAYS);
    expect(names(drawing().part("Q1", "manual-disconnect"))).toEqual(["stored", ...ALWAYS]);
    expect(names(drawing().part("F1", "circuit-breaker"))).toEqual(ALWAYS);
    expect(names(drawing().part("F1", "circuit-breaker", { manual: "yes" }))).toEqual(["stored", ...ALWAYS]);
    expect(names(drawing().part("S1", "emergency-stop"))).toEqual([...ALWAYS, "emergency-stop"]);
    expect(names(drawing().part("S1", "selector-switch"))).toEqual([...ALWAYS, "reversing"]);
    expect(names(drawing().part("T1", "charger"))).toEqual([...ALWAYS, "charging"]);
    expect(names(drawing().part("T1", "dc-controller", { regeneration: "yes" }))).toEqual([...ALWAYS, "regenerating"]);
    expect(names(drawing().part("T1", "dc-controller", { regeneration: "no" }))).toEqual(ALWAYS);
    expect(names(drawing().part("T1", "dc-controller").part("S1", "switch").wire("S1:out", "T1:reverse"))).toEqual([
      ...ALWAYS,
      "reversing",
    ]);
  });

  it("leave out a user's state that starts from nowhere", () => {
    expect(names(drawing().state("towed", "driving").state("lost", "sailing"))).toEqual([...ALWAYS, "towed"]);
  });
});

describe("capacitors", () => {
  /** A bus of 10 kohm and a capacitor behind a contactor that stays open, bridged by 100 ohm. */
  const bus = () =>
    string(drawing().part("Q9", "manual-disconnect"), 4)
      .part("Q1", "contactor", { coilVoltage: "12 V" })
      .part("R1", "resistor", { resistance: "100 ohm" })
      .part("R2", "resistor", { resistance: "10 kohm" })
      .part("C1", "capacitor", { capacitance: "5 mF" })
      .wires(HEAVY, "G4:+ - Q9:line", "Q9:load - Q1:line", "Q1:load - C1:+", "C1:- - G1:-")
      .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "C1:+ - R2:1", "R2:2 - C1:-");

  it("stand empty in stored, steady in parked, at one time constant in pre-charging", () => {
    const analysis = analyse(bus().build());
    const across = (name: string) => volts(analysis, analysis.state(name), "C1:+", "C1:-");
    const pack = volts(analysis, analysis.state("parked"), "G4:+", "G1:-");
    // Divider of 100 ohm and 10 kohm, wires aside.
    const steady = (pack * 10_000) / 10_100;
    expect(across("stored")).toBeCloseTo(0, 6);
    expect(across("parked")).toBeCloseTo(steady, 3);
    expect(across("key-on")).toBeCloseTo(steady, 3);
    expect(across("pre-charging")).toBeCloseTo(0.632 * steady, 3);
    expect(across("ready")).toBeCloseTo(steady, 3);
  });

  it("are steady where they settle, held state or not", () => {
    const analysis = analyse(bus().build());
    const pre = analysis.state("pre-charging");
    if (pre === undefined) throw new Error("no pre-charging");
    const settled = analysis.settledCapacitors(pre);
    const pack = volts(analysis, settled, "G4:+", "G1:-");
    expect(volts(analysis, settled, "C1:+", "C1:-")).toBeCloseTo((pack * 10_000) / 10_100, 3);
    const ready = analysis.state("ready");
    if (ready === undefined) throw new Error("no ready");
    expect(analysis.settledCapacitors(ready)).toBe(ready);
  });

  it("charge at once where nothing but wires joins them to the pack", () => {
    // Otherwise an "empty" capacitor in *stored* would be a short that is not there.
    const analysis = analyse(
      string(drawing().part("Q9", "manual-disconnect"), 4)
        .part("C1", "capacitor", { capacitance: "5 mF" })
        .wires(HEAVY, "G4:+ - C1:+", "C1:- - G1:-")
        .build(),
    );
    const stored = analysis.state("stored");
    expect(volts(analysis, stored, "C1:+", "C1:-")).toBeGreaterThan(4 * 12);
    expect(Math.max(...(stored?.currents ?? []).map(Math.abs))).toBeLessThan(0.01);
  });
});

describe("a floating string", () => {
  it("sits where its leaks put it: symmetrical to the chassis", () => {
    const analysis = analyse(string(drawing(), 8).build());
    const parked = analysis.state("parked");
    const plus = volts(analysis, parked, "G8:+", "chassis");
    const minus = volts(analysis, parked, "G1:-", "chassis");
    expect(plus - minus).toBeGreaterThan(8 * 12.5);
    expect(plus + minus).toBeCloseTo(0, 6);
  });

  it("shares the 1 Mohm of a wet string over its blocks", () => {
    const analysis = analyse(string(drawing(), 8).build());
    const parked = analysis.state("parked");
    if (parked === undefined) throw new Error("no parked");
    // From the middle of the string to chassis: all leaks in parallel.
    const middle = analysis.network.nodeOf(["p4", "+"]);
    expect(analysis.resistanceBetween(parked, middle, 0)).toBeGreaterThan(0.95e6);
    expect(analysis.resistanceBetween(parked, middle, 0)).toBeLessThan(1.01e6);
  });
});
