/** The closing line must never look better than the run was. */
import { expect, it } from "vitest";
import { closing } from "./closing.mjs";

const plain = (name: string, ok: boolean) => ({ name, ok, counted: false, tally: undefined });
const counted = (ok: boolean, passed: number, failed: number, skipped: { name: string; reason: string }[] = []) => ({
  name: "unit",
  ok,
  counted: true,
  tally: { passed, failed, skipped },
});
const last = (results: Parameters<typeof closing>[0]) => closing(results).lines.at(-1);

it("adds one for each stage to the tests that were counted", () => {
  expect(last([plain("lint", true), plain("types", false), counted(false, 40, 2)])).toBe(
    "41 passed, 3 failed, 0 skipped",
  );
});

it("gives the reason of each skip above the line, and a skip does not fail the run", () => {
  const skipped = [{ name: "a.test.ts: prints", reason: "no printer here" }];
  expect(closing([counted(true, 1, 0, skipped)])).toEqual({
    lines: ["skipped: a.test.ts: prints: no printer here", "1 passed, 0 failed, 1 skipped"],
    exit: 0,
  });
});

it("fails a stage that ran no test, only skipped some, or never got as far as counting", () => {
  const skipped = [{ name: "a", reason: "b" }];
  for (const result of [
    counted(true, 0, 0),
    counted(true, 0, 0, skipped),
    { ...counted(true, 1, 0), tally: undefined },
  ]) {
    expect(closing([result]).exit).toBe(1);
    expect(closing([result]).lines).toContain("unit: ran no test");
  }
});

it("fails a run whose program ended badly although no test failed, and a run without any stage", () => {
  expect(closing([counted(false, 5, 0)]).exit).toBe(1);
  expect(closing([])).toEqual({ lines: ["no stage was run", "0 passed, 1 failed, 0 skipped"], exit: 1 });
});
