/** Whatever is handed in: one clear sentence, exit 2, nothing on the standard output, within two seconds. */
import * as fs from "node:fs";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { built, lampCircuit, loomwright, scratch } from "./loomwright.ts";
import type { Run } from "./loomwright.ts";

const place = scratch();
const NOBODY = 65534;
const SECONDS = 2;

beforeAll(built);
afterAll(() => place.remove());

/** Words that tell a person nothing about what to mend. */
const FORBIDDEN = /\b(error|invalid|undefined|NaN|exception|ENOENT|EISDIR|EACCES|stack)\b/i;

function expectOneSentence(run: Run, says: RegExp): void {
  expect(run.stderr).toMatch(says);
  expect(run.stderr.trimEnd().split("\n")).toHaveLength(1);
  expect(run.stderr.length).toBeGreaterThan(20);
  expect(run.stderr).not.toMatch(FORBIDDEN);
  expect(run.stdout).toBe("");
  expect(run.status).toBe(2);
  expect(run.seconds).toBeLessThan(SECONDS);
}

/** The lamp circuit's file with one thing changed. */
function changed(change: (project: Record<string, unknown>) => void): string {
  const project: Record<string, unknown> = JSON.parse(lampCircuit());
  change(project);
  return JSON.stringify(project);
}

function list(project: Record<string, unknown>, name: string): Record<string, unknown>[] {
  const value = project[name];
  if (!Array.isArray(value)) throw new Error(`the lamp circuit has no list ${name}`);
  return value;
}

const CONTENTS: readonly [name: string, content: () => string | Uint8Array, says: RegExp][] = [
  ["empty", () => "", /empty|ends/i],
  ["truncated", () => lampCircuit().slice(0, Math.floor(lampCircuit().length / 2)), /ends|line \d+/i],
  ["not JSON at all", () => "G1:+ to F1:1, red, 2.5 mm2", /not a project file/],
  ["some other JSON", () => '{"name":"cart","wires":12}', /project/i],
  ["mis-typed list", () => changed((project) => (project["parts"] = 5)), /parts/],
  ["mis-typed designation", () => changed((project) => (list(project, "parts")[0]!["designation"] = 7)), /designation/],
  ["unknown field", () => changed((project) => (list(project, "wires")[1]!["colur"] = "RD")), /colur/],
  ["over-long text", () => changed((project) => (list(project, "parts")[0]!["note"] = "x".repeat(10_001))), /10,?000/],
  [
    "too many parts",
    () => changed((project) => (project["parts"] = Array.from({ length: 20_001 }, () => list(project, "parts")[0]))),
    /20,?000/,
  ],
  ["newer version", () => changed((project) => (project["version"] = 2)), /version 2|newer/i],
  ["version that never was", () => changed((project) => (project["version"] = -1)), /version/i],
  ["duplicate id", () => changed((project) => list(project, "parts").push({ ...list(project, "parts")[0] })), /p1/],
  [
    "wire to a part that is not there",
    () =>
      changed(
        (project) =>
          (list(project, "wires")[0]!["ends"] = [
            ["p99", "+"],
            ["p2", "1"],
          ]),
      ),
    /p99/,
  ],
  [
    "state that is made from itself",
    () => changed((project) => (project["states"] = [{ name: "mine", from: "mine", set: {} }])),
    /mine/,
  ],
  ["not UTF-8", () => Uint8Array.from([...Buffer.from('{"format":"'), 0xff, 0xfe, 0x80]), /UTF-8/],
  ["UTF-16", () => Buffer.from(`\uFEFF${lampCircuit()}`, "utf16le"), /UTF-8/],
  ["nested beyond sense", () => '{"extra":'.repeat(200_000), /nest|within|deep|ends/i],
  [
    "nested a little too deep",
    () => changed((project) => (project["extra"] = JSON.parse("[".repeat(30) + "]".repeat(30)))),
    /nest|within|deep/i,
  ],
  [
    "a name that would reach into the program",
    () => `{"__proto__":{"a":1},${lampCircuit().trimStart().slice(1)}`,
    /__proto__/,
  ],
];

