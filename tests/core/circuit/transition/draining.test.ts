/** Ohm's law: what leaves a capacitor that is cut off is its voltage over its bleeder, whatever the drive drew before. */
import { expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { cart } from "../../checks/switching/vehicle.ts";

const BLEEDER = 10e3;
const analysis = analyse(
  cart({ blocks: 12, controller: { bleedResistance: "10 kohm" }, disconnect: { breakLoad: "yes" } }).build(),
);
const capacitors = analysis.network.branches.filter(({ role }) => role === "capacitor").map(({ index }) => index);

test.each(["key-off", "disconnect"] as const)("after %s the bleeder alone drains", (name) => {
  for (const volts of [150, 60]) {
    const drain = analysis.transition(name)?.drainOf(capacitors, volts) ?? NaN;
    // Insulation and the body diodes leak besides: less than a hundredth.
    expect(drain / (volts / BLEEDER)).toBeGreaterThan(0.99);
    expect(drain / (volts / BLEEDER)).toBeLessThan(1.05);
  }
});

test("while something still feeds them the current flows the other way", () => {
  expect(analysis.transition("drive")?.drainOf(capacitors, 60)).toBeLessThan(-10);
});
