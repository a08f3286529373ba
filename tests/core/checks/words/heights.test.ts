import { expect, test } from "vitest";
import { Heights } from "../../../../core/checks/words/heights.ts";

test("a ring closes without contradiction if its rises add up to nothing", () => {
  const heights = new Heights(4);
  expect(heights.join(1, 0, 12)).toBe(0);
  expect(heights.join(2, 1, 12)).toBe(0);
  expect(heights.join(3, 2, 0)).toBe(0);
  expect(heights.join(3, 0, 24)).toBe(0);
});

test("joining both ends of a string contradicts by its whole voltage", () => {
  const heights = new Heights(5);
  heights.join(1, 0, 12);
  heights.join(3, 2, 12);
  // Joined through nodes that are no roots.
  heights.join(2, 1, 0);
  heights.join(4, 3, 0);
  expect(heights.join(4, 0, 0)).toBe(24);
  expect(heights.same(0, 4)).toBe(true);
});

test("what was apart is joined in silence", () => {
  const heights = new Heights(3);
  expect(heights.same(0, 2)).toBe(false);
  expect(heights.join(0, 2, 7)).toBe(0);
  expect(heights.join(2, 0, -7)).toBe(0);
});
