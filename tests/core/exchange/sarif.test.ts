import { describe, expect, test } from "vitest";
import type { CheckDocument, JsonFinding } from "../../../core/checks/report-json.ts";
import { toSarif } from "../../../core/exchange/sarif.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import type { SarifResult } from "../../../core/exchange/sarif-log.ts";

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
  text?: string,
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
  const log = toSarif(document, { file, programVersion: "0.1.0", ...(text === undefined ? {} : { text }) });
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
  test("one run of one tool; every check is a rule, and each result finds its own", () => {
    const {
      log,
      run,
      results: all,
    } = results(
      [finding({}), finding({ check: "wire-loose-end" }), finding({ check: "from-elsewhere" })],
      [{ check: "insulation-low", where: [], missing: [], fields: [], why: "The insulation of W1 is not stated." }],
    );
    expect(log.version).toBe("2.1.0");
    expect(log.$schema).toMatch(/^https:\/\/docs\.oasis-open\.org\/sarif\/sarif\/v2\.1\.0\//);
    expect(run.tool.driver).toMatchObject({ name: "Loomwright", version: "0.1.0", semanticVersion: "0.1.0" });
    expect(run.artifacts).toMatchObject([{ location: { uri: "demos/village%20tug.loomwright" } }]);
    const ids = run.tool.driver.rules.map(({ id }) => id);
    // One that no catalogue has, from a later version's document, say, still finds a rule.
    expect(ids).toEqual([...CHECKS.map(({ id }) => id), "from-elsewhere"]);
    for (const result of all) expect(ids[result.ruleIndex]).toBe(result.ruleId);
    expect(all).toHaveLength(4);
  });

  test("a rule tells what it looks at, and its whole page where it speaks", () => {
    const rules = results([finding({})]).run.tool.driver.rules;
    const spoken = rules.find(({ id }) => id === "branch-unprotected");
    const silent = rules.find(({ id }) => id === "wire-loose-end");
    const check = CHECKS.find(({ id }) => id === "branch-unprotected");
    expect(spoken?.name).toBe(check?.title);
    expect(spoken?.fullDescription?.text).toContain(check?.about);
    expect(spoken?.help?.markdown).toContain("## Limit and source");
    expect(spoken?.properties?.tags).toEqual(["overcurrent"]);
    expect(silent?.help).toBeUndefined();
    expect(silent?.shortDescription?.text).not.toBe("");
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

  test("what could not be checked is open, of level none (SARIF 2.1.0, 3.27.10: no other level but of a failure)", () => {
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
    expect(open.locations[0]?.logicalLocations).toMatchObject([{ name: "w1", fullyQualifiedName: "w1", kind: "wire" }]);
    expect(open.partialFingerprints).toEqual({ "loomwrightNotChecked/v1": "insulation-low w1 w1.insulation" });
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

  test("a finding is located at its first place, the others are related; a terminal names its part as parent", () => {
    const where = [{ part: "F1", id: "p2", terminal: "1" }, { part: "G1", id: "p1" }, { sheet: "Power" }];
    const { run, results: all } = results([finding({ where })]);
    const physicalLocation = { artifactLocation: { uri: "demos/village%20tug.loomwright", index: 0 } };
    const logical = [
      { index: 0, name: "F1", fullyQualifiedName: "F1", kind: "part" },
      { index: 1, name: "1", fullyQualifiedName: "F1:1", kind: "terminal", parentIndex: 0 },
      { index: 2, name: "G1", fullyQualifiedName: "G1", kind: "part" },
      { index: 3, name: "Power", fullyQualifiedName: "Power", kind: "sheet" },
    ];
    expect(run.logicalLocations).toEqual(logical);
    const result = only(all);
    expect(result.locations).toEqual([{ physicalLocation, logicalLocations: [logical[1]] }]);
    expect(result.relatedLocations).toEqual([
      { id: 1, message: { text: "This is part of it." }, physicalLocation, logicalLocations: [logical[2]] },
      { id: 2, message: { text: "This is part of it." }, physicalLocation, logicalLocations: [logical[3]] },
    ]);
  });

  test("with the file's text a place has its line", () => {
    const text = ['{"parts":[', '{"id":"p1","designation":"G1"},', '{"id":"p2"}', "]}"].join("\n");
    const where = [{ part: "F1", id: "p2", terminal: "1" }];
    const [location] = only(results([finding({ where })], [], "tug.loomwright", text).results).locations;
    expect(location?.physicalLocation.region).toEqual({ startLine: 3 });
  });

  test.each([
    ["tug.loomwright", "tug.loomwright"],
    ["../tug #2.loomwright", "../tug%20%232.loomwright"],
    ["/srv/tug.loomwright", "file:///srv/tug.loomwright"],
    ["C:\\shed\\tug.loomwright", "file:///C:/shed/tug.loomwright"],
  ])("%s is the URI %s", (file, uri) => {
    const [location] = only(results([finding({})], [], file).results).locations;
    expect(location?.physicalLocation.artifactLocation.uri).toBe(uri);
  });

  test("text in three sentences; figures and the key travel along; what is folded is related", () => {
    const folded = [{ check: "string-unfused", severity: "WARNING" as const, where: [{ part: "G1", id: "p1" }] }];
    const result = only(results([finding({ folded })]).results);
    expect(result.message.text).toBe(
      "W3 has no fuse. A short at its far end drives 2400 A through it. Fit a fuse at G1:+.",
    );
    expect(result.properties).toMatchObject({ value: 2400, limit: 285, unit: "A", states: ["driving"] });
    expect(result.partialFingerprints).toEqual({
      "loomwrightFinding/v1": "branch-unprotected w3",
      "loomwrightFacts/v1": "5f1c0a77",
    });
    expect(result.properties).toMatchObject({ folded: [{ check: "string-unfused", severity: "WARNING" }] });
    const title = CHECKS.find(({ id }) => id === "string-unfused")?.title ?? "";
    expect(result.relatedLocations).toMatchObject([
      {
        id: 1,
        message: { text: `WARNING: ${title} follows from it.` },
        logicalLocations: [{ fullyQualifiedName: "G1" }],
      },
    ]);
  });
});
