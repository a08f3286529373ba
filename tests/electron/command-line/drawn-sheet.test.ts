/** A sheet as a browser shows it: well-formed, to scale, its words still words, nothing fetched from elsewhere. */
import * as path from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { NO_BROWSER, startBrowser } from "../../harness/browser.ts";
import { built, driveCircuit, loomwright, scratch } from "./loomwright.ts";

const place = scratch();
beforeAll(built);
afterAll(() => place.remove());

interface Shown {
  readonly root: string;
  readonly faults: number;
  readonly width: number;
  readonly height: number;
  readonly words: string[];
  /** Left, top, right and bottom of everything that is drawn, px. */
  readonly drawn: readonly [number, number, number, number];
}

/** Runs in the page, whose types this side does not know. */
const LOOK = `(() => {
  const root = document.documentElement;
  const paper = root.getBoundingClientRect();
  const box = root.getBBox();
  const scale = paper.width / root.viewBox.baseVal.width;
  return {
    root: root.localName,
    faults: document.getElementsByTagName("parsererror").length,
    width: paper.width,
    height: paper.height,
    words: [...document.querySelectorAll("text")].map((text) => text.textContent),
    drawn: [box.x, box.y, box.x + box.width, box.y + box.height].map((mm) => mm * scale),
  };
})()`;

it("opens in a browser, at its paper's size, with designations and wire numbers as text", async (context) => {
  const browser = await startBrowser();
  if (browser === undefined) return context.skip(NO_BROWSER);
  try {
    place.file("drive.loomwright", driveCircuit());
    const run = loomwright(["draw", "drive.loomwright", "--out", "sheets"], place.folder);
    expect(run.status).toBe(0);
    const page = await browser.newPage();
    const requests: string[] = [];
    page.on("request", (request) => requests.push(request.url()));
    const [first = ""] = run.stdout.split("\n");
    await page.goto(pathToFileURL(path.join(place.folder, first)).href);
    const shown: Shown = await page.evaluate(LOOK);

    expect([shown.root, shown.faults]).toEqual(["svg", 0]);
    expect(requests).toHaveLength(1);
    // A3 is 420 mm by 297 mm (ISO 216); a browser's px is 1/96 inch (CSS Values and Units, level 3).
    expect(shown.width).toBeCloseTo((420 / 25.4) * 96, 0);
    expect(shown.height).toBeCloseTo((297 / 25.4) * 96, 0);
    const [left, top, right, bottom] = shown.drawn;
    expect(Math.min(left, top)).toBeGreaterThanOrEqual(0);
    expect(right).toBeLessThanOrEqual(shown.width + 0.5);
    expect(bottom).toBeLessThanOrEqual(shown.height + 0.5);
    for (const word of ["G1", "F1", "Q1", "T1", "M1"]) expect(shown.words).toContain(word);
    // A wire's text is its number, with its size where there is room.
    const numbers = shown.words.map((text) => text.split(" ")[0]);
    for (const number of ["W1", "W2", "W9", "W16"]) expect(numbers).toContain(number);
  } finally {
    await browser.close();
  }
}, 30_000);
