/** Finding, understanding and mending mistakes in the real window, as a newcomer does it. */
import * as fs from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { windowTests } from "../harness/in-window.ts";
import type { OpenOptions } from "../harness/window.ts";

const open = windowTests();
/** With the findings of the drawing on the page. */
const inWindow: typeof open = (name, options, test) =>
  open(name, options, async (opened) => {
    await opened.settled();
    await test(opened);
  });

const FAULTY: OpenOptions = { query: "demo=farm-pickup-96v-faulty", preferences: { author: "A. Smith" } };

const margin = (page: Page) => page.getByRole("complementary", { name: "Margin" });
const notes = (page: Page) => margin(page).getByRole("article");
/** The note that says so; which number it bears is the catalogue's affair. */
const noteOn = (page: Page, words: string) => notes(page).filter({ hasText: words });
const openNote = (page: Page, words: string) => noteOn(page, words).getByRole("button").first().click();
const facts = (page: Page) => page.getByRole("region", { name: "Facts" });
const station = (page: Page, name: string) =>
  page.getByRole("radiogroup", { name: "Operating states" }).getByRole("radio", { name: new RegExp(`^${name}`) });
/** The number in front of each note with its signal word, as they stand from top to bottom. */
const heads = async (page: Page): Promise<string[]> =>
  (await notes(page).locator(".note-head").allTextContents()).map((text) => text.trim());

