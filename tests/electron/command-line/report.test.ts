/** The findings report as the command line writes it: whole, with the exits of `check`, and as Chromium shows and prints it. */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as path from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ROOT } from "../../architecture/stage.mjs";
import { accessibilityProblems } from "../../harness/accessibility.ts";
import { NO_BROWSER, startBrowser } from "../../harness/browser.ts";
import { built, lampCircuit, loomwright, scratch } from "./loomwright.ts";

const place = scratch();
const demo = (name: string): string => path.join(ROOT, "demo-projects", name, `${name}.loomwright`);
const run = (...words: string[]) => loomwright(words, place.folder);
const read = (name: string): string => fs.readFileSync(path.join(place.folder, name), "utf8");

beforeAll(async () => {
  await built();
  place.file("lamp.loomwright", lampCircuit());
});
afterAll(() => place.remove());

describe("check --report", () => {
  it("writes one page beside what check prints and exits as check does", () => {
    const plain = run("check", "lamp.loomwright");
    const told = run("check", "lamp.loomwright", "--report", "lamp.html");
    expect([told.status, told.stderr]).toEqual([plain.status, ""]);
    expect(told.stdout).toBe(`${plain.stdout}The report is in lamp.html.\n`);
    expect(read("lamp.html")).toMatch(/^<!DOCTYPE html>[\s\S]*<\/html>\n$/);
    expect(read("lamp.html")).toContain("font-weight:bold;src:url(data:font/woff2");
    expect(fs.readdirSync(place.folder).filter((name) => name.includes("tmp"))).toEqual([]);
  });

  it("leaves JSON as it is, and takes the place of an older report", () => {
    place.file("again.html", "older");
    const plain = run("check", "lamp.loomwright", "--json");
    const told = run("check", "lamp.loomwright", "--json", "--report", "again.html");
    expect([told.stdout, told.status]).toEqual([plain.stdout, plain.status]);
    expect(read("again.html")).toContain("Findings report");
  });

  it.each([
    [["--report", "lamp.loomwright"], /lamp\.loomwright: it holds the drawing\. Name another file/],
    [["--report", "nowhere/lamp.html"], /nowhere\/lamp\.html: its folder does not exist/],
    [["--report", "one.html", "--state", "driving"], /A report tells of every state\. Leave out --state/],
    [["--report"], /--report needs a value after it/],
  ])("with %j it writes nothing and says why in one line", (words, why) => {
    const before = fs.readdirSync(place.folder);
    const { status, stdout, stderr } = run("check", "lamp.loomwright", ...words);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(why);
    expect(stderr.trim().split("\n")).toHaveLength(1);
    expect(fs.readdirSync(place.folder)).toEqual(before);
    expect(read("lamp.loomwright")).toBe(lampCircuit());
  });
});

describe("in a browser", () => {
  let browser: Browser | undefined;
  beforeAll(async () => {
    browser = await startBrowser();
    run("check", demo("farm-pickup-96v-faulty"), "--report", "pickup.html");
  }, 120_000);
  afterAll(async () => browser?.close());

  const shown = async (use: (page: Page, complaints: readonly string[]) => Promise<void>): Promise<boolean> => {
    if (browser === undefined) return false;
    const page = await browser.newPage();
    const complaints: string[] = [];
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (problem) => complaints.push(problem.message));
    page.on("request", (request) => {
      if (!/^(file|data):/.test(request.url())) complaints.push(`asked for ${request.url()}`);
    });
    await page.goto(`file://${path.join(place.folder, "pickup.html")}`);
    await use(page, complaints);
    await page.close();
    return true;
  };

  it("is accessible, asks for nothing, and its typeface is the drawing's", async (context) => {
    const done = await shown(async (page, complaints) => {
      expect(complaints).toEqual([]);
      const faces = await page.evaluate(async () => {
        await document.fonts.ready;
        return [...document.fonts].map(({ family, status }) => `${family} ${status}`);
      });
      expect(faces).toEqual([expect.stringMatching(/Iosevka Aile.? loaded/), expect.stringMatching(/loaded/)]);
      const levels = await page
        .locator("h1, h2, h3, h4")
        .evaluateAll((all) => all.map(({ tagName }) => Number(tagName[1])));
      expect(levels[0]).toBe(1);
      for (const [index, level] of levels.entries()) expect(level - (levels[index - 1] ?? 1)).toBeLessThanOrEqual(1);
      expect(await page.getByRole("table").count()).toBeGreaterThanOrEqual(3);
      expect(await accessibilityProblems(page)).toEqual([]);
    });
    if (!done) context.skip(NO_BROWSER);
  }, 60_000);

  it("prints on A4 with running title and page numbers, no finding torn in two, each sheet on a page of its own", async (context) => {
    const { findings, counts } = JSON.parse(run("check", demo("farm-pickup-96v-faulty"), "--json").stdout) as {
      readonly findings: readonly { readonly title: string; readonly source: { readonly text: string } }[];
      readonly counts: { readonly notChecked: number };
    };
    expect(counts.notChecked).toBeGreaterThan(0);
    const done = await shown(async (page) => {
      const file = path.join(place.folder, "pickup.pdf");
      await page.pdf({ path: file, preferCSSPageSize: true });
      const sizes = [...fs.readFileSync(file, "latin1").matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map(
        ([, width, height]) => `${Math.round(Number(width))} ${Math.round(Number(height))}`,
      );
      // A4 is 210 mm by 297 mm (ISO 216): 595 by 842 points of 1/72 in.
      expect(sizes.filter((size) => size === "842 595")).toHaveLength(2);
      expect(sizes.filter((size) => size === "595 842").length).toBe(sizes.length - 2);
      const text = spawnSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
      if (text.error !== undefined) return;
      const pages = text.stdout.split("\f").slice(0, -1);
      expect(pages).toHaveLength(sizes.length);
      pages.forEach((each, index) => {
        expect(each).toContain("Findings report: Farm pickup, 96 V");
        expect(each).toContain(`Page ${String(index + 1)} of ${String(pages.length)}`);
      });
      const words = pages.map((each) => each.replace(/\s+/g, " "));
      for (const { title, source } of findings) {
        const [begins = "", cites = ""] = [title, source.text].map((said) => said.split(" ").slice(0, 4).join(" "));
        const on = words.findIndex((each) => each.includes(begins));
        expect(on, title).toBeGreaterThan(0);
        expect(words[on], title).toContain(cites);
      }
    });
    if (!done) context.skip(NO_BROWSER);
  }, 60_000);
});
