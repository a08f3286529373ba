/** One cause, one finding: what folds under what, on findings made up for it. */
import { describe, expect, test } from "vitest";
import { defineCheck } from "../../../core/checks/define.ts";
import type { Failure, Severity } from "../../../core/checks/define.ts";
import { findingKey } from "../../../core/checks/finding.ts";
import type { Finding } from "../../../core/checks/finding.ts";
import { fold } from "../../../core/checks/fold.ts";

function finding(
  id: string,
  at: string,
  more: { severity?: Severity; cause?: string; touches?: readonly string[]; foldsUnder?: readonly string[] } = {},
): Finding {
  const failure: Failure = {
    message: "m",
    facts: {},
    severity: more.severity ?? "NOTICE",
    where: [{ part: at }],
    touches: (more.touches ?? []).map((part) => ({ part })),
    ...(more.cause === undefined ? {} : { cause: more.cause }),
  };
  const check = defineCheck({
    id,
    group: "coils",
    title: id,
    about: id,
    severities: [failure.severity],
    source: { text: "Made up", known: "none" },
    reads: "states",
    withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
    without: {},
    messages: {},
    reasons: {},
    foldsUnder: more.foldsUnder ?? [],
    run: () => undefined,
  });
  const key = findingKey(id, failure);
  const { severity } = failure;
  const words = { title: key, why: key, mend: key, source: check.source };
  return { key, check, failure, severity, ...words, folded: [], hash: key, accepted: null };
}

const told = (findings: readonly Finding[]): readonly string[] =>
  fold(findings).map(
    ({ severity, key, folded }) => `${severity} ${key} (${folded.map((each) => each.key).join(", ")})`,
  );

describe("findings of one check with the same cause", () => {
  test("are told once, at the first, with the worst severity", () => {
    const weak = (at: string, cause?: string, severity: Severity = "NOTICE"): Finding =>
      finding("weak", at, { severity, ...(cause === undefined ? {} : { cause }) });
    expect(told([weak("K1", "W8"), weak("K2", "W8", "WARNING"), weak("K3", "W9"), weak("K4")])).toEqual([
      "WARNING weak K1 (weak K2)",
      "NOTICE weak K3 ()",
      "NOTICE weak K4 ()",
    ]);
  });
  test("stay apart from those of another check", () => {
    expect(told([finding("weak", "K1", { cause: "W8" }), finding("low", "K2", { cause: "W8" })])).toHaveLength(2);
  });
  test("go together under the root of the first", () => {
    const root = finding("root", "W8", { severity: "DANGER" });
    const first = finding("weak", "K1", { cause: "W8", touches: ["W8"], foldsUnder: ["root"] });
    expect(told([root, first, finding("weak", "K2", { cause: "W8" })])).toEqual(["DANGER root W8 (weak K1, weak K2)"]);
  });
});

describe("a finding whose check names another as root", () => {
  test("folds under it where the two touch", () => {
    const root = finding("root", "Q1", { severity: "WARNING" });
    const near = finding("after", "T1", { touches: ["Q1"], foldsUnder: ["root"], severity: "DANGER" });
    const far = finding("after", "T2", { foldsUnder: ["root"] });
    expect(told([root, near, far])).toEqual(["DANGER root Q1 (after T1)", "NOTICE after T2 ()"]);
  });
  test("never loses both of two that name each other", () => {
    const one = finding("one", "Q1", { foldsUnder: ["other"] });
    const other = finding("other", "Q1", { foldsUnder: ["one"] });
    expect(told([one, other])).toHaveLength(1);
  });
  test("never loses a ring that closes through a common cause", () => {
    const a = finding("a", "K1", { cause: "W8", touches: ["X"], foldsUnder: ["x"] });
    const b = finding("a", "K2", { cause: "W8" });
    const x = finding("x", "X", { touches: ["K2"], foldsUnder: ["a"] });
    expect(told([a, b, x])).toHaveLength(1);
  });
});
