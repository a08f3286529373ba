/** What `size` prints, held to the JSON shape that other programs read and to what a beginner needs to see. */
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ROOT } from "../../architecture/stage.mjs";
import { built, driveCircuit, lampCircuit, loomwright, scratch } from "./loomwright.ts";

const place = scratch();
const PICKUP = path.join(ROOT, "demo-projects/farm-pickup-96v/farm-pickup-96v.loomwright");

beforeAll(async () => {
  await built();
  place.file("lamp.loomwright", lampCircuit());
  place.file("drive.loomwright", driveCircuit());
});
afterAll(() => place.remove());

const run = (...words: string[]) => loomwright(words, place.folder);
const keys = (value: object): string[] => Object.keys(value).sort();

describe("size", () => {
  it("--json prints one document of the agreed shape, and exits 0", () => {
    const { stdout, stderr, status } = run("size", PICKUP, "--json");
    expect([status, stderr]).toEqual([0, ""]);
    const document = JSON.parse(stdout);
    expect(keys(document)).toEqual(["counts", "devices", "format", "version", "wires"]);
    expect([document.format, document.version]).toEqual(["loomwright-size", 1]);
    const shown = ["inputs", "open", "steps"];
    const wire = ["current", "drawn", "from", "id", "proposed", "protection", "states", "to", "tooThinFor", "wire"];
    for (const each of document.wires) expect(keys(each)).toEqual([...wire, ...shown].sort());
    const device = "bursts current device drawn fallsShort id most proposed prospective states wires".split(" ");
    for (const each of document.devices) expect(keys(each)).toEqual([...device, ...shown].sort());
    for (const { steps, inputs } of [...document.wires, ...document.devices]) {
      for (const step of steps) {
        expect(step.source.text).not.toBe("");
        expect(["seen", "memory", "calc", "none"]).toContain(step.source.known);
      }
      for (const input of inputs) expect(["stated", "default", "assumed", "solved", "unstated"]).toContain(input.from);
    }
    expect(document.counts).toMatchObject({
      wires: document.wires.length,
      devices: document.devices.length,
      falling: 0,
      open: 0,
    });
  });

  it("proposes a metric and an AWG size that carry what the wire carries (33 CFR 183.425)", () => {
    const document = JSON.parse(run("size", PICKUP, "--json").stdout);
    for (const { current, proposed } of document.wires) {
      for (const each of [proposed.metric, proposed.gauge]) {
        expect(each.ampacity).toBeGreaterThanOrEqual(current);
        expect(each.size).toMatch(/ (mm2|AWG)$/);
      }
    }
  });

  it("prints two tables and what could not be decided, with the field to fill in", () => {
    const { stdout, status } = run("size", "drive.loomwright");
    expect(status).toBe(0);
    expect(stdout).toContain("\nWires (");
    expect(stdout).toContain("\nFuses and breakers (1)");
    expect(stdout).toMatch(/W\d+: not decided whether it carries its current: state .*T1\.currentContinuous/s);
    expect(stdout).toContain("F1: not decided which rating the load needs: state ");
    expect(stdout).toContain("not proof of safety");
    const open = JSON.parse(run("size", "drive.loomwright", "--json").stdout).counts.open;
    expect(open).toBeGreaterThan(0);
  });

  it("sizes a lamp's wires and its fuse", () => {
    const { stdout } = run("size", "lamp.loomwright");
    // 21 W at 12 V: 1.75 A and a little; 2.2 A / 0.8 is below 3 A.
    expect(stdout).toMatch(/F1 +1\.\d+ A .* 10 A +3 A/);
  });

  it("refuses a file that is not there in one line, with nothing on the standard output", () => {
    const { stdout, stderr, status } = run("size", "nowhere.loomwright");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^[^\n]*nowhere\.loomwright[^\n]*\n$/);
  });
});
