/** Kirchhoff: the current that a coil had goes on through whatever lies across it, and the voltage follows by Ohm's law. */
import { expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { SMALL, supplies } from "../checks/switching/vehicle.ts";

const COIL = { coilVoltage: "12 V", coilResistance: "24 ohm", suppression: "none" };

/** A relay on the key, with a resistor of so many ohms across its coil or without. */
function kickOf(ohms: number | undefined): { readonly kick: number; readonly current: number } {
  const sketch = supplies(4).part("K1", "relay", COIL).wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud");
  if (ohms !== undefined) {
    sketch
      .part("R1", "resistor", { resistance: `${ohms} ohm`, power: "5 W" })
      .wires(SMALL, "K1:coil+ - R1:1", "R1:2 - K1:coil-");
  }
  const analysis = analyse(sketch.build());
  const { branches } = analysis.network;
  const coil = branches.find(({ role, part }) => role === "coil" && part?.part.designation === "K1");
  const driving = analysis.state("driving");
  const carries = (index: number): boolean => Math.abs(driving?.currents[index] ?? 0) > 0.4;
  const key = branches.find(({ part, index }) => part?.part.designation === "S1" && carries(index));
  if (coil === undefined || key === undefined || driving === undefined) throw new Error("the relay is not drawn");
  return {
    kick: analysis.kick(driving, [key.index], coil.index),
    current: Math.abs(driving.currents[coil.index] ?? 0),
  };
}

test.each([120, 680])("a resistor of %d ohm across a coil takes its current", (ohms) => {
  const { kick, current } = kickOf(ohms);
  expect(current).toBeGreaterThan(0.4);
  expect(kick).toBeCloseTo(current * ohms, 0);
});

test("with nothing across it the voltage has no bound", () => {
  expect(kickOf(undefined).kick).toBeGreaterThan(10e3);
});
