/** What each verb prints and how it exits. The JSON shapes are compared field by field: other programs read them. */
import * as fs from "node:fs";
import * as path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ROOT } from "../../architecture/stage.mjs";
import { built, lampCircuit, loomwright, scratch } from "./loomwright.ts";

const place = scratch();

beforeAll(async () => {
  await built();
  place.file("lamp.loomwright", lampCircuit());
});
afterAll(() => place.remove());

const run = (...words: string[]) => loomwright(words, place.folder);
const keys = (value: object): string[] => Object.keys(value).sort();

describe("check", () => {
  it("--json prints one document of the agreed shape", () => {
    const { stdout, stderr, status } = run("check", "lamp.loomwright", "--json");
    expect(stderr).toBe("");
    const document = JSON.parse(stdout);
    expect(keys(document)).toEqual(["counts", "findings", "format", "notChecked", "states", "version"]);
    expect(document.format).toBe("loomwright-check");
    expect(document.version).toBe(1);
    expect(document.states).toContain("driving");
    expect(keys(document.counts)).toEqual(
      ["CAUTION", "DANGER", "NOTICE", "WARNING", "accepted", "doesNotApply", "notChecked", "passed"].sort(),
    );
    const finding =
      "accepted check folded id limit mend remedies severity source states title unit value where why".split(" ");
    for (const each of document.findings) expect(keys(each)).toEqual(finding);
    for (const each of document.notChecked) expect(keys(each)).toEqual(["check", "missing", "where", "why"]);
    expect(document.notChecked).toHaveLength(document.counts.notChecked);
    const { DANGER, WARNING, CAUTION, NOTICE } = document.counts;
    expect(document.findings.filter((each: { accepted: unknown }) => each.accepted === null)).toHaveLength(
      DANGER + WARNING + CAUTION + NOTICE,
    );
    expect(status).toBe(DANGER + WARNING + CAUTION > 0 ? 1 : 0);
  });

  it("prints what it did not check under its own heading, with the count that --json gives", () => {
    const { counts } = JSON.parse(run("check", "lamp.loomwright", "--json").stdout);
    const { stdout } = run("check", "lamp.loomwright");
    expect(stdout).toContain(`\nNot checked (${counts.notChecked})\n`);
    expect(stdout).toContain("not proof of safety");
  });

  it("finds a lamp that lost its return wire, and exits 1", () => {
    const project = JSON.parse(lampCircuit());
    project.wires.pop();
    place.file("no-return.loomwright", JSON.stringify(project));
    const { stdout, status } = run("check", "no-return.loomwright", "--json");
    expect(status).toBe(1);
    const found = JSON.parse(stdout).findings.map((each: { check: string }) => each.check);
    expect(found.some((id: string) => id === "no-return-path" || id === "terminal-unconnected")).toBe(true);
  });

  it("--sarif prints one SARIF 2.1.0 document with a result for each finding and each thing not checked", () => {
    const { stdout, stderr } = run("check", "no-return.loomwright", "--sarif");
    expect(stderr).toBe("");
    const log = JSON.parse(stdout);
    const { findings, notChecked } = JSON.parse(run("check", "no-return.loomwright", "--json").stdout);
    const { version } = JSON.parse(fs.readFileSync(path.join(ROOT, "package.json"), "utf8"));
    expect(log.version).toBe("2.1.0");
    expect(log.runs[0].tool.driver.version).toBe(version);
    expect(log.runs[0].results.length).toBeGreaterThanOrEqual(findings.length + notChecked.length);
    expect(run("check", "lamp.loomwright", "--json", "--sarif").status).toBe(2);
  });

  it("--state keeps to one state and names those there are when there is no such one", () => {
    expect(run("check", "lamp.loomwright", "--state", "driving").status).not.toBe(2);
    const absent = run("check", "lamp.loomwright", "--state", "flying");
    expect(absent.status).toBe(2);
    expect(absent.stderr).toMatch(/flying.*parked.*driving/);
  });
});

