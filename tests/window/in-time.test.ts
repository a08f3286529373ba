/** Transitions, single faults, studies and readings in the real window. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { demos } from "../demos/demo-files.ts";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { middleOf, terminal } from "../harness/hand-on-sheet.ts";
import { windowTests } from "../harness/in-window.ts";
import type { OpenOptions } from "../harness/window.ts";

const inWindow = windowTests();
const PICKUP: OpenOptions = { query: "demo=farm-pickup-96v", preferences: { author: "A. Smith" } };

const panel = (page: Page) => page.getByRole("region", { name: "In time" });
const margin = (page: Page) => page.getByRole("complementary", { name: "Margin" });
const handle = (page: Page) => panel(page).getByRole("slider", { name: "Moment in the transition" });
/** The figure behind a curve's name, at the moment that is looked at, in volts or amperes. */
const figure = async (page: Page, curve: string): Promise<number> => {
  const row = panel(page).locator("label").filter({ hasText: curve });
  const [, number = "", thousandth] =
    /^(-?[\d.]+) (m?)[VA]$/.exec((await row.locator(".in-time-value").textContent()) ?? "") ?? [];
  return Number(number) / (thousandth === "m" ? 1000 : 1);
};
const idOf = (designation: string): string =>
  demos.find(({ name }) => name === "farm-pickup-96v")?.project.parts.find((part) => part.designation === designation)
    ?.id ?? "";

/** The look of every wire on the sheet that shows. */
const looks = (page: Page): Promise<string> =>
  page.locator("[data-wire] .wire-line").evaluateAll((lines) =>
    lines
      .map((line) => {
        const { stroke, strokeWidth, strokeDasharray } = getComputedStyle(line);
        return [stroke, strokeWidth, strokeDasharray].join(" ");
      })
      .join("\n"),
  );

describe("a transition", () => {
  inWindow("is told, drawn and gone along; the drawing shows each moment", PICKUP, async ({ page, settled }) => {
    await settled();
    await page.getByRole("button", { name: "key on in time" }).first().click();
    const events = panel(page).getByRole("list", { name: "What happens" }).getByRole("button");
    await events.filter({ hasText: "Q1 closes" }).first().waitFor();
    // At the start the bus is empty; at the end it stands at the pack's 103 V (eight rested AGM blocks of 12.9 V).
    await handle(page).fill("0");
    await expect.poll(() => figure(page, "T1 bus")).toBeLessThan(1);
    await handle(page).press("End");
    await expect.poll(() => figure(page, "T1 bus")).toBeGreaterThan(95);
    await page.getByText("The drawing shows:").waitFor();
    // An event leads to its moment and its part.
    await events.filter({ hasText: "Q1 pulls in" }).click();
    await expect.poll(() => handle(page).getAttribute("aria-valuetext")).toContain("Q1");
    expect(await accessibilityProblems(page)).toEqual([]);
    await handle(page).press("Escape");
    await expect.poll(() => panel(page).count()).toBe(0);
    await expect.poll(() => page.getByText("The drawing shows:").count()).toBe(0);
  });
});