describe("a project file that cannot be read", () => {
  for (const [name, content, says] of CONTENTS) {
    it(`${name}: one sentence, and the file stays as it is`, () => {
      const file = place.file("bad.loomwright", content());
      const before = fs.readFileSync(path.join(place.folder, file));
      const run = loomwright(["check", file], place.folder);
      expectOneSentence(run, says);
      expect(run.stderr).toContain("bad.loomwright");
      expect(fs.readFileSync(path.join(place.folder, file)).equals(before)).toBe(true);
    });
  }

  it("50 MB: is refused by its size, before it is read", () => {
    const file = place.file("large.loomwright", "");
    fs.truncateSync(path.join(place.folder, file), 50_000_000);
    expectOneSentence(loomwright(["check", file], place.folder), /50 MB.*20 MB/);
  });

  it("is not there", () => {
    expectOneSentence(loomwright(["check", "missing.loomwright"], place.folder), /missing\.loomwright.*no such file/);
  });

  it("is a folder", () => {
    expectOneSentence(loomwright(["solve", ".", "--state", "parked"], place.folder), /folder/);
  });

  it("leads through a file instead of a folder", () => {
    const file = place.file("plain.loomwright", lampCircuit());
    expectOneSentence(loomwright(["check", `${file}/inner.loomwright`], place.folder), /folder in its path/);
  });

  it("belongs to somebody else who keeps it closed", (context) => {
    const root = process.getuid?.() === 0;
    if (process.getuid === undefined) context.skip("this system has no file permissions of that sort");
    const file = place.file("closed.loomwright", lampCircuit());
    fs.chmodSync(path.join(place.folder, file), 0o000);
    expectOneSentence(loomwright(["check", file], place.folder, root ? NOBODY : undefined), /permissions/);
  });
});

describe("a place that cannot be written", () => {
  it("draw: a file stands where the folder should be", () => {
    const file = place.file("lamp.loomwright", lampCircuit());
    place.file("taken", "");
    expectOneSentence(loomwright(["draw", file, "--out", "taken"], place.folder), /taken.*folder/);
  });

  it("draw: nobody but the owner may write there, and nothing is left behind", (context) => {
    const root = process.getuid?.() === 0;
    if (process.getuid === undefined) context.skip("this system has no file permissions of that sort");
    const file = place.file("lamp.loomwright", lampCircuit());
    const folder = path.join(place.folder, "sealed");
    fs.mkdirSync(folder, { mode: 0o555 });
    expectOneSentence(
      loomwright(["draw", file, "--out", "sealed"], place.folder, root ? NOBODY : undefined),
      /permissions/,
    );
    expect(fs.readdirSync(folder)).toEqual([]);
  });

  it("import: the folder does not exist", () => {
    const wires = place.file("wires.csv", "from,to\nG1:+,P1:+\nP1:-,G1:-\n");
    const parts = place.file("parts.csv", "designation,kind\nG1,battery-block\nP1,lamp\n");
    const run = loomwright(["import", wires, "--parts", parts, "--out", "nowhere/cart.loomwright"], place.folder);
    expectOneSentence(run, /nowhere.*folder/);
  });

  it("import: the drawing would replace its own wire list", () => {
    const wires = place.file("wires.csv", "from,to\nG1:+,P1:+\n");
    const parts = place.file("parts.csv", "designation,kind\nG1,battery-block\nP1,lamp\n");
    const run = loomwright(["import", wires, "--parts", parts, "--out", "./wires.csv"], place.folder);
    expectOneSentence(run, /wire list itself/);
    expect(fs.readFileSync(path.join(place.folder, wires), "utf8")).toBe("from,to\nG1:+,P1:+\n");
  });
});

describe("a wire list that does not fit", () => {
  it("gives every place with its line, and writes nothing", () => {
    const wires = place.file("wires.csv", "from,to\nG1:+,X9:1\nG1:plus,P1:-\n");
    const parts = place.file("parts.csv", "designation,kind\nG1,battery-block\nP1,lantern\n");
    const run = loomwright(["import", wires, "--parts", parts, "--out", "cart.loomwright"], place.folder);
    const lines = run.stderr.trimEnd().split("\n");
    expect(run.status).toBe(2);
    expect(run.stdout).toBe("");
    expect(lines[0]).toMatch(/Nothing was imported/);
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines.slice(1)) expect(line).toMatch(/^(wires|parts)\.csv, line \d+: ./);
    expect(run.stderr).toMatch(/parts\.csv, line 3: .*lantern/);
    expect(run.stderr).not.toMatch(FORBIDDEN);
    expect(fs.existsSync(path.join(place.folder, "cart.loomwright"))).toBe(false);
  });

  it("is not UTF-8", () => {
    const wires = place.file("wires.csv", Uint8Array.from([0x66, 0x72, 0xf6, 0x6d]));
    const parts = place.file("parts.csv", "designation,kind\nG1,battery-block\n");
    const run = loomwright(["import", wires, "--parts", parts, "--out", "cart.loomwright"], place.folder);
    expectOneSentence(run, /wires\.csv.*UTF-8/);
  });
});
