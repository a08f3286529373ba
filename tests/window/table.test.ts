/** The tables of parts and wires in a real browser: sorted, sifted, typed into, pasted into, walked through. */
import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { NO_BROWSER } from "../harness/browser.ts";
import { WindowHarness } from "../harness/window.ts";
import type { OpenedWindow } from "../harness/window.ts";

let harness: WindowHarness | undefined;

beforeAll(async () => {
  harness = await WindowHarness.start();
}, 60_000);

afterAll(async () => harness?.stop());

const grid = (page: Page): Locator => page.getByRole("grid");
const heading = (page: Page, name: string): Locator => page.getByRole("columnheader", { name, exact: true });

/** Column of a heading, counted from 1 as the accessible table counts. */
async function columnOf(page: Page, name: string): Promise<number> {
  return Number(await heading(page, name).getAttribute("aria-colindex"));
}

/** The cell in the row of that wire or part. */
async function cell(page: Page, row: string, name: string): Promise<Locator> {
  const first = page.getByRole("gridcell", { name: row, exact: true }).and(page.locator('[aria-colindex="1"]'));
  const rows = grid(page).getByRole("row").filter({ has: first });
  return rows.locator(`[aria-colindex="${String(await columnOf(page, name))}"]`);
}

/** What stands in the first rows of a column. */
async function column(page: Page, name: string, count: number): Promise<readonly string[]> {
  const cells = grid(page).locator(`[role=gridcell][aria-colindex="${String(await columnOf(page, name))}"]`);
  return (await cells.allTextContents()).slice(0, count);
}