describe("findings in the margin", () => {
  // The mistakes, their severities and places: README of the demo.
  inWindow("are numbered, worst first, and lead to their place and back", FAULTY, async ({ page }) => {
    const told = await heads(page);
    const words = told.map((text) => /^(\d+)(DANGER|WARNING|CAUTION|NOTICE)/.exec(text));
    expect(words.map((found) => found?.[1])).toEqual(told.map((_, index) => String(index + 1)));
    const ranks = words.map((found) => ["DANGER", "WARNING", "CAUTION", "NOTICE"].indexOf(found?.[2] ?? ""));
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    expect(ranks.filter((rank) => rank === 0).length).toBeGreaterThanOrEqual(4);
    await openNote(page, "G6 in the string");
    const open = notes(page).first();
    expect(await open.getByRole("button", { expanded: true }).textContent()).toContain("wrong way round");
    await open.getByText("What to do:").waitFor();
    await open.getByText("(calculated)").waitFor();
    await open.getByText("in every operating state").waitFor();
    // Its first place is selected: the facts below the note are those of G6.
    expect(await facts(page).getByRole("heading", { level: 2 }).textContent()).toMatch(/^G6 /);
    expect(await accessibilityProblems(page)).toEqual([]);
    // Previous and next lead along the numbers.
    await margin(page).getByRole("button", { name: "All findings" }).click();
    await notes(page).first().getByRole("button").first().click();
    await margin(page).getByRole("button", { name: "Next" }).click();
    await expect.poll(() => notes(page).getByRole("button", { expanded: true }).textContent()).toBe(told[1]);
    // The number of a note stands at its place, and a line leads to it.
    await margin(page).getByRole("button", { name: "All findings" }).click();
    await openNote(page, "F3 is rated 32 V DC");
    const number = page.locator(".pen-number[data-open='true']");
    await expect.poll(() => number.count()).toBe(1);
    await expect.poll(() => page.locator(".leader-line").getAttribute("d")).toMatch(/^M[\d.]+ [\d.]+L/);
    const line = (await page.locator(".leader-line").getAttribute("d")) ?? "";
    const [, x = "", y = ""] = /L([\d.]+) ([\d.]+)$/.exec(line) ?? [];
    const box = await number.boundingBox();
    const part = await page.locator(".view[data-selected]").boundingBox();
    if (box === null || part === null) throw new Error("The number or the fuse is not on the sheet.");
    expect(Math.abs(Number(x) - box.x - box.width / 2)).toBeLessThan(box.width);
    expect(Math.abs(Number(y) - box.y - box.height / 2)).toBeLessThan(box.height);
    expect(box.x).toBeGreaterThan(part.x - 20);
    expect(box.x).toBeLessThan(part.x + part.width + 20);
    // The number leads back to its note.
    await margin(page).getByRole("button", { name: "All findings" }).click();
    await page.locator(".pen-number[title^='F3 is rated 32 V DC']").click();
    await notes(page).getByRole("button", { expanded: true }).getByText("F3 is rated 32 V DC").waitFor();
  });

  inWindow("a place on another sheet turns to that sheet, a state to that state", FAULTY, async ({ page }) => {
    const sheets = page.getByRole("navigation", { name: "Views of the drawing" });
    await openNote(page, "through wire W41");
    await notes(page).first().getByRole("button", { name: "W41", exact: true }).first().click();
    expect(await facts(page).getByRole("heading", { level: 2 }).textContent()).toMatch(/^W41 /);
    expect(await sheets.locator("[aria-current='page']").textContent()).toBe("Sheet Control and 12 V");
    await margin(page).getByRole("button", { name: "All findings" }).click();
    await openNote(page, "W18 carries");
    await notes(page).first().getByRole("button", { name: "driving", exact: true }).click();
    expect(await station(page, "driving:").getAttribute("aria-checked")).toBe("true");
    await station(page, "driving:").focus();
    await page.keyboard.press("ArrowRight");
    expect(await station(page, "driving-low:").getAttribute("aria-checked")).toBe("true");
    await page.keyboard.press("Home");
    expect(await station(page, "Plain drawing").getAttribute("aria-checked")).toBe("true");
    expect(await station(page, "driving:").getAttribute("aria-label")).toMatch(/\d+ nets live in traction, \d+ nets/);
  });

  inWindow("one is mended through the facts, one accepted with a reason", FAULTY, async ({ page, settled }) => {
    const before = await notes(page).count();
    await openNote(page, "F3 is rated 32 V DC");
    const field = facts(page).getByRole("textbox", { name: "Voltage, DC" });
    expect(await field.inputValue()).toBe("32 V");
    await field.fill("plenty");
    await field.press("Enter");
    await facts(page).getByRole("alert").getByText('"plenty" cannot be taken').waitFor();
    expect(await field.inputValue()).toBe("plenty");
    await field.fill("150");
    await field.press("Enter");
    await expect.poll(() => field.inputValue()).toBe("150 V");
    await page.getByRole("status").getByText("No longer found: F3 is rated 32 V DC").waitFor();
    await settled();
    await margin(page)
      .getByRole("button", { name: `All findings (${String(before - 1)})` })
      .click();
    expect((await heads(page)).some((text) => text.includes("F3"))).toBe(false);
    await page.keyboard.press("Control+z");
    await settled();
    await expect.poll(() => notes(page).count()).toBe(before);
    await openNote(page, "The lug of wire W14");
    await notes(page).first().getByRole("button", { name: "Accept with a reason" }).click();
    const form = page.getByRole("form", { name: "Accept the finding" });
    expect(await form.getByLabel("Your name").inputValue()).toBe("A. Smith");
    expect(await form.getByRole("button", { name: "Accept the finding" }).isDisabled()).toBe(true);
    await form.getByLabel("Why this may stay as it is").fill("A washer fills the hole.");
    expect(await accessibilityProblems(page)).toEqual([]);
    await form.getByRole("button", { name: "Accept the finding" }).click();
    await settled();
    await margin(page)
      .getByRole("button", { name: `All findings (${String(before - 1)})` })
      .click();
    const accepted = page.getByRole("region", { name: "Accepted 1" });
    await accepted.getByText(/A\. Smith, \d{4}-\d{2}-\d{2}: A washer fills the hole\./).waitFor();
    await accepted.getByRole("button", { name: "Take back the acceptance" }).click();
    await settled();
    await expect.poll(() => notes(page).count()).toBe(before);
  });
});

