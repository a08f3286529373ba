/** The window around the drawing, in a real browser with real keys: files, questions, recovery, preferences, dialogs. */
import * as fs from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { readProject } from "../../core/project/read.ts";
import { accessibilityProblems } from "../harness/accessibility.ts";
import { windowTests } from "../harness/in-window.ts";

const inWindow = windowTests();

const dialog = (page: Page) => page.getByRole("dialog");

async function command(page: Page, words: string): Promise<void> {
  await page.keyboard.press("Control+k");
  await page.keyboard.type(words);
  await page.keyboard.press("Enter");
}

/** An edit that the window's own means allow. */
const edit = (page: Page): Promise<void> => command(page, "Add a sheet");

const sheetTabs = (page: Page) =>
  page.getByRole("navigation", { name: "Views of the drawing" }).getByRole("button", { name: /^Sheet / });

describe("the window starts", () => {
  inWindow("with the cautions on the first start, once", { preferences: undefined, query: "new" }, async ({ page }) => {
    await expect.poll(() => dialog(page).getByRole("heading", { level: 2 }).textContent()).toBe("Before you begin");
    expect(await accessibilityProblems(page)).toEqual([]);
    await page.keyboard.press("Enter");
    await dialog(page).waitFor({ state: "hidden" });
    await page.reload();
    await sheetTabs(page).first().waitFor();
    expect(await dialog(page).count()).toBe(0);
    await command(page, "read the cautions");
    await dialog(page).getByText("Measure before you touch.").waitFor();
  });

  inWindow("with a demo, solved and checked, and says what is missing", {}, async ({ page, settled }) => {
    await settled();
    expect(await page.title()).toMatch(/ - Loomwright$/);
    expect(await page.getByRole("navigation", { name: "Stages of the job" }).textContent()).toMatch(
      /Check · \d+ (DANGER|WARNING|CAUTION|NOTICE)/,
    );
    expect(await accessibilityProblems(page)).toEqual([]);
  });
});