async function edits({ page, context, settled }: OpenedWindow): Promise<void> {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.getByRole("button", { name: "Table", exact: true }).click();
  await page.getByRole("button", { name: /^Wires \(/ }).click();
  await settled();

  // Sorted by the figure, not by its letters.
  await heading(page, "Length").click();
  expect(await heading(page, "Length").getAttribute("aria-sort")).toBe("ascending");
  const lengths = (await column(page, "Length", 12)).map((text) => parseFloat(text));
  expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
  await page.keyboard.press("Enter");
  expect(await heading(page, "Length").getAttribute("aria-sort")).toBe("descending");
  await page.keyboard.press("Enter");
  expect(await column(page, "Number", 3)).toEqual(["W1", "W2", "W3"]);

  // Rows that are not in view are not there, though they count.
  expect(await grid(page).getAttribute("aria-rowcount")).toBe("84");
  expect(await grid(page).getByRole("row").count()).toBeLessThan(50);
  await page.keyboard.press("Control+End");
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("gridcell");
  await grid(page).evaluate((box) => box.scrollTo(0, 0));
  await (await cell(page, "W1", "Length")).waitFor();
  expect(await page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("gridcell");

  // Sifted.
  await page.getByRole("searchbox", { name: "Only rows with this text" }).fill("G1:");
  await expect.poll(() => page.getByText(/^\d+ of 83 rows$/).count()).toBe(1);
  for (const number of await column(page, "Number", 9)) {
    const ends = [await cell(page, number, "From"), await cell(page, number, "To")];
    expect((await Promise.all(ends.map((end) => end.textContent()))).join(" ")).toContain("G1:");
  }
  await page.getByRole("searchbox", { name: "Only rows with this text" }).fill("");

  // A block of lengths, typed into once.
  await (await cell(page, "W1", "Length")).click();
  const before = await column(page, "Length", 4);
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Shift+ArrowDown");
  expect(await grid(page).locator("[role=gridcell][aria-selected=true]").count()).toBe(3);
  await page.keyboard.type("2,5 m");
  await page.keyboard.press("Enter");
  expect(await column(page, "Length", 4)).toEqual(["2.5 m", "2.5 m", "2.5 m", before[3]]);
  await page.keyboard.press("Control+z");
  expect(await column(page, "Length", 4)).toEqual(before);

  // Three rows of two cells from a spreadsheet: what cannot be taken is named, the rest goes in, one undo restores all.
  const colours = await column(page, "Colour", 3);
  const copied = "1,5 m\tRD\r\nfar away\tblue\r\n80 cm\tmauve\r\n";
  await page.evaluate((text) => navigator.clipboard.writeText(text), copied);
  await (await cell(page, "W1", "Length")).click();
  await page.keyboard.press("Control+v");
  await expect.poll(() => column(page, "Length", 3)).toEqual(["1.5 m", before[1], "80 cm"]);
  expect(await column(page, "Colour", 3)).toEqual(["RD", "BU", colours[2]]);
  const sentences = await page.getByRole("alert", { name: "Not taken over" }).getByRole("listitem").allTextContents();
  expect(sentences).toHaveLength(2);
  expect(sentences.join(" ")).toMatch(/Wire W2, length: "far away".*Wire W3, colour: "mauve"/);
  await page.keyboard.press("Control+c");
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(
    `1.5 m\tRD\n${before[1] ?? ""}\tBU\n80 cm\t${colours[2] ?? ""}`,
  );
  await page.keyboard.press("Control+z");
  expect(await column(page, "Length", 4)).toEqual(before);
  expect(await column(page, "Colour", 3)).toEqual(colours);

  // A cell that refuses keeps what was typed; Escape gives the old value back.
  await (await cell(page, "W2", "Length")).click();
  await page.keyboard.type("long");
  await page.keyboard.press("Enter");
  const typing = page.getByRole("textbox", { name: "Wire W2, Length" });
  expect(await typing.inputValue()).toBe("long");
  await page.keyboard.press("Escape");
  expect(await (await cell(page, "W2", "Length")).textContent()).toBe(before[1]);
  expect(await accessibilityProblems(page)).toEqual([]);

  // A click elsewhere takes over what was typed, into the cell where it was typed.
  await page.keyboard.type("3 m");
  await (await cell(page, "W4", "Length")).click();
  expect(await column(page, "Length", 4)).toEqual([before[0], "3 m", before[2], before[3]]);
  await page.keyboard.press("Control+z");
  expect(await column(page, "Length", 4)).toEqual(before);
}

/** With lengths taken away, the walk leads to each, and Enter from one to the next. */
async function fillsIn({ page, settled }: OpenedWindow): Promise<void> {
  await page.getByText("Nothing is missing: no check waits for a value.").waitFor();
  await (await cell(page, "W9", "Length")).click();
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Delete");
  await settled();
  const bar = page.getByRole("group", { name: "Fill in what is missing" });
  await bar.getByText("2 values are not stated").waitFor();
  await page.getByRole("button", { name: /^Parts \(/ }).click();
  await bar.getByRole("button", { name: "Fill in what is missing" }).click();
  await bar.getByText("Length of wires: W9").waitFor();
  expect(await bar.textContent()).toMatch(/1 of 2.*waits? for it: [A-Z]/);
  expect(await page.locator("[data-active]").evaluate((each) => each === document.activeElement)).toBe(true);
  await page.keyboard.type("0.25 m");
  await page.keyboard.press("Enter");
  await bar.getByText("Length of wires: W10").waitFor();
  await settled();
  await page.keyboard.type("0.25 m");
  await page.keyboard.press("Enter");
  await bar.getByText("Nothing is missing").waitFor();
  expect((await column(page, "Length", 10)).slice(8)).toEqual(["0.25 m", "0.25 m"]);
}

it("the pickup's wires are sorted, sifted, filled, pasted into, and their gaps walked through", async (context) => {
  if (harness === undefined) return context.skip(NO_BROWSER);
  const opened = await harness.open({ query: "demo=farm-pickup-96v" });
  opened.page.setDefaultTimeout(5000);
  try {
    await edits(opened);
    await fillsIn(opened);
    expect(opened.problems).toEqual([]);
  } finally {
    await opened.close();
  }
}, 30_000);