describe("the handle of a transition", () => {
  inWindow("is dragged, and the wires turn dead under it; Escape gives the keyboard back", PICKUP, async (opened) => {
    const { page, settled } = opened;
    await settled();
    const rail = page.getByRole("button", { name: "key on in time" }).first();
    await rail.focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => handle(page).evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press("Home");
    await page.getByText("The drawing shows: key on, at 0 s").waitFor();
    // Pulled while driving: all that hangs behind the disconnect is live at first and dead in the end.
    await panel(page).getByRole("button", { name: "disconnect" }).click();
    await page.getByText("The drawing shows: disconnect, at 0 s").waitFor();
    const live = await looks(page);
    const box = await handle(page).boundingBox();
    if (box === null) throw new Error("there is no handle");
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + 10, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, y, { steps: 8 });
    await page.mouse.move(box.x + box.width - 10, y, { steps: 8 });
    await page.mouse.up();
    await expect.poll(() => looks(page)).not.toBe(live);
    // The moment is one plain line on the curves, and the sheet still shows whole above the panel.
    const line = await panel(page).locator(".in-time-line-now").boundingBox();
    expect(line?.width).toBeLessThanOrEqual(2);
    expect(line?.height).toBeGreaterThan(50);
    const [paper, top] = [await page.locator("svg.paper").boundingBox(), (await panel(page).boundingBox())?.y ?? 0];
    expect((paper?.y ?? 0) + (paper?.height ?? Infinity)).toBeLessThanOrEqual(top);
    await page.keyboard.press("Escape");
    await expect.poll(() => rail.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});

describe("single faults", () => {
  inWindow(
    "are listed worst first, and one is shown on the drawing and taken back",
    PICKUP,
    async ({ page, settled }) => {
      await settled();
      await margin(page)
        .getByRole("button", { name: /one thing fails/ })
        .click();
      const rows = margin(page).locator(".faults-row");
      await rows.first().waitFor();
      const words = (await rows.allTextContents()).map(
        (text) => /^(DANGER|WARNING|CAUTION|NOTICE)?/.exec(text)?.[1] ?? "",
      );
      const ranks = words
        .filter((word) => word !== "")
        .map((word) => ["DANGER", "WARNING", "CAUTION", "NOTICE"].indexOf(word));
      expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
      await rows.nth(1).click();
      await page.getByText(/The drawing shows: .* with this fault/).waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);
      await page.getByRole("button", { name: "Show it without" }).click();
      await expect.poll(() => page.getByText("The drawing shows:").count()).toBe(0);
      await margin(page).getByRole("button", { name: "Back to the findings" }).click();
      await margin(page)
        .getByRole("button", { name: /^All findings/ })
        .waitFor();
    },
  );
});

describe("what the studies say", () => {
  inWindow("of a wire stands beside it", PICKUP, async ({ page, settled }) => {
    await settled();
    await page.keyboard.press("Control+k");
    await page.keyboard.type("W9");
    await page.keyboard.press("Enter");
    const worked = margin(page).locator("details.worked-out");
    await worked.waitFor();
    if ((await worked.getAttribute("open")) === null) await worked.locator("summary").click();
    // 70 mm2 counts as 2/0 AWG (67.4 mm2): 355 A in the 125 C column of table 5, 33 CFR 183.425.
    await worked.getByText("Ampacity as drawn").waitFor();
    await expect.poll(() => worked.textContent()).toContain("355 A");
    expect(await accessibilityProblems(page)).toEqual([]);
  });
});

describe("readings", () => {
  inWindow("are typed, refused in a sentence, and explained", PICKUP, async ({ page, settled }) => {
    await settled();
    await page.getByRole("button", { name: /^Energise/ }).click();
    const form = margin(page).getByRole("form", { name: "A reading" });
    await form.getByLabel("Plus lead").fill("Z99:1");
    await form.getByLabel("Minus lead").fill("chassis");
    await form.getByLabel("Volts").fill("12");
    await form.getByRole("button", { name: "Add this reading" }).click();
    await form.getByRole("alert").getByText('there is no part "Z99" on this drawing').waitFor();
    // A terminal pressed on the sheet goes to the lead that has the keyboard, and begins no wire.
    const wires = await page.locator("[data-wire]").count();
    await form.getByLabel("Plus lead").focus();
    const [x, y] = await middleOf(terminal(page, `${idOf("T1")}:B+`));
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 60, y + 40, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => form.getByLabel("Plus lead").inputValue()).toBe("T1:B+");
    expect(await page.locator("[data-wire]").count()).toBe(wires);
    await form.getByLabel("Minus lead").fill("t1:b-");
    // The whole pack across the controller while parked: 8 blocks of 12.9 V. Something in its way is closed for good.
    await form.getByLabel("Volts").fill("103 V");
    await form.getByRole("button", { name: "Add this reading" }).click();
    await margin(page).locator(".readings-list").getByText("T1:B+ to T1:B-, parked").waitFor();
    await margin(page).getByRole("button", { name: "What explains these readings" }).click();
    const best = margin(page).locator(".readings-fault").first();
    await best.waitFor({ timeout: 20_000 });
    expect(await best.textContent()).toMatch(/^100 % *(S1|Q1|K1) never opens again/);
    await best.click();
    await page.getByText(/The drawing shows: .* with this fault/).waitFor();
    expect(await accessibilityProblems(page)).toEqual([]);
    await page.getByRole("button", { name: "Show it without" }).click();
    await expect.poll(() => best.getAttribute("aria-expanded")).toBe("false");
    // The reading is an edit like any other: undone, it is gone, and so is the question.
    await page.keyboard.press("Control+z");
    await expect.poll(() => margin(page).locator(".readings-list li").count()).toBe(0);
  });
});
