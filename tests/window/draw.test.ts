/** Drawing in a real browser with a real pointer and real keys: placing, wiring, moving, taking back; all of it by keyboard too. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { drag, leadWire, middleOf, onScreen, put, surface, terminal, wireLine } from "../harness/hand-on-sheet.ts";
import { windowTests } from "../harness/in-window.ts";

const inWindow = windowTests();

/** The wires of the drawing in words, from the outline: "G1 + to F1 1". */
async function wires(page: Page): Promise<readonly string[]> {
  const names = await page
    .getByRole("treeitem", { level: 2 })
    .evaluateAll((rows) => rows.map((row) => row.getAttribute("aria-label") ?? ""));
  return names.filter((name) => / to /.test(name)).map((name) => name.replace(/^[^,]*, /, ""));
}

const openOutline = (page: Page): Promise<void> => page.keyboard.press("Control+j");

/** The first and last point of a wire's line, mm. */
async function endsOf(page: Page, id: string): Promise<readonly (readonly number[])[]> {
  const points = ((await wireLine(page, id).getAttribute("d")) ?? "").slice(1).split("L");
  return [points[0], points.at(-1)].map((point) => (point ?? "").split(" ").map(Number));
}

/** The pack circuit of a 48 V drive: G1 - F1 - Q1 - T1 and back. */
async function drawPackCircuit(page: Page): Promise<void> {
  await put(page, "battery pack", 70, 80);
  await put(page, "fuse", 130, 80);
  await put(page, "contactor", 170, 80);
  await put(page, "dc controller", 300, 110);
  await leadWire(page, "p1:+", "p2:1");
  await leadWire(page, "p2:2", "p3:line");
  await leadWire(page, "p3:load", "p4:B+");
  await leadWire(page, "p4:B-", "p1:-");
}

describe("with the pointer", () => {
  inWindow("a 48 V pack circuit is drawn from nothing, taken back and done again", { query: "new" }, async (opened) => {
    const { page, settled } = opened;
    await openOutline(page);
    await drawPackCircuit(page);
    const drawn = ["G1 + to F1 1", "F1 2 to Q1 line", "Q1 load to T1 B+", "T1 B- to G1 -"];
    await expect.poll(() => wires(page)).toEqual(drawn);
    await settled();
    for (let step = 0; step < 4; step += 1) await page.keyboard.press("Control+z");
    await expect.poll(() => wires(page)).toEqual([]);
    await page.keyboard.press("Control+z");
    await expect.poll(() => page.locator('[data-part="p4"]').count()).toBe(0);
    for (let step = 0; step < 5; step += 1) await page.keyboard.press("Control+Shift+z");
    await expect.poll(() => wires(page)).toEqual(drawn);
    expect(await accessibilityProblems(page)).toEqual([]);
  });

  inWindow("a part that is moved takes its wires along and they are laid anew", { query: "new" }, async ({ page }) => {
    await put(page, "battery pack", 70, 80);
    await put(page, "fuse", 150, 80);
    await leadWire(page, "p1:+", "p2:1");
    const before = await endsOf(page, "w1");
    const fuse = await middleOf(page.locator('[data-part="p2"] .view-body'));
    const [x, y] = await onScreen(page, 0, 0);
    const [, lower] = await onScreen(page, 0, 40);
    await drag(page, fuse, [fuse[0], fuse[1] + lower - y]);
    expect(x).toBeGreaterThan(0);
    await page.locator(".carried").waitFor();
    expect(await wireLine(page, "w1").count()).toBe(0);
    await page.mouse.up();
    await wireLine(page, "w1").waitFor();
    const after = await endsOf(page, "w1");
    expect(after[0]).toEqual(before[0]);
    expect(after[1]?.[0]).toBe(before[1]?.[0]);
    expect(after[1]?.[1]).toBe((before[1]?.[1] ?? 0) + 40);
    // One drag is one edit.
    await page.keyboard.press("Control+z");
    await expect.poll(() => endsOf(page, "w1")).toEqual(before);
  });

  inWindow("a mistake is named before the wire is let go, and drawn all the same", { query: "new" }, async (opened) => {
    const { page, settled } = opened;
    await openOutline(page);
    await put(page, "battery pack", 70, 80);
    await put(page, "fuse", 150, 80);
    await leadWire(page, "p1:+", "p2:1");
    await settled();
    await drag(page, await middleOf(terminal(page, "p2:2")), await middleOf(terminal(page, "p1:-")));
    // The pack's own poles through a fuse: the fuse does not make it right.
    await page.getByText("Bolted short: this would join plus and minus of G1.").first().waitFor();
    await page.mouse.up();
    await expect.poll(() => wires(page)).toEqual(["G1 + to F1 1", "F1 2 to G1 -"]);
  });

  inWindow(
    "a wire is drawn by two clicks, its end is led elsewhere, it is deleted",
    { query: "new" },
    async ({ page }) => {
      await openOutline(page);
      await put(page, "battery pack", 70, 80);
      await put(page, "fuse", 150, 80);
      await page.mouse.click(...(await middleOf(terminal(page, "p1:+"))));
      await page.mouse.click(...(await middleOf(terminal(page, "p2:1"))));
      await expect.poll(() => wires(page)).toEqual(["G1 + to F1 1"]);
      // The new wire is selected and has a handle near each end.
      await drag(page, await middleOf(page.locator('[data-wire-end="w1:1"]')), await middleOf(terminal(page, "p2:2")));
      await page.mouse.up();
      await expect.poll(() => wires(page)).toEqual(["G1 + to F1 2"]);
      await page.keyboard.press("Delete");
      await expect.poll(() => wires(page)).toEqual([]);
    },
  );

  inWindow("a band takes what it surrounds; Escape lets go of it", { query: "new" }, async ({ page }) => {
    await put(page, "battery pack", 70, 80);
    await put(page, "fuse", 150, 80);
    await put(page, "lamp", 250, 180);
    await drag(page, await onScreen(page, 40, 50), await onScreen(page, 190, 120));
    await page.mouse.up();
    const selected = (): Promise<string[]> =>
      page
        .locator(".view[data-selected]")
        .evaluateAll((views) => views.map((view) => view.getAttribute("data-part") ?? ""));
    await expect.poll(selected).toEqual(["p1", "p2"]);
    await page.keyboard.press("Escape");
    await expect.poll(selected).toEqual([]);
  });

  inWindow("the shelf opens under the pointer and a part is taken with a click", { query: "new" }, async ({ page }) => {
    const strip = page.getByRole("region", { name: "Shelf of parts" });
    await strip.hover();
    await page.getByRole("option", { name: "Fuse", exact: true }).click();
    await page.mouse.click(...(await onScreen(page, 150, 100)));
    expect(await page.locator('[data-part="p1"]').getAttribute("aria-label")).toMatch(/^F1, Fuse/);
  });
});

