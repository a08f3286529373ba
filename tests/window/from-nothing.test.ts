/** The whole of a first evening: a 48 V circuit drawn from nothing, three mistakes found and mended, the sheet exported. */
import * as fs from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { drag, leadWire, middleOf, put, terminal } from "../harness/hand-on-sheet.ts";
import { windowTests } from "../harness/in-window.ts";

const inWindow = windowTests();

const margin = (page: Page) => page.getByRole("complementary", { name: "Margin" });
const facts = (page: Page) => page.getByRole("region", { name: "Facts" });
const note = (page: Page, words: string | RegExp) => margin(page).getByRole("article").filter({ hasText: words });

/** States a figure of what is selected. */
async function state(page: Page, name: string, value: string): Promise<void> {
  const field = facts(page).getByRole("textbox", { name, exact: true });
  await field.fill(value);
  await field.press("Enter");
}

async function choose(page: Page, part: string): Promise<void> {
  await page.locator(`[data-part="${part}"] .view-body`).first().click();
}

/** Everything unselected, so that the margin lists what was found. */
async function overview(page: Page): Promise<void> {
  const all = margin(page).getByRole("button", { name: /^All findings/ });
  if ((await all.count()) > 0) await all.click();
}

/** Leads an end of a wire to another terminal by the handle that it has while it is selected. */
async function leadEnd(page: Page, wire: string, end: 0 | 1, to: string): Promise<void> {
  const line = page.locator(`[data-wire="${wire}"] .wire-line`);
  const [x, y] = await line.evaluate((path) => {
    if (!(path instanceof SVGPathElement)) throw new Error("the wire has no line");
    const matrix = path.getScreenCTM();
    const at = path.getPointAtLength(path.getTotalLength() / 2);
    const middle = matrix === null ? at : at.matrixTransform(matrix);
    return [middle.x, middle.y] as const;
  });
  await page.mouse.click(x, y);
  const handle = page.locator(`[data-wire-end="${wire}:${String(end)}"]`);
  await handle.waitFor();
  await drag(page, await middleOf(handle), await middleOf(terminal(page, to)));
  await page.mouse.up();
}

describe("from nothing", () => {
  inWindow(
    "a 48 V circuit is drawn, three mistakes are met and mended, the sheet is exported",
    { query: "new", withoutPickers: true },
    async ({ page, settled }) => {
      await put(page, "battery pack", 70, 80);
      await put(page, "fuse", 130, 80);
      await put(page, "contactor", 170, 80);
      await put(page, "dc controller", 300, 110);
      await leadWire(page, "p1:+", "p2:1");
      await leadWire(page, "p2:2", "p3:line");
      // The controller the wrong way round.
      await leadWire(page, "p3:load", "p4:B-");
      await leadWire(page, "p4:B+", "p1:-");
      await choose(page, "p1");
      // Four blocks of six lead cells: 48 V.
      await state(page, "Blocks in series", "4");
      await facts(page).getByRole("combobox", { name: "Chemistry" }).selectOption("agm-lead");
      await choose(page, "p2");
      // A fuse for a car's 12 V side, under the contactor's name.
      await state(page, "Voltage, DC", "32 V");
      await state(page, "Designation", "Q1");
      await settled();
      await overview(page);
      const reversed = note(page, "T1 are fed the wrong way round");
      const weak = note(page, /is rated 32 V DC and has to interrupt/);
      const twice = note(page, "2 parts are called Q1.");
      await reversed.first().waitFor();
      await weak.first().waitFor();
      await twice.first().waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);

      await twice.getByRole("button").first().click();
      await margin(page).locator(".note-remedies").getByRole("button").first().click();
      await page.getByRole("status").getByText("No longer found: 2 parts are called Q1.").waitFor();
      await settled();
      await page.keyboard.press("Control+z");
      await settled();
      await overview(page);
      await twice.first().waitFor();
      await page.keyboard.press("Control+Shift+z");
      await settled();
      await expect.poll(() => twice.count()).toBe(0);

      await choose(page, "p2");
      await state(page, "Voltage, DC", "80 V");
      await settled();
      await leadEnd(page, "w3", 1, "p4:B+");
      await leadEnd(page, "w4", 0, "p4:B-");
      await settled();
      await page.keyboard.press("Escape");
      await overview(page);
      await expect.poll(() => reversed.count()).toBe(0);
      expect(await weak.count()).toBe(0);

      const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+e")]);
      expect(download.suggestedFilename()).toMatch(/\.svg$/);
      const svg = fs.readFileSync(await download.path(), "utf8");
      expect(svg).toMatch(/^<\?xml|^<svg/);
      for (const words of ["G1", "T1", "80 V", "W3"]) expect(svg).toContain(words);
    },
  );
});