describe("files", () => {
  inWindow("another demo opens from the list", { query: "new" }, async ({ page, settled }) => {
    await command(page, "open a demo vehicle");
    const first = dialog(page).getByRole("listitem").getByRole("button").first();
    await first.waitFor();
    expect(await accessibilityProblems(page)).toEqual([]);
    await first.click();
    await expect.poll(() => page.title()).not.toMatch(/^Untitled/);
    await settled();
  });

  inWindow(
    "unsaved work is asked about, by the window and before the page goes; undoing it leaves nothing to ask",
    { query: "new" },
    async ({ page }) => {
      await edit(page);
      await expect.poll(() => page.title()).toMatch(/^Unsaved: Untitled/);
      await page.keyboard.press("Control+z");
      await expect.poll(() => page.title()).toMatch(/^Untitled/);
      await page.keyboard.press("Control+Shift+z");
      await expect.poll(() => page.title()).toMatch(/^Unsaved: Untitled/);
      const asked = page.waitForEvent("dialog");
      void page.close({ runBeforeUnload: true });
      const guard = await asked;
      expect(guard.type()).toBe("beforeunload");
      await guard.dismiss();
      await command(page, "begin an empty drawing");
      await dialog(page).getByText("has unsaved changes").waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);
      await page.keyboard.press("Escape");
      expect(await sheetTabs(page).count()).toBe(2);
      await command(page, "begin an empty drawing");
      await dialog(page).getByRole("button", { name: "Discard the changes" }).click();
      await expect.poll(() => sheetTabs(page).count()).toBe(1);
      expect(await page.title()).toMatch(/^Untitled/);
    },
  );

  inWindow(
    "saving where the browser has no pickers is a download of what is on screen",
    { query: "new", withoutPickers: true, preferences: { author: "A. Smith" } },
    async ({ page }) => {
      await edit(page);
      const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
      expect(download.suggestedFilename()).toBe("Untitled.loomwright");
      const read = readProject(fs.readFileSync(await download.path(), "utf8"));
      expect(read.ok && read.project.sheets.length).toBe(2);
      expect(read.ok && read.project.title.author).toBe("A. Smith");
      await expect.poll(() => page.title()).toMatch(/^Untitled/);
      await page.getByRole("status").getByText("went to your downloads").waitFor();
    },
  );

  inWindow("saves in place through a picker, and asks when the file changed", { query: "new" }, async ({ page }) => {
    await giveHandles(page);
    await edit(page);
    await page.keyboard.press("Control+s");
    await page.getByRole("status").getByText("held.loomwright is saved.").waitFor();
    await expect.poll(() => page.title()).toMatch(/^held - /);
    await changeHeldFile(page);
    await edit(page);
    await page.keyboard.press("Control+s");
    await dialog(page).getByText("was changed by another program").waitFor();
    await page.keyboard.press("Escape");
    expect(await heldText(page)).toBe("from elsewhere");
    await page.keyboard.press("Control+s");
    await dialog(page).getByRole("button", { name: "Replace the file" }).click();
    await page.getByRole("status").getByText("held.loomwright is saved.").waitFor();
    const read = readProject(await heldText(page));
    expect(read.ok && read.project.sheets.length).toBe(3);
    // Coming back to the window is when it can notice.
    await changeHeldFile(page);
    await page.evaluate(() => window.dispatchEvent(new Event("focus")));
    await dialog(page).getByRole("button", { name: "Keep what is here" }).click();
    await page.evaluate(() => window.dispatchEvent(new Event("focus")));
    await page.getByRole("button", { name: "Put away" }).click();
    await page.keyboard.press("Control+Shift+s");
    await page.getByRole("status").getByText("held.loomwright is saved.").waitFor();
    await command(page, "begin an empty drawing");
    await expect.poll(() => page.title()).toMatch(/^Untitled/);
    await command(page, "open a recent drawing");
    await dialog(page).getByRole("button", { name: "held.loomwright" }).click();
    await expect.poll(() => sheetTabs(page).count()).toBe(3);
  });

  inWindow(
    "a file that is no drawing, chosen or dropped on the window, says so and changes nothing",
    { withoutPickers: true },
    async ({ page }) => {
      const before = await page.title();
      const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Control+o")]);
      await chooser.setFiles({ name: "letter.loomwright", mimeType: "text/plain", buffer: Buffer.from("Dear Sir") });
      await dialog(page).getByText("letter.loomwright cannot be opened").waitFor();
      await dialog(page).getByText("This is not a project file").waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);
      await page.keyboard.press("Enter");
      await dialog(page).waitFor({ state: "hidden" });
      expect(await page.title()).toBe(before);
      await page.evaluate(() => {
        const carried = new DataTransfer();
        carried.items.add(new File(["{}"], "dropped.loomwright"));
        document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
      });
      await dialog(page).getByText("dropped.loomwright cannot be opened").waitFor();
    },
  );

  inWindow(
    "all sheets go out as SVG with the typeface inside",
    { query: "new", withoutPickers: true },
    async ({ page }) => {
      const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+e")]);
      expect(download.suggestedFilename()).toBe("01-1.svg");
      const svg = fs.readFileSync(await download.path(), "utf8");
      expect(svg).toMatch(/^<\?xml .*<svg /s);
      expect(svg).toContain("data:font/woff2;base64,d09GMg");
    },
  );
});

describe("recovery", () => {
  const keepsNothing = { withoutStorage: true, preferences: undefined, withoutPickers: true };
  inWindow(
    "where the browser keeps nothing, says so and still opens, draws and saves",
    keepsNothing,
    async ({ page }) => {
      await dialog(page).getByRole("button", { name: "I have read this" }).click();
      await expect.poll(() => page.title()).not.toMatch(/^Untitled/);
      await edit(page);
      await expect.poll(() => page.title()).toMatch(/^Unsaved/);
      await page.evaluate(() => window.dispatchEvent(new Event("blur")));
      await page.getByRole("status").getByText("Save the drawing yourself").waitFor();
      await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
      await expect.poll(() => page.title()).not.toMatch(/^Unsaved/);
    },
  );

  inWindow("unsaved work is offered after the window ended without saving", { query: "new" }, async (opened) => {
    const { page, context } = opened;
    await edit(page);
    await expect.poll(() => page.title()).toMatch(/^Unsaved/);
    await page.evaluate(() => window.dispatchEvent(new Event("blur")));
    await expect.poll(() => recoveries(page)).toBe(1);
    // A second window beside a living one is offered nothing: the work has its owner.
    const second = await context.newPage();
    await second.goto(page.url());
    await sheetTabs(second).first().waitFor();
    await second.waitForTimeout(300);
    expect(await dialog(second).count()).toBe(0);
    await page.close({ runBeforeUnload: false });
    await second.reload();
    await dialog(second).getByText("Unsaved work on Untitled").waitFor();
    expect(await accessibilityProblems(second)).toEqual([]);
    await dialog(second).getByRole("button", { name: "Keep it for later" }).click();
    await second.reload();
    await dialog(second).getByRole("button", { name: "Recover the drawing" }).click();
    await expect.poll(() => sheetTabs(second).count()).toBe(2);
    expect(await second.title()).toMatch(/^Unsaved/);
    // Nothing but a save, or giving it up, drops it.
    expect(await recoveries(second)).toBe(1);
    await command(second, "begin an empty drawing");
    await dialog(second).getByRole("button", { name: "Discard the changes" }).click();
    await expect.poll(() => recoveries(second)).toBe(0);
  });
});