describe("solve", () => {
  it("--json prints one document of the agreed shape, with the lamp's current in it", () => {
    const { stdout, stderr, status } = run("solve", "lamp.loomwright", "--state", "driving", "--json");
    expect(stderr).toBe("");
    expect(status).toBe(0);
    const document = JSON.parse(stdout);
    expect(keys(document)).toEqual(["approximate", "nets", "parts", "state", "wires"]);
    expect(document.state).toBe("driving");
    for (const net of document.nets) {
      expect(keys(net)).toEqual(["floating", "name", "terminals", "volts", "voltsToPackNegative"]);
    }
    for (const wire of document.wires) expect(keys(wire)).toEqual(["amps", "id", "wire"]);
    // 21 W at 12 V is 6.86 ohm (Ohm's law); six cells of a lead battery give 12 V to 13 V, so 1.7 A to 1.9 A flow.
    const amps = document.wires.map((wire: { amps: number }) => wire.amps);
    for (const each of amps) {
      expect(each).toBeGreaterThan(1.7);
      expect(each).toBeLessThan(1.9);
    }
    const fuse = document.parts.find((part: { part: string }) => part.part === "F1");
    expect(fuse.closed).toBe(true);
    expect(document.approximate).toEqual([]);
  });

  it("prints tables for a reader", () => {
    const { stdout, status } = run("solve", "lamp.loomwright", "--state", "driving");
    expect(status).toBe(0);
    expect(stdout).toMatch(/^ {2}net\s+to chassis/m);
    expect(stdout).toMatch(/G1:\+/);
  });

  it("names the states that there are when asked for another", () => {
    const { stdout, stderr, status } = run("solve", "lamp.loomwright", "--state", "reversing");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/reversing.*parked/);
  });
});

describe("draw and import", () => {
  it("draw writes one SVG a sheet, whole, and prints their names", () => {
    const { stdout, status } = run("draw", "lamp.loomwright", "--out", "sheets", "--svg");
    expect(status).toBe(0);
    const files = stdout.trim().split("\n");
    expect(files.length).toBeGreaterThan(0);
    expect(fs.readdirSync(path.join(place.folder, "sheets"))).toEqual(files.map((file) => path.basename(file)));
    for (const file of files) {
      const text = fs.readFileSync(path.join(place.folder, file), "utf8");
      expect(text).toMatch(/^(<\?xml[^>]*>\s*)?<svg /);
      expect(text.trimEnd().endsWith("</svg>")).toBe(true);
      expect(text).toContain("G1");
    }
  });

  it("import makes a drawing that check and draw then take", () => {
    place.file(
      "wires.csv",
      "to,from,size,length\nF1:1,G1:+,2.5 mm2,1 m\nP1:+,F1:2,2.5 mm2,1 m\nG1:-,P1:-,2.5 mm2,1 m\n",
    );
    place.file(
      "parts.csv",
      "designation,kind,parameters\nG1,battery-block,cells=6\nF1,fuse,rating=10 A\nP1,lamp,voltage=12 V; power=21 W\n",
    );
    const made = run("import", "wires.csv", "--parts", "parts.csv", "--out", "cart.loomwright");
    expect(made.stderr).toBe("");
    expect(made.status).toBe(0);
    expect(made.stdout).toMatch(/^cart\.loomwright: 3 parts and 3 wires/);
    expect(run("check", "cart.loomwright", "--json").status).not.toBe(2);
    expect(run("draw", "cart.loomwright", "--out", "cart").status).toBe(0);
  });
});

describe("the command line itself", () => {
  it.each(["schedule", "energise", "bundle"])("%s says that it is not built yet", (verb) => {
    const { stdout, stderr, status } = run(verb, "lamp.loomwright");
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toBe(`"${verb}" is not built yet.\n`);
  });

  it("draw --pdf says that it is not built yet, and writes nothing", () => {
    const { stderr, status } = run("draw", "lamp.loomwright", "--out", "papers", "--pdf");
    expect(status).toBe(2);
    expect(stderr).toBe("draw --pdf is not built yet.\n");
    expect(fs.existsSync(path.join(place.folder, "papers"))).toBe(false);
  });

  it.each([
    [[], /check FILE/],
    [["chekc", "lamp.loomwright"], /chekc/],
    [["check"], /FILE/],
    [["check", "lamp.loomwright", "other.loomwright"], /other/],
    [["check", "lamp.loomwright", "--jsn"], /--jsn/],
    [["check", "lamp.loomwright", "--state"], /--state/],
    [["solve", "lamp.loomwright"], /--state/],
    [["draw", "lamp.loomwright"], /--out/],
  ])("%j: one line says how it is written", (words, says) => {
    const { stdout, stderr, status } = run(...words);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
  });

  it("answers within 0.6 s once it is built", () => {
    const seconds = [1, 2, 3].map(() => run("check", "lamp.loomwright", "--json").seconds);
    expect(Math.min(...seconds)).toBeLessThan(0.6);
  });
});
