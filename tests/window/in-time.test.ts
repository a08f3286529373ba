/** Transitions, single faults, studies and readings in the real window. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { windowTests } from "../harness/in-window.ts";
import type { OpenOptions } from "../harness/window.ts";

const inWindow = windowTests();
const PICKUP: OpenOptions = { query: "demo=farm-pickup-96v", preferences: { author: "A. Smith" } };

const panel = (page: Page) => page.getByRole("region", { name: "In time" });
const margin = (page: Page) => page.getByRole("complementary", { name: "Margin" });
const handle = (page: Page) => panel(page).getByRole("slider", { name: "Moment in the transition" });
/** The figure behind a curve's name, at the moment that is looked at. */
const figure = async (page: Page, curve: string): Promise<number> => {
  const row = panel(page).locator("label").filter({ hasText: curve });
  return Number.parseFloat((await row.locator(".in-time-value").textContent()) ?? "");
};

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
    await form.getByRole("alert").waitFor();
    await form.getByLabel("Plus lead").fill("G8:+");
    await form.getByLabel("Minus lead").fill("G1:-");
    await form.getByLabel("Volts").fill("77");
    await form.getByRole("button", { name: "Add this reading" }).click();
    await margin(page).getByRole("button", { name: "What explains these readings" }).click();
    await margin(page).locator(".readings-fault").first().waitFor({ timeout: 20_000 });
    expect(await accessibilityProblems(page)).toEqual([]);
  });
});