describe("what was not checked", () => {
  inWindow("leads to the field that is missing, and goes once it is stated", FAULTY, async ({ page, settled }) => {
    await page.keyboard.press("Control+k");
    await page.keyboard.type("F3");
    await page.getByRole("option").first().waitFor();
    await page.keyboard.press("Enter");
    const field = facts(page).getByRole("textbox", { name: "Interrupting rating" });
    expect(await field.inputValue()).toBe("20 kA");
    await field.fill("");
    await field.press("Enter");
    await settled();
    await facts(page).getByText("asked for", { exact: true }).first().waitFor();
    await margin(page).getByRole("button", { name: "All findings" }).click();
    const missing = page.getByRole("region", { name: /^Not checked \d+$/ });
    expect(await accessibilityProblems(page)).toEqual([]);
    await missing.getByRole("button", { name: "State Interrupting rating at F3" }).click();
    await expect.poll(() => field.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.type("20 kA");
    await page.keyboard.press("Enter");
    await settled();
    await margin(page).getByRole("button", { name: "All findings" }).click();
    await expect.poll(() => missing.getByRole("button", { name: "State Interrupting rating at F3" }).count()).toBe(0);
  });

  inWindow("a drawing without findings tells what was looked at", { query: "demo=yard-tug-48v" }, async ({ page }) => {
    const told = margin(page).getByText(/^Nothing found\. Checks passed \d+ times and did not apply \d+ times\./);
    await told.waitFor();
    expect(await told.textContent()).not.toMatch(/safe/i);
  });
});

describe("the findings report", () => {
  inWindow("is saved from the command field and bears the margin's numbers", FAULTY, async ({ page }) => {
    const told = await heads(page);
    await page.keyboard.press("Control+k");
    await page.keyboard.type("findings report");
    const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
    expect(download.suggestedFilename()).toBe("farm-pickup-96v-faulty-findings.html");
    await page.getByRole("status").getByText("The findings report is saved.").waitFor();
    const report = await page.context().newPage();
    await report.setContent(fs.readFileSync(await download.path(), "utf8"));
    const articles = report.getByRole("article");
    const numbered = await articles.evaluateAll((all) =>
      all.map((each) =>
        ["header .pen-number", ".word", "h3"].map((part) => each.querySelector(part)?.textContent).join(""),
      ),
    );
    expect(numbered).toEqual(told);
    const weights = await report.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].map(({ weight, status }) => `${weight} ${status}`);
    });
    expect(weights.sort()).toEqual(["bold loaded", "normal loaded"]);
    await report.close();
  });
});

describe("a terminal under the pointer", () => {
  inWindow("tells its net, its volts and where its wires lead", FAULTY, async ({ page }) => {
    await station(page, "driving:").click();
    const terminal = page.locator("[data-terminal='p6:+']");
    const box = await terminal.boundingBox();
    if (box === null) throw new Error("The terminal is not on the sheet.");
    await page.mouse.move(box.x + box.width / 2 + 2, box.y + box.height / 2);
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    const card = page.locator(".card");
    await card.getByText("G6:+").waitFor();
    await card.getByText("driving: traction").waitFor();
    expect(await card.textContent()).toMatch(/to chassis-?[\d.]+ V.*to pack minus-?[\d.]+ V.*W\d+to .*A (in|out)/);
    await expect.poll(() => page.locator(".card-spoken").textContent()).toMatch(/^G6:\+\. traction, .* to chassis/);
    const shown = await card.boundingBox();
    if (shown === null) throw new Error("The card does not show.");
    const covers =
      shown.x < box.x + box.width &&
      shown.x + shown.width > box.x &&
      shown.y < box.y + box.height &&
      shown.y + shown.height > box.y;
    expect(covers).toBe(false);
  });
});
