/**
 * Logs of whole drawings against the JSON schema of SARIF 2.1.0, by a validator that knows nothing of this program. The
 * schema is the text "2.1.0-rtm.5" of the OASIS committee as a package carries it. Held against that of the standard's
 * first errata at run, result and suppression: those add `type` beside enumerations and correct the pattern of a language.
 */
import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import { checkJson } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { toSarif } from "../../../core/exchange/sarif.ts";
import type { SarifLog } from "../../../core/exchange/sarif-log.ts";
import type { Project } from "../../../core/project/document.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { demos } from "../../demos/demo-files.ts";

const require = createRequire(import.meta.url);
// The schema is written in draft 04 of JSON Schema, which the validator knows once it is told.
const ajv = new Ajv({ schemaId: "id", meta: false, allErrors: true });
ajv.addMetaSchema(require("ajv/lib/refs/json-schema-draft-04.json"));
const valid = ajv.compile(require("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json") as object);

function problems(log: unknown): readonly string[] {
  if (valid(log) === true) return [];
  return (valid.errors ?? []).map(
    ({ dataPath, message, params }) => `${dataPath} ${message} ${JSON.stringify(params)}`,
  );
}

function logOf(project: Project): SarifLog {
  const analysis = analyse(project);
  const document = checkJson(project, analysis, runChecks(analysis));
  return toSarif(document, { file: "vehicle one.loomwright", programVersion: "0.1.0", text: writeProject(project) });
}

const CASES = new URL("../../cases/", import.meta.url);

function caseDrawing(name: string): Project {
  const read = readProject(readFileSync(new URL(`${name}.loomwright`, CASES), "utf8"));
  if (!read.ok) throw new Error(read.problems.join(" "));
  return read.project;
}

/** Those with the most to say, by the length of what is expected of them. */
function worstCases(count: number): readonly string[] {
  const expected = JSON.parse(readFileSync(new URL("expected.json", CASES), "utf8")) as Readonly<
    Record<string, { readonly findings: readonly unknown[] }>
  >;
  const names = readdirSync(CASES).filter((name) => name.endsWith(".loomwright"));
  return names
    .map((name) => name.slice(0, -".loomwright".length))
    .sort((a, b) => (expected[b]?.findings.length ?? 0) - (expected[a]?.findings.length ?? 0) || (a < b ? -1 : 1))
    .slice(0, count);
}

describe("a log is valid SARIF 2.1.0", () => {
  test.each(demos.map(({ name, project }) => [name, project] as const))("of the demo %s", (_name, project) => {
    expect(problems(logOf(project))).toEqual([]);
  });

  test.each(worstCases(6))("of the drawing %s", (name) => {
    const log = logOf(caseDrawing(name));
    expect(log.runs[0]?.results.length).toBeGreaterThan(1);
    expect(problems(log)).toEqual([]);
  });

  test("with accepted findings and things not checked", () => {
    const [name = ""] = worstCases(1);
    const bare = caseDrawing(name);
    // Nothing is stated of the wires, and every finding that is left is accepted.
    const drawn: Project = { ...bare, wires: bare.wires.map(({ id, number, ends }) => ({ id, number, ends })) };
    const first = runChecks(analyse(drawn));
    const accepted = first.findings.map(({ key, hash }) => ({
      key,
      hash,
      who: "A. Fitter",
      when: "2026-11-20",
      why: 'Bench set-up, "wheels off the ground"',
    }));
    const log = logOf({ ...drawn, accepted });
    const results = log.runs[0]?.results ?? [];
    expect(results.filter(({ suppressions }) => suppressions.length > 0)).toHaveLength(accepted.length);
    expect(accepted.length).toBeGreaterThan(0);
    expect(results.some(({ kind }) => kind === "open")).toBe(true);
    // The pattern as the errata have it; the older text lets anything pass that begins with two letters.
    expect(log.runs[0]?.tool.driver.language).toMatch(/^[a-zA-Z]{2}(-[a-zA-Z]{2})?$/);
    expect(problems(log)).toEqual([]);
  });

  test("what the standard asks beyond its schema: indexes lead where they say, fingerprints tell results apart", () => {
    const project = demos.find(({ name }) => name === "yard-tug-48v-faulty")?.project;
    if (project === undefined) throw new Error("There is no such demo.");
    const run = logOf(project).runs[0];
    if (run === undefined) throw new Error("The log holds no run.");
    run.logicalLocations.forEach(({ index, parentIndex, kind, fullyQualifiedName }, at) => {
      expect(index).toBe(at);
      const parent = parentIndex === undefined ? undefined : run.logicalLocations[parentIndex];
      if (kind === "terminal") expect(fullyQualifiedName).toMatch(new RegExp(`^${parent?.name ?? "none"}:`));
      else expect(parent).toBeUndefined();
    });
    const lines = writeProject(project).split("\n");
    for (const { ruleId, ruleIndex, locations, relatedLocations = [] } of run.results) {
      expect(run.tool.driver.rules[ruleIndex]?.id).toBe(ruleId);
      for (const { physicalLocation, logicalLocations = [] } of [...locations, ...relatedLocations])
        for (const each of logicalLocations) {
          expect(run.logicalLocations[each.index]).toEqual(each);
          const top = each.parentIndex === undefined ? each : run.logicalLocations[each.parentIndex];
          const line = lines[(physicalLocation.region?.startLine ?? 0) - 1];
          if (each.kind !== "sheet") expect(line).toContain(`"${top?.name ?? "none"}"`);
        }
    }
    const prints = run.results.map(({ partialFingerprints }) => JSON.stringify(partialFingerprints));
    expect(new Set(prints).size).toBe(prints.length);
  });
});

describe("the schema refuses", () => {
  const good = JSON.stringify(logOf(caseDrawing(worstCases(1)[0] ?? "")));
  test.each([
    ["another version", (log) => (log["version"] = "2.2.0")],
    ["a level that there is not", (log) => (first(log)["level"] = "danger")],
    ["a result without a message", (log) => delete first(log)["message"]],
    ["a property that it does not know", (log) => (first(log)["severity"] = "DANGER")],
    ["an empty address", (log) => (first(log)["locations"] = [{ physicalLocation: { artifactLocation: { uri: 7 } } }])],
  ] as readonly (readonly [string, (log: Loose) => unknown])[])("%s", (_name, spoil) => {
    const log = JSON.parse(good) as Loose;
    expect(problems(log)).toEqual([]);
    spoil(log);
    expect(problems(log)).not.toEqual([]);
  });
});

type Loose = Record<string, unknown>;

function first(log: Loose): Loose {
  const [run] = log["runs"] as readonly { readonly results: readonly Loose[] }[];
  const [result] = run?.results ?? [];
  if (result === undefined) throw new Error("The log holds no result.");
  return result;
}
