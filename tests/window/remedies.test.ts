/** A remedy chosen in the real window: its label can be read whole, and what it brought is selected on the sheet. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { windowTests } from "../harness/in-window.ts";

const inWindow = windowTests();

const margin = (page: Page) => page.getByRole("complementary", { name: "Margin" });

describe("a remedy", () => {
  inWindow(
    "shows what it added and says that undo takes it back",
    { query: "demo=farm-pickup-96v-faulty" },
    async ({ page, settled }) => {
      await settled();
      // The first branch without a fuse.
      await margin(page).locator('[data-finding^="branch-unprotected"] .note-head').first().click();
      const button = margin(page)
        .locator(".note-remedies")
        .getByRole("button", { name: /^Fit a fuse of \d+ A at / })
        .first();
      const label = (await button.textContent()) ?? "";
      const isWhole = await button.evaluate((element) => element.scrollWidth <= element.clientWidth);
      expect(isWhole, "the label fits its button").toBe(true);
      await button.click();
      await page.getByText(`Done: ${label}. Undo takes it back.`).waitFor();
      await settled();
      // The fuse and the piece of wire that leads to it.
      await expect.poll(() => page.locator("[data-selected]").count()).toBe(1);
    },
  );
});
