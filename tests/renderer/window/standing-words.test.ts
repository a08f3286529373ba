import { describe, expect, test } from "vitest";
import { standingKind, standingSummary, standingWords } from "../../../renderer/window/dialogs/standing-words.ts";

const standing = (found: number, notChecked: number, passed: number, doesNotApply = 0) => ({
  found,
  notChecked,
  passed,
  doesNotApply,
});

describe("how a check stands", () => {
  test.each([
    [standing(2, 3, 14), "2 found, 3 not checked, 14 passed", "found"],
    [standing(0, 1, 5), "1 not checked, 5 passed", "not-checked"],
    [standing(0, 0, 7, 2), "7 passed", "passed"],
    [standing(0, 0, 0, 4), "does not apply", "none"],
    [standing(0, 0, 0), "does not apply", "none"],
    [undefined, "being looked at", "none"],
  ])("%o", (given, words, kind) => {
    expect(standingWords(given)).toBe(words);
    expect(standingKind(given)).toBe(kind);
  });

  test("a pass never hides what was not checked, and the head counts each check once", () => {
    const all = [standing(1, 1, 1), standing(0, 2, 9), standing(0, 0, 1), standing(0, 0, 0), undefined];
    expect(standingSummary(all)).toBe(
      "1 with findings, 1 with something not checked, 1 passed, 1 does not apply, 1 still being looked at",
    );
  });
});
