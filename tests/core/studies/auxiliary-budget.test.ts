import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { auxiliaryBudget } from "../../../core/studies/auxiliary-budget.ts";
import type { AuxiliarySystem } from "../../../core/studies/auxiliary-budget.ts";
import { drawing } from "../../harness/drawing.ts";

const AH = 3600;
const SHORT = { size: "16 mm2", length: "0.1 m" } as const;

interface Options {
  readonly capacity?: string | null;
  readonly output?: string | null;
  readonly lamp?: string | null;
}

/** A 96 V pack, a converter that is always on, a 12 V battery, a switched heater and a permanent small load. */
function vehicle({ capacity = "60 Ah", output = "20 A", lamp = "480 W" }: Options = {}) {
  const stated = (name: string, value: string | null) => (value === null ? {} : { [name]: value });
  return drawing()
    .part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "lifepo4",
      cells: "4",
      blocks: "8",
      capacity: "100 Ah",
      resistance: "10 mohm",
    })
    .part("T1", "dc-dc-converter", {
      inputMin: "60 V",
      inputMax: "130 V",
      isolated: "yes",
      enableInput: "none",
      outputVoltage: "13.8 V",
      ...stated("outputCurrentMax", output),
    })
    .part("G2", "battery-block", {
      duty: "auxiliary",
      chemistry: "agm-lead",
      cells: "6",
      resistance: "5 mohm",
      ...stated("capacity", capacity),
    })
    .part("S1", "switch")
    .part("E1", "load", { voltage: "12 V", ...stated("power", lamp) })
    .part("E2", "load", { voltage: "12 V", power: "1.2 W", alwaysOn: "yes" })
    .wire("G1:+", "T1:in+", SHORT)
    .wire("G1:-", "T1:in-", SHORT)
    .wire("T1:out+", "G2:+", SHORT)
    .wire("T1:out-", "G2:-", SHORT)
    .wire("G2:+", "S1:common", SHORT)
    .wire("S1:out", "E1:+", SHORT)
    .wire("E1:-", "G2:-", SHORT)
    .wire("G2:+", "E2:+", SHORT)
    .wire("E2:-", "G2:-", SHORT)
    .build();
}

function systemOf(options: Options = {}): AuxiliarySystem {
  const [system] = auxiliaryBudget(analyse(vehicle(options))).systems;
  if (system === undefined) throw new Error("the drawing has no 12 V side");
  return system;
}
const inState = (system: AuxiliarySystem, name: string) => {
  const found = system.states.find(({ state }) => state === name);
  if (found === undefined) throw new Error(`there is no state ${name}`);
  return found;
};

