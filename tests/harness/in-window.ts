/** Tests in the real window: one browser for a file, one page for a test. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { NO_BROWSER } from "./browser.ts";
import { WindowHarness } from "./window.ts";
import type { OpenedWindow, OpenOptions } from "./window.ts";

type InWindow = (name: string, options: OpenOptions, test: (opened: OpenedWindow) => Promise<void>) => void;

/**
 * Starts a browser for the tests of this file and gives the function that declares one: it opens a window, hands it to
 * the test, and holds the test to a page that had nothing to complain of. Skipped, with the reason, without a browser.
 */
export function windowTests(): InWindow {
  let harness: WindowHarness | undefined;
  beforeAll(async () => {
    harness = await WindowHarness.start();
  }, 120_000);
  afterAll(async () => harness?.stop());
  return (name, options, test) => {
    it(
      name,
      async (context) => {
        if (harness === undefined) return context.skip(NO_BROWSER);
        const opened = await harness.open(options);
        opened.page.setDefaultTimeout(10_000);
        try {
          await test(opened);
          expect(opened.problems).toEqual([]);
        } finally {
          await opened.close();
        }
      },
      30_000,
    );
  };
}
