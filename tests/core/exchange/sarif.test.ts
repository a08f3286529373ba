import { describe, expect, test } from "vitest";
import type { CheckDocument, JsonFinding } from "../../../core/checks/report-json.ts";
import { toSarif } from "../../../core/exchange/sarif.ts";
import type { SarifResult } from "../../../core/exchange/sarif.ts";

const finding = (change: Partial<JsonFinding>): JsonFinding => ({
  id: "branch-unprotected w3",
  check: "branch-unprotected",
  severity: "DANGER",
  title: "W3 has no fuse",
  where: [{ wire: "W3", id: "w3" }],
  states: ["driving"],
  value: 2400,
  limit: 285,
  unit: "A",
  why: "A short at its far end drives 2400 A through it.",
  mend: "Fit a fuse at G1:+.",
  source: { text: "33 CFR 183.455", known: "seen" },
  remedies: [],
  accepted: null,
  hash: "5f1c0a77",
  folded: [],
  ...change,
});

function results(
  findings: readonly JsonFinding[],
  notChecked: CheckDocument["notChecked"] = [],
  file = "demos\\village tug.loomwright",
) {
  const counts = {
    DANGER: 0,
    WARNING: 0,
    CAUTION: 0,
    NOTICE: 0,
    accepted: 0,
    notChecked: 0,
    passed: 0,
    doesNotApply: 0,
  };
  const document: CheckDocument = { format: "loomwright-check", version: 1, states: [], findings, notChecked, counts };
  const log = toSarif(document, { file, programVersion: "0.1.0" });
  const [run] = log.runs;
  if (run === undefined) throw new Error("The log holds no run.");
  return { log, run, results: run.results };
}
const only = (items: readonly SarifResult[]): SarifResult => {
  const [first] = items;
  if (first === undefined || items.length !== 1) throw new Error("There is not exactly one result.");
  return first;
};

describe("SARIF 2.1.0", () => {
  test("one run of one tool; each rule once, and each result finds its own", () => {
    const {
      log,
      run,
      results: all,
    } = results(
      [finding({}), finding({ check: "wire-loose-end" }), finding({})],
      [{ check: "insulation-low", where: [], missing: [], fields: [], why: "The insulation of W1 is not stated." }],
    );
    expect(log.version).toBe("2.1.0");
    expect(log.$schema).toMatch(/^https:\/\/docs\.oasis-open\.org\/sarif\/sarif\/v2\.1\.0\//);
    expect(run.tool.driver).toMatchObject({ name: "Loomwright", version: "0.1.0" });
    const ids = run.tool.driver.rules.map(({ id }) => id);
    expect(ids).toEqual(["branch-unprotected", "insulation-low", "wire-loose-end"]);
    for (const result of all) expect(ids[result.ruleIndex]).toBe(result.ruleId);
    expect(all).toHaveLength(4);
  });

  test.each([
    ["DANGER", "error"],
    ["WARNING", "error"],
    ["CAUTION", "warning"],
    ["NOTICE", "note"],
  ] as const)("%s is of level %s", (severity, level) => {
    expect(only(results([finding({ severity })]).results)).toMatchObject({
      kind: "fail",
      level,
      properties: { severity },
    });
  });

  test("what could not be checked is open, of level none (3.27.9: any other level is against the standard)", () => {
    const open = only(
      results(
        [],
        [
          {
            check: "insulation-low",
            where: [{ wire: "", id: "w1" }],
            missing: ["W1.insulation"],
            fields: [{ wire: "w1", field: "insulation" }],
            why: "It is not stated",
          },
        ],
      ).results,
    );
    expect(open).toMatchObject({
      kind: "open",
      level: "none",
      message: { text: "Not checked: It is not stated." },
      properties: { missing: ["W1.insulation"] },
    });
    expect(open.locations[0]?.logicalLocations).toEqual([{ name: "w1", fullyQualifiedName: "w1", kind: "wire" }]);
  });

  test("accepted findings are suppressed with who, when and why; all others say that they are not", () => {
    const accepted = { who: "Ada", when: "2026-11-20", why: "Bench set-up" };
    const { results: all } = results([finding({ accepted }), finding({})]);
    expect(all.map(({ suppressions }) => suppressions)).toEqual([
      [
        {
          kind: "external",
          status: "accepted",
          justification: "Bench set-up",
          properties: { who: "Ada", when: "2026-11-20" },
        },
      ],
      [],
    ]);
  });

  test("places are logical locations, in the file as a relative URI", () => {
    const where = [{ part: "F1", id: "p2", terminal: "1" }, { part: "G1", id: "p1" }, { sheet: "Power" }];
    const [location] = only(results([finding({ where })]).results).locations;
    expect(location).toEqual({
      physicalLocation: { artifactLocation: { uri: "demos/village%20tug.loomwright" } },
      logicalLocations: [
        { name: "1", fullyQualifiedName: "F1:1", kind: "terminal" },
        { name: "G1", fullyQualifiedName: "G1", kind: "part" },
        { name: "Power", fullyQualifiedName: "Power", kind: "sheet" },
      ],
    });
  });

  test.each([
    ["tug.loomwright", "tug.loomwright"],
    ["../tug #2.loomwright", "../tug%20%232.loomwright"],
    ["/srv/tug.loomwright", "file:///srv/tug.loomwright"],
    ["C:\\shed\\tug.loomwright", "file:///C:/shed/tug.loomwright"],
  ])("%s is the URI %s", (file, uri) => {
    const [location] = only(results([finding({})], [], file).results).locations;
    expect(location?.physicalLocation?.artifactLocation.uri).toBe(uri);
  });

  test("text in three sentences; figures and the key travel along; what is folded is related", () => {
    const folded = [{ check: "string-unfused", severity: "WARNING" as const, where: [{ part: "G1", id: "p1" }] }];
    const result = only(results([finding({ folded })]).results);
    expect(result.message.text).toBe(
      "W3 has no fuse. A short at its far end drives 2400 A through it. Fit a fuse at G1:+.",
    );
    expect(result.properties).toMatchObject({ value: 2400, limit: 285, unit: "A", states: ["driving"] });
    expect(result.partialFingerprints).toEqual({ "loomwrightFinding/v1": "branch-unprotected w3" });
    expect(result.relatedLocations).toEqual([
      {
        id: 1,
        message: { text: "string-unfused (WARNING) follows from this." },
        logicalLocations: [{ name: "G1", fullyQualifiedName: "G1", kind: "part" }],
      },
    ]);
  });
});