describe("12 V budget", () => {
  test("demand is what the loads draw at the voltage of the bus (Ohm's law)", () => {
    const { demand, bus, loads } = inState(systemOf(), "driving");
    const siemens = 480 / 12 ** 2 + 1.2 / 12 ** 2;
    // The switch's contact in the way takes a few per cent.
    expect(demand / (bus * siemens)).toBeGreaterThan(0.95);
    expect(demand / (bus * siemens)).toBeLessThan(1);
    expect(loads.map(({ part }) => part.part.designation)).toEqual(["E1", "E2"]);
  });

  test("the battery adds what the converter cannot give", () => {
    const system = systemOf();
    const { shortfall = 0, capable, demand, whileShort, onBatteryAlone } = inState(system, "driving");
    expect(capable).toBe(20);
    expect(shortfall).toBeCloseTo(demand - 20, 9);
    expect(shortfall).toBeGreaterThan(15);
    // Half of 60 Ah for sure, all of it at most.
    expect(whileShort?.[0]).toBeCloseTo((30 * AH) / shortfall, 6);
    expect(whileShort?.[1]).toBeCloseTo((60 * AH) / shortfall, 6);
    expect(onBatteryAlone?.[0]).toBeCloseTo((30 * AH) / demand, 6);
  });

  test("a converter that is large enough leaves no shortfall", () => {
    expect(inState(systemOf({ output: "60 A" }), "driving")).toMatchObject({
      shortfall: 0,
      whileShort: [Infinity, Infinity],
    });
  });

  test("what is unstated is named, and nothing is made up for it", () => {
    const without = systemOf({ capacity: null, output: null, lamp: null });
    expect(without.missing.map((field) => Object.values(field).join("."))).toEqual(
      expect.arrayContaining(["p3.capacity", "p2.outputCurrentMax", "p5.power"]),
    );
    expect(inState(without, "driving")).toMatchObject({
      capable: undefined,
      shortfall: undefined,
      whileShort: undefined,
    });
    expect(without.usable).toBeUndefined();
  });

  test("without a battery a converter at its limit shows what the loads would draw at its voltage", () => {
    const project = drawing()
      .part("G1", "battery-pack", {
        duty: "traction",
        chemistry: "lifepo4",
        cells: "4",
        blocks: "8",
        resistance: "10 mohm",
      })
      .part("T1", "dc-dc-converter", {
        inputMin: "60 V",
        isolated: "yes",
        enableInput: "none",
        outputCurrentMax: "10 A",
        outputVoltage: "12 V",
      })
      .part("E1", "load", { voltage: "12 V", power: "240 W" })
      .wire("G1:+", "T1:in+", SHORT)
      .wire("G1:-", "T1:in-", SHORT)
      .wire("T1:out+", "E1:+", SHORT)
      .wire("E1:-", "T1:out-", SHORT)
      .build();
    const [system] = auxiliaryBudget(analyse(project)).systems;
    const driving = system?.states.find(({ state }) => state === "driving");
    expect(system?.battery).toBe(false);
    expect(driving?.demand).toBeCloseTo(20, 1);
    expect(driving?.shortfall).toBeCloseTo(10, 1);
    expect(driving?.onBatteryAlone).toBeUndefined();
  });
});

describe("standing drain", () => {
  test("a load that stays on empties a lone battery in hours that its capacity tells", () => {
    const project = drawing()
      .part("G2", "battery-block", {
        duty: "auxiliary",
        chemistry: "agm-lead",
        cells: "6",
        resistance: "5 mohm",
        capacity: "60 Ah",
      })
      .part("E2", "load", { voltage: "12 V", power: "1.2 W", alwaysOn: "yes" })
      .wire("G2:+", "E2:+", SHORT)
      .wire("E2:-", "G2:-", SHORT)
      .build();
    const [drain] = auxiliaryBudget(analyse(project)).standing;
    // 1.2 W at 12 V is 120 ohm; a rested full block has about 12.9 V, so some 0.107 A.
    expect(drain?.current).toBeGreaterThan(0.1);
    expect(drain?.current).toBeLessThan(0.11);
    expect(drain?.flatAfter?.[0]).toBeCloseTo((30 * AH) / (drain?.current ?? 1), 6);
    expect(drain?.draws.map(({ part }) => part.part.designation)).toEqual(["E2"]);
  });
});

describe("coils on a low battery", () => {
  test("a coil on short thick wires gets nearly the 10.5 V of an empty block", () => {
    const project = drawing()
      .part("G2", "battery-block", {
        duty: "auxiliary",
        chemistry: "agm-lead",
        cells: "6",
        resistance: "5 mohm",
        capacity: "60 Ah",
      })
      .part("S1", "key-switch")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .wire("G2:+", "S1:battery", SHORT)
      .wire("S1:ignition", "K1:coil+", SHORT)
      .wire("K1:coil-", "G2:-", SHORT)
      .build();
    const [system] = auxiliaryBudget(analyse(project)).systems;
    const coil = system?.coils.find(({ state }) => state === "driving");
    expect(coil?.volts).toBeGreaterThan(10.4);
    expect(coil?.volts).toBeLessThanOrEqual(10.5);
    expect(system?.coils.some(({ state }) => state === "parked")).toBe(false);
  });
});
