/** The page is held where it is: each way out that Electron announces is refused, also those that a page cannot try in the double. */
import { EventEmitter } from "node:events";
import type { WebContents } from "electron";
import { describe, expect, it } from "vitest";
import { fencePage } from "../../electron/main/fences.ts";

describe("the fence round the page", () => {
  const nothing: { readonly opened: unknown } = { opened: undefined };
  const page = Object.assign(new EventEmitter(), nothing, {
    setWindowOpenHandler(handler: (details: { readonly url: string }) => unknown) {
      (this as { opened?: unknown }).opened = handler({ url: "https://elsewhere.invalid/" });
    },
  });
  fencePage(page as unknown as WebContents);

  for (const way of ["will-navigate", "will-frame-navigate", "will-redirect", "will-attach-webview"])
    it(`refuses ${way}`, () => {
      let refused = 0;
      page.emit(way, { preventDefault: () => (refused += 1), url: "https://elsewhere.invalid/" });
      expect(refused).toBe(1);
    });

  it("opens no second window", () => expect(page.opened).toEqual({ action: "deny" }));
});
