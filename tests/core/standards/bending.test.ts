import { expect, test } from "vitest";
import { bendAllowance, leastBendRadius } from "../../../core/standards/bending.ts";

/** HD 516: four times the diameter. 50.27 mm2 of copper is a rod of 8 mm: 32 mm. */
test("four times the diameter of the copper", () => {
  expect(leastBendRadius(50.2655e-6)).toBeCloseTo(0.032, 6);
});

test("a quarter bend at each end: an arc of pi/2 r instead of r of straight way, twice", () => {
  const radius = leastBendRadius(35e-6);
  expect(bendAllowance(35e-6)).toBeCloseTo(2 * ((Math.PI / 2) * radius - radius), 12);
});