describe("with the keyboard alone", () => {
  inWindow("a letter typed while nothing has the focus opens the shelf", { query: "new" }, async ({ page }) => {
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.type("fuse");
    await page.getByRole("option", { name: "Fuse", exact: true }).waitFor();
    expect(await page.getByRole("region", { name: "Shelf of parts" }).getByRole("combobox").inputValue()).toBe("fuse");
  });

  inWindow("a lamp circuit is placed and wired", { query: "new" }, async ({ page }) => {
    await openOutline(page);
    await surface(page).focus();
    const place = async (name: string, key: string, steps: number, turn?: string): Promise<void> => {
      await page.keyboard.type(name);
      await page.getByRole("option").first().waitFor();
      await page.keyboard.press("Enter");
      await page.locator(".hanging").waitFor();
      for (let step = 0; step < steps; step += 1) await page.keyboard.press(key);
      if (turn !== undefined) await page.keyboard.press(turn);
      await page.keyboard.press("Enter");
      await page.locator(".hanging").waitFor({ state: "detached" });
    };
    const press = async (...keys: readonly string[]): Promise<void> => {
      for (const key of keys) await page.keyboard.press(key);
    };
    const says = (text: string | RegExp): Promise<void> =>
      expect.poll(() => page.locator(".spoken").textContent()).toMatch(text);
    const stands = (element: string): Promise<void> =>
      expect.poll(() => surface(page).getAttribute("aria-activedescendant")).toBe(element);
    // Mirrored while it hangs: plus towards the fuse.
    await place("battery block", "Shift+ArrowLeft", 8, "/");
    await place("fuse", "ArrowLeft", 0);
    // By another of its names.
    await place("bulb", "Shift+ArrowRight", 4);
    await press("Escape", "Escape");
    await press("ArrowRight");
    await says(/^G1/);
    await press("Enter");
    await stands("terminal-p1:+");
    await press("Enter", "ArrowRight");
    await says(/^Wire from G1 \+.*to F1 1/);
    await press("Enter", "ArrowRight", "Enter", "ArrowRight", "Enter", "ArrowRight", "Enter");
    for (let step = 0; step < 5; step += 1) await press("ArrowLeft");
    await says(/^Wire from P1 .*to G1 -/);
    await press("Enter");
    await expect.poll(() => wires(page)).toHaveLength(3);
    await expect
      .poll(async () => (await wires(page)).map((words) => words.replace(/P1 \S+/, "P1")))
      .toEqual(["G1 + to F1 1", "F1 2 to P1", "P1 to G1 -"]);
  });

  inWindow(
    "a selected part moves, turns and mirrors; the steps of one key are one edit",
    { query: "new" },
    async (opened) => {
      const { page } = opened;
      await put(page, "fuse", 150, 80);
      const place = (): Promise<readonly number[]> =>
        page
          .locator('[data-terminal="p1:2"]')
          .evaluate((circle) => ["cx", "cy"].map((name) => Number(circle.getAttribute(name))));
      const [x = 0, y = 0] = await place();
      await page.keyboard.down("ArrowRight");
      await page.keyboard.down("ArrowRight");
      await page.keyboard.down("ArrowRight");
      await page.keyboard.up("ArrowRight");
      await expect.poll(place).toEqual([x + 7.5, y]);
      await page.keyboard.press("Control+z");
      await expect.poll(place).toEqual([x, y]);
      await page.keyboard.press(".");
      await expect.poll(async () => (await place())[0]).not.toBe(x);
      await page.keyboard.press(",");
      await expect.poll(place).toEqual([x, y]);
      await page.keyboard.press("/");
      await expect.poll(async () => (await place())[0]).not.toBe(x);
    },
  );

  inWindow(
    "the outline finds a part, selects it and brings it into view",
    { query: "demo=yard-tug-48v" },
    async (opened) => {
      const { page } = opened;
      await openOutline(page);
      const tree = page.getByRole("tree");
      await page.getByRole("searchbox", { name: "Find a part or a wire" }).fill("F1");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("Enter");
      await page.locator('.view[data-selected][aria-label^="F1"]').waitFor();
      expect(await tree.evaluate((element) => element === document.activeElement)).toBe(true);
      // A terminal is given the keyboard on the sheet, where Enter begins a wire.
      await page.keyboard.press("ArrowRight");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("Enter");
      await expect.poll(() => surface(page).getAttribute("aria-activedescendant")).toMatch(/^terminal-p\d+:1$/);
      expect(await surface(page).evaluate((element) => element === document.activeElement)).toBe(true);
      expect(await accessibilityProblems(page)).toEqual([]);
    },
  );
});
