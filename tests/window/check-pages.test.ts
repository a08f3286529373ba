/** What each check looks at, and how it stands on the drawing: for who doubts a finding, and for who inspects. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { windowTests } from "../harness/in-window.ts";
import type { OpenOptions } from "../harness/window.ts";

const inWindow = windowTests();

const FAULTY: OpenOptions = { query: "demo=farm-pickup-96v-faulty", preferences: { author: "A. Smith" } };

const dialog = (page: Page) => page.getByRole("dialog");
const note = (page: Page, words: string) =>
  page.getByRole("complementary", { name: "Margin" }).getByRole("article").filter({ hasText: words });
const rows = (page: Page) => dialog(page).getByRole("listitem").getByRole("button");

/** By the command field, as a person does who does not know where it stands. */
async function showAll(page: Page): Promise<void> {
  await page.keyboard.press("Control+k");
  await page.keyboard.type("all checks");
  await page.keyboard.press("Enter");
  await dialog(page).getByRole("heading", { name: "All checks" }).waitFor();
  await rows(page).first().waitFor();
}

describe("the page of a check", () => {
  inWindow("opens from a finding, and the focus comes back to it", FAULTY, async ({ page, settled }) => {
    await settled();
    await note(page, "F3 is rated 32 V DC").getByRole("button").first().click();
    const link = page.getByRole("button", { name: "What this check looks at" });
    await link.focus();
    await page.keyboard.press("Enter");
    const check = CHECKS.find(({ id }) => id === "protection-voltage-low");
    await dialog(page)
      .getByRole("heading", { level: 2, name: check?.title ?? "?" })
      .waitFor();
    for (const heading of ["What it says", "Limit and source", "When it is not checked"])
      await dialog(page).getByRole("heading", { name: heading }).waitFor();
    await dialog(page).getByText("On this drawing: 1 found").waitFor();
    // Two pictures, each told in words; the pen stands on the wrong one alone.
    const pictures = dialog(page).getByRole("img");
    await expect.poll(() => pictures.count()).toBe(2);
    await dialog(page)
      .getByRole("img", { name: /is rated .* V DC/ })
      .waitFor();
    expect(await dialog(page).locator("[data-side='wrong'] .pen").count()).toBe(1);
    expect(await dialog(page).locator("[data-side='right'] .pen").count()).toBe(0);
    expect(await accessibilityProblems(page)).toEqual([]);
    // Keys scroll the page: it is longer than the dialog.
    await page.keyboard.press("End");
    await expect
      .poll(() =>
        dialog(page)
          .locator(".dialog-body")
          .evaluate((body) => body.scrollTop),
      )
      .toBeGreaterThan(0);
    await page.keyboard.press("Escape");
    await expect.poll(() => dialog(page).count()).toBe(0);
    expect(await link.evaluate((button) => button === document.activeElement)).toBe(true);
  });

  inWindow("shows its pictures for every check, on paper", FAULTY, async ({ page, settled, problems }) => {
    await settled();
    await showAll(page);
    for (const { title } of CHECKS.filter((_, index) => index % 12 === 0)) {
      await rows(page).filter({ hasText: title }).first().click();
      await expect.poll(() => dialog(page).getByRole("img").count()).toBe(2);
      await dialog(page).getByRole("button", { name: "All checks" }).click();
      await rows(page).first().waitFor();
    }
    expect(problems).toEqual([]);
  });
});

describe("all checks", () => {
  inWindow("stand by group with what came of each, and can be searched", FAULTY, async ({ page, settled }) => {
    await settled();
    await showAll(page);
    expect(await rows(page).count()).toBe(CHECKS.length);
    // Every check stands somehow, and as often with a finding as the margin has notes of different checks or more.
    const standings = await dialog(page).locator(".check-list .check-standing").allTextContents();
    for (const words of standings) expect(words).toMatch(/^(\d+ (found|not checked|passed)(, )?)+$|^does not apply$/);
    const head =
      (await dialog(page)
        .getByText(/checks look at the drawing/)
        .textContent()) ?? "";
    const figures = [...head.matchAll(/(\d+) (?:with|passed|do)/g)].map(([, figure]) => Number(figure));
    expect(figures.reduce((sum, each) => sum + each, 0)).toBe(CHECKS.length);
    expect(figures[0]).toBe(standings.filter((words) => words.includes("found")).length);
    expect(await accessibilityProblems(page)).toEqual([]);
    // The search knows what a check says and how it stands.
    const search = dialog(page).getByRole("searchbox", { name: "Search" });
    await search.fill("pre-charge");
    expect(
      await rows(page)
        .filter({ hasText: /pre-?charge/i })
        .count(),
    ).toBeGreaterThan(3);
    expect(await rows(page).count()).toBeLessThan(40);
    await search.fill("does not apply");
    const none = standings.filter((words) => words === "does not apply").length;
    expect(await rows(page).count()).toBe(none);
    await search.fill("zzz");
    await dialog(page).getByText("No check is about").waitFor();
    // A page and back: the search still stands, and the focus is where it was.
    await search.fill("fuse");
    const row = rows(page).nth(1);
    const title = await row.locator(".check-list-title").textContent();
    await row.focus();
    await page.keyboard.press("Enter");
    await dialog(page)
      .getByRole("heading", { level: 2, name: title ?? "?" })
      .waitFor();
    await dialog(page).getByRole("button", { name: "All checks" }).click();
    await expect.poll(() => page.locator(":focus .check-list-title").textContent()).toBe(title);
    expect(await search.inputValue()).toBe("fuse");
  });
});
