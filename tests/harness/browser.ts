/** A browser for tests: the one that is installed, or the reason why there is none. */
import { existsSync } from "node:fs";
import { chromium } from "playwright-core";
import type { Browser } from "playwright-core";

const PLACES = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium"];

/** Where a browser stands, or undefined. LOOMWRIGHT_BROWSER names one that stands elsewhere. */
function browserPath(): string | undefined {
  const named = process.env["LOOMWRIGHT_BROWSER"];
  return named ?? PLACES.find((place) => existsSync(place));
}

export const NO_BROWSER =
  "no Chromium is installed; install your system's chromium package, or name one in LOOMWRIGHT_BROWSER";

/** Starts a browser without a window; undefined when there is none. One that is there and does not start is a failure. */
export async function startBrowser(): Promise<Browser | undefined> {
  const executablePath = browserPath();
  if (executablePath === undefined) return undefined;
  // Chromium refuses its own sandbox to the administrator, as whom build machines run.
  const args = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  return chromium.launch({ executablePath, args });
}
