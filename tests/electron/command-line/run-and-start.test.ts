/** Two verbs: a transition told in time, and a drawing from a few answers. */
import * as fs from "node:fs";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { built, loomwright, scratch } from "./loomwright.ts";

const place = scratch();
const ANSWERS = {
  format: "loomwright-answers",
  version: 1,
  vehicle: "Orchard tractor",
  author: "A. Fitter",
  date: "2026-11-25",
  pack: { chemistry: "agm-lead", volts: "96 V" },
  motor: "series",
  current: "150 A",
};

beforeAll(async () => {
  await built();
  place.file("answers.json", JSON.stringify(ANSWERS));
  place.file("wrong.json", JSON.stringify({ ...ANSWERS, motor: "steam", current: 900 }));
});
afterAll(() => place.remove());

const run = (...words: string[]) => loomwright(words, place.folder);

describe("start", () => {
  it("makes a drawing of which check finds nothing above NOTICE", () => {
    const made = run("start", "answers.json", "--out", "tractor.loomwright");
    expect([made.status, made.stderr]).toEqual([0, ""]);
    expect(made.stdout).toMatch(/^tractor\.loomwright: \d+ parts and \d+ wires on \d sheets\. /);
    const checked = run("check", "tractor.loomwright", "--json");
    expect(checked.status).toBe(0);
    expect(JSON.parse(checked.stdout).counts.notChecked).toBe(0);
  });

  it("names every answer that makes no sense, and writes nothing", () => {
    const { status, stdout, stderr } = run("start", "wrong.json", "--out", "wrong.loomwright");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr.split("\n")[0]).toBe("Nothing was drawn: 2 answers in wrong.json to mend.");
    expect(stderr).toContain('"motor": write one of');
    expect(stderr).toContain('"current": choose between');
    expect(fs.existsSync(path.join(place.folder, "wrong.loomwright"))).toBe(false);
  });

  it("does not write over its own answers", () => {
    const { status, stderr } = run("start", "answers.json", "--out", "answers.json");
    expect(status).toBe(2);
    expect(stderr).toContain("Name another file");
    expect(JSON.parse(fs.readFileSync(path.join(place.folder, "answers.json"), "utf8"))).toEqual(ANSWERS);
  });
});

describe("run", () => {
  it("--json gives curves of one length, events in order, and what contacts had to stand", () => {
    run("start", "answers.json", "--out", "tractor.loomwright");
    const { status, stdout, stderr } = run("run", "tractor.loomwright", "--transition", "key-on", "--json");
    expect([status, stderr]).toEqual([0, ""]);
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ transition: "key-on", from: "parked", to: "ready", trouble: null, chatter: [] });
    const { times, nets, wires, events, closings } = document;
    expect([...times].sort((a: number, b: number) => a - b)).toEqual(times);
    for (const { volts } of nets) expect(volts).toHaveLength(times.length);
    for (const { amps } of wires) expect(amps).toHaveLength(times.length);
    const moments = events.map((event: { time: number }) => event.time);
    expect([...moments].sort((a: number, b: number) => a - b)).toEqual(moments);
    const main = closings.find(
      (each: { part: string; contact: string }) => each.part === "Q1" && each.contact === "contact",
    );
    // The controller closes its contactor at 95 % of 103 V: at most 5 % is left across it.
    expect(Math.abs(main.voltsBefore)).toBeLessThan(0.05 * 105);
    expect(Object.keys(document).sort()).toEqual(
      "assumed chatter closings coils discharges events from nets openings resistors times to transition trouble wires".split(
        " ",
      ),
    );
  });

  it("tells a person what happens and why", () => {
    run("start", "answers.json", "--out", "tractor.loomwright");
    const { stdout } = run("run", "tractor.loomwright", "--transition", "key-on");
    expect(stdout).toMatch(/Q1 +closes/);
    expect(stdout).toMatch(/Q1 +pulls-in +coil [\d.]+ V above [\d.]+ V/);
    expect(stdout).toContain("Resistors: energy taken");
  });

  it("names the transitions that there are", () => {
    run("start", "answers.json", "--out", "tractor.loomwright");
    const { status, stdout, stderr } = run("run", "tractor.loomwright", "--transition", "take-off");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^This drawing has no transition "take-off"\. Choose one of: key-on, drive, /);
  });
});