describe("preferences and the rest", () => {
  inWindow("preferences take effect at once and survive", { query: "new", dark: true }, async ({ page }) => {
    const theme = (): Promise<string | undefined> =>
      page.evaluate(() => document.documentElement.getAttribute("data-theme") ?? undefined);
    expect(await theme()).toBe("dark");
    await page.keyboard.press("Control+,");
    expect(await accessibilityProblems(page)).toEqual([]);
    await dialog(page).getByLabel("Theme").selectOption("light");
    await expect.poll(theme).toBe("light");
    await dialog(page).getByLabel("Paper of a new sheet").selectOption("A4");
    await dialog(page).getByLabel("Conductor sizes").selectOption("awg");
    await page.keyboard.press("Escape");
    await page.reload();
    await sheetTabs(page).first().waitFor();
    expect(await theme()).toBe("light");
    await page.keyboard.press("Control+,");
    expect(await dialog(page).getByLabel("Paper of a new sheet").inputValue()).toBe("A4");
    expect(await dialog(page).getByLabel("Conductor sizes").inputValue()).toBe("awg");
  });

  inWindow(
    "about says what this host cannot do; licences of what is shipped",
    { query: "new", withoutPickers: true },
    async ({ page }) => {
      await command(page, "about");
      await dialog(page).getByText("each save is a download").waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);
      await page.keyboard.press("Escape");
      await dialog(page).waitFor({ state: "hidden" });
      await command(page, "licences");
      await dialog(page).getByText("SIL OPEN FONT LICENSE").first().waitFor();
      expect(await accessibilityProblems(page)).toEqual([]);
    },
  );

  inWindow("the command field finds a part and takes it up", {}, async ({ page, settled }) => {
    await settled();
    await page.keyboard.press("Control+k");
    await page.keyboard.type("F1");
    const first = page.getByRole("option").first();
    await first.waitFor();
    expect(await first.textContent()).toMatch(/^F1/);
    expect(await accessibilityProblems(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByRole("listbox", { name: "What can be done or gone to" }).count()).toBe(0);
  });

  inWindow("dark, table and outline are as sound as the rest", { dark: true }, async ({ page, settled }) => {
    await settled();
    await page.keyboard.press("Control+l");
    await page.keyboard.press("Control+j");
    await page.getByRole("button", { name: "Outline", pressed: true }).waitFor();
    expect(await accessibilityProblems(page)).toEqual([]);
  });
});

/** The native picker cannot be driven here: it hands out a real file of the page's private file system instead. */
async function giveHandles(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const handle = await folder.getFileHandle("held.loomwright", { create: true });
    Object.assign(window, { showSaveFilePicker: () => Promise.resolve(handle) });
  });
}

const heldText = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle("held.loomwright")).getFile()).text();
  });

async function changeHeldFile(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const writable = await (await folder.getFileHandle("held.loomwright")).createWritable();
    await writable.write("from elsewhere");
    await writable.close();
  });
}

const recoveries = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open("loomwright");
        opening.onerror = () => reject(new Error("no database"));
        opening.onsuccess = () => {
          const counting = opening.result.transaction("recovery").objectStore("recovery").count();
          counting.onsuccess = () => {
            opening.result.close();
            resolve(counting.result);
          };
        };
      }),
  );
