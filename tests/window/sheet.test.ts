/** The sheet in a real browser beyond plain drawing: what stands on no sheet, loose ends, contacts, large sheets, several sheets. */
import * as fs from "node:fs";
import type { Download, Page } from "playwright-core";
import { describe, expect } from "vitest";
import type { Project } from "../../core/project/document.ts";
import { crowdedSheet } from "../harness/crowded-sheet.ts";
import { drag, middleOf, onScreen, openDrawing, surface, terminal } from "../harness/hand-on-sheet.ts";
import { drawing } from "../harness/drawing.ts";
import { windowTests } from "../harness/in-window.ts";

const inWindow = windowTests();

const station = (page: Page, name: string) =>
  page.getByRole("radiogroup", { name: "Operating states" }).getByRole("radio", { name: new RegExp(`^${name}`) });

/** A lamp on a switch; the lamp stands on no sheet, the wire from the switch ends loose. */
function unfinished(): Project {
  const project = drawing()
    .part("G1", "battery-block", { duty: "auxiliary" })
    .part("S1", "switch", {})
    .part("P1", "lamp", {})
    .wire("G1:+", "S1:common")
    .wire("S1:out", "P1:+")
    .build();
  return {
    ...project,
    parts: project.parts.map((part) => (part.designation === "P1" ? { ...part, views: [] } : part)),
    wires: project.wires.map((wire, index) => (index === 1 ? { ...wire, ends: [wire.ends[0], null] } : wire)),
  };
}

const GIVEN = { query: "new", withoutPickers: true } as const;

describe("what is not finished", () => {
  inWindow("a part on no sheet is placed, and a loose wire led to it", GIVEN, async ({ page, settled }) => {
    await openDrawing(page, unfinished());
    await page.getByRole("group", { name: "On no sheet yet" }).getByRole("button", { name: "Place P1" }).click();
    await page.locator(".hanging").waitFor();
    const at = await onScreen(page, 250, 200);
    await page.mouse.move(...at);
    await page.mouse.click(...at);
    await page.locator('[data-part="p3"]').waitFor();
    expect(await page.getByRole("group", { name: "On no sheet yet" }).count()).toBe(0);
    await settled();
    // By keyboard to the wire: the switch's terminal, then the space bar takes the wire there.
    await page.keyboard.press("Escape");
    await page.mouse.click(...(await middleOf(page.locator('[data-part="p2"] .view-body'))));
    await surface(page).focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => surface(page).getAttribute("aria-activedescendant")).toBe("terminal-p2:common");
    await page.keyboard.press("Space");
    await page.locator('[data-wire="w1"][data-marked="selected"]').waitFor({ state: "attached" });
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Space");
    await page.locator('[data-wire="w2"][data-marked="selected"]').waitFor({ state: "attached" });
    await expect.poll(() => page.locator(".spoken").textContent()).toContain("is selected");
    await drag(page, await middleOf(page.locator('[data-wire-end="w2:1"]')), await middleOf(terminal(page, "p3:+")));
    await page.mouse.up();
    await page.keyboard.press("Control+j");
    await page.getByRole("treeitem", { name: /S1 out to P1 \+/ }).waitFor();
  });
});

describe("states", () => {
  inWindow("contacts are drawn as they stand, and a control set by hand begins a state", GIVEN, async (opened) => {
    const { page, settled } = opened;
    await openDrawing(page, unfinished());
    await settled();
    const blade = (): Promise<string | null> => page.locator('[data-part="p2"] polyline').nth(1).getAttribute("points");
    const atRest = await blade();
    await station(page, "parked").click();
    await expect.poll(blade).toBe(atRest);
    await page.getByRole("button", { name: "Set by hand" }).click();
    const controls = page.getByRole("region", { name: /^Controls in / });
    await controls.getByRole("combobox", { name: /S1/ }).selectOption("on");
    await station(page, "parked-by-hand").waitFor();
    await expect.poll(() => station(page, "parked-by-hand").getAttribute("aria-checked")).toBe("true");
    await expect.poll(blade).not.toBe(atRest);
    await page.locator('[data-wire="w2"][data-look="auxiliary"]').waitFor({ state: "attached" });
    const name = controls.getByRole("textbox", { name: "Your state" });
    await name.fill("Not so");
    await name.press("Enter");
    await page.getByRole("status").getByText("Use lower-case letters").waitFor();
    await name.fill("lamp-on");
    await name.press("Enter");
    await station(page, "lamp-on").waitFor();
    await controls.getByRole("button", { name: "Remove the state lamp-on" }).click();
    await expect.poll(() => station(page, "lamp-on").count()).toBe(0);
    expect(await station(page, "parked").getAttribute("aria-checked")).toBe("true");
  });
});

describe("a large sheet", () => {
  inWindow("is routed beside the window, and drawn simply from afar", GIVEN, async ({ page }) => {
    await openDrawing(page, crowdedSheet(16));
    await page.locator("[data-part]").first().waitFor();
    await page.locator("[data-routing='settled']").waitFor({ timeout: 25_000 });
    const line = await page.locator(".wire-line").first().getAttribute("d");
    const points = (line ?? "")
      .slice(1)
      .split("L")
      .map((point) => point.split(" ").map(Number));
    points.slice(1).forEach((point, index) => {
      expect(point[0] === points[index]?.[0] || point[1] === points[index]?.[1]).toBe(true);
    });
    for (let step = 0; step < 12; step += 1) await page.keyboard.press("Control+-");
    await page.locator("canvas.simplified").waitFor();
    expect(await page.locator(".wire-line").count()).toBe(0);
    const dark = await page.locator("canvas.simplified").evaluate((canvas) => {
      if (!(canvas instanceof HTMLCanvasElement)) throw new Error("no canvas");
      const data = canvas.getContext("2d")?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      let count = 0;
      for (let index = 3; index < data.length; index += 4) if ((data[index] ?? 0) > 100) count += 1;
      return count;
    });
    expect(dark).toBeGreaterThan(500);
    // What stands over the canvas is the canvas itself, not the paper.
    const under = await page.locator("canvas.simplified").evaluate((canvas) => getComputedStyle(canvas).zIndex);
    const paper = await page.locator(".react-flow__renderer").evaluate((layer) => getComputedStyle(layer).zIndex);
    expect(Number(under)).toBeGreaterThan(Number(paper));
  });
});

describe("several sheets", () => {
  inWindow("are exported as one file each", { ...GIVEN, query: "demo=yard-tug-48v" }, async ({ page, settled }) => {
    await settled();
    const files: Download[] = [];
    page.on("download", (download) => files.push(download));
    await page.keyboard.press("Control+e");
    await expect.poll(() => files.length).toBe(2);
    const names = files.map((file) => file.suggestedFilename());
    expect(new Set(names).size).toBe(2);
    for (const file of files) expect(fs.readFileSync(await file.path(), "utf8")).toContain("</svg>");
  });
});
