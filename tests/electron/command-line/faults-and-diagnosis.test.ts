/** The verbs `faults` and `diagnose`: shapes field by field, text a beginner can read, readings that cannot be read. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { built, driveCircuit, lampCircuit, loomwright, scratch } from "./loomwright.ts";

const place = scratch();
beforeAll(async () => {
  await built();
  place.file("lamp.loomwright", lampCircuit());
  place.file("drive.loomwright", driveCircuit());
});
afterAll(() => place.remove());

const run = (...words: string[]) => loomwright(words, place.folder);
const keys = (value: object): string[] => Object.keys(value).sort();
const FORBIDDEN = /\b(error|invalid|undefined|NaN|exception|stack)\b/i;

describe("faults", () => {
  it("--json prints one document of the agreed shape, worst first", () => {
    const { stdout, stderr, status } = run("faults", "drive.loomwright", "--json");
    expect([stderr, status]).toEqual(["", 0]);
    const document = JSON.parse(stdout);
    expect(keys(document)).toEqual(["counts", "faults", "format", "states", "version"]);
    expect([document.format, document.version]).toEqual(["loomwright-faults", 1]);
    expect(keys(document.counts)).toEqual(["CAUTION", "DANGER", "NOTICE", "WARNING", "hidden", "nothing"]);
    const order = ["DANGER", "WARNING", "CAUTION", "NOTICE", null];
    const ranks = document.faults.map((each: { severity: string | null }) => order.indexOf(each.severity));
    expect(ranks).toEqual([...ranks].sort((a: number, b: number) => a - b));
    for (const fault of document.faults) {
      expect(keys(fault)).toEqual(["effects", "hidden", "key", "kind", "severity", "what", "where"]);
      for (const effect of fault.effects) {
        expect(keys(effect)).toEqual("kind limit severity states unit value what where why".split(" "));
      }
    }
    const { DANGER, WARNING, CAUTION, NOTICE, nothing } = document.counts;
    expect(DANGER + WARNING + CAUTION + NOTICE + nothing).toBe(document.faults.length);
    const key = document.faults.find((each: { key: string }) => each.key === "fuse-blown p2 link");
    expect(key.where).toEqual([
      { part: "F1", id: "p2", terminal: "1" },
      { part: "F1", id: "p2", terminal: "2" },
    ]);
  });

  it("prints a first screen, then each fault in words, worst first", () => {
    const { stdout, status } = run("faults", "drive.loomwright");
    expect(status).toBe(0);
    expect(stdout).not.toMatch(FORBIDDEN);
    const details = stdout.search(/^(DANGER|WARNING|CAUTION|NOTICE) \(\d+\)$/m);
    expect(stdout.slice(0, details).split("\n").length).toBeLessThan(40);
    expect(stdout).toMatch(/never opens again between Q1:line and Q1:load/);
    const headings = [...stdout.matchAll(/^(DANGER|WARNING|CAUTION|NOTICE) \(\d+\)$/gm)].map(([, word]) => word ?? "");
    expect(headings).toEqual(["DANGER", "WARNING", "CAUTION", "NOTICE"].filter((word) => headings.includes(word)));
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });
});

describe("diagnose", () => {
  const read = (name: string, content: unknown) =>
    place.file(name, typeof content === "string" ? content : JSON.stringify(content));

  it("--json prints one document of the agreed shape, the blown fuse first", () => {
    // Battery there, nothing behind the fuse: a battery's own 12.8 V, a dead lamp.
    read("dead.json", {
      state: "ready",
      readings: [
        { plus: "G1:+", minus: "G1:-", volts: 12.8 },
        { plus: "F1:1", minus: "G1:-", volts: 12.8 },
        { plus: "F1:2", minus: "G1:-", volts: "0 V" },
      ],
    });
    const { stdout, stderr, status } = run("diagnose", "lamp.loomwright", "--readings", "dead.json", "--json");
    expect([stderr, status]).toEqual(["", 0]);
    const document = JSON.parse(stdout);
    expect(keys(document)).toEqual(["faults", "format", "readings", "version"]);
    expect([document.format, document.version, document.readings]).toEqual(["loomwright-diagnose", 1, 3]);
    for (const each of document.faults) {
      expect(keys(each)).toEqual(["against", "fit", "key", "kind", "rank", "what", "where"]);
      expect(each.fit).toBeGreaterThanOrEqual(0);
      expect(each.fit).toBeLessThanOrEqual(1);
    }
    const first = document.faults.filter((each: { rank: number }) => each.rank === 1);
    expect(first.map((each: { kind: string }) => each.kind)).toContain("fuse-blown");
    expect(first.map((each: { kind: string }) => each.kind)).not.toContain("none");
    const text = run("diagnose", "lamp.loomwright", "--readings", "dead.json").stdout;
    expect(text).toMatch(/^1\. (0\.9\d|1\.00)/m);
    expect(text).toMatch(/F1 has opened/);
    expect(text).not.toMatch(FORBIDDEN);
  });

  it("takes the readings of the project where none are handed in", () => {
    const project = JSON.parse(lampCircuit());
    project.readings = [{ state: "ready", plus: "F1:2", minus: "G1:-", volts: "12.7 V" }];
    place.file("kept.loomwright", JSON.stringify(project));
    const { faults } = JSON.parse(run("diagnose", "kept.loomwright", "--json").stdout);
    expect(faults[0]).toMatchObject({ rank: 1, kind: "none", key: "none", where: [] });
    const none = run("diagnose", "lamp.loomwright");
    expect([none.status, none.stdout]).toEqual([2, ""]);
    expect(none.stderr).toMatch(/holds no readings.*--readings/);
  });

  const one = (change: object): object => ({
    state: "ready",
    readings: [{ plus: "F1:1", minus: "chassis", volts: 12, ...change }],
  });
  it.each<readonly [string, unknown, RegExp]>([
    ["empty", "", /ends too early/],
    ["no JSON", "F1:2 to chassis 12 V", /line 1/],
    ["cut off", '{"state":"ready","readings":[{"plus":', /ends too early, at line 1/],
    ["a name twice", '{"state":"ready","state":"parked","readings":[]}', /"state" stands twice/],
    ["no state", { readings: [] }, /state is missing/],
    ["a state that there is not", { state: "flying", readings: [] }, /no state "flying".*Choose from/],
    ["no list", { state: "ready" }, /"readings" is missing/],
    ["no reading", { state: "ready", readings: [] }, /not one reading/],
    ["no part", one({ plus: "F9:1" }), /Reading 1 in the state ready, plus: .*"F9".*F1/],
    ["no terminal", one({ minus: "F1:3" }), /minus: F1 has no terminal "3"/],
    ["no colon", one({ plus: "F1" }), /"F1" is no terminal/],
    ["no place", one({ plus: 7 }), /the place is missing/],
    ["words for volts", one({ volts: "a lot" }), /volts: write what the meter showed/],
    ["no volts", one({ volts: null }), /volts: write what the meter showed/],
    ["volts beyond any vehicle", one({ volts: 1e9 }), /volts: write what the meter showed/],
    ["a list of numbers", [1, 2], /Entry 1: braces are missing/],
    ["one reading that is no reading", { state: "ready", readings: [12] }, /Reading 1 .*braces are missing/],
  ])("%s: one sentence with its place", (_, content, says) => {
    read("bad.json", content);
    const { stdout, stderr, status } = run("diagnose", "lamp.loomwright", "--readings", "bad.json");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(says);
    expect(stderr).toMatch(/^bad\.json: /);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(stderr).not.toMatch(FORBIDDEN);
  });
});
