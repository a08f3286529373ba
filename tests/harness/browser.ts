/** A browser for tests: the one that is installed, or the reason why there is none. */
import { existsSync } from "node:fs";
import { chromium } from "playwright-core";
import type { Browser } from "playwright-core";
import { systemBrowser } from "./browser-places.mjs";

export const NO_BROWSER =
  "no Chromium is installed; install your system's chromium package, or name one in LOOMWRIGHT_BROWSER";

/** Starts a browser without a window; undefined when there is none. One that is there and does not start is a failure. */
export async function startBrowser(): Promise<Browser | undefined> {
  const executablePath = systemBrowser() ?? chromium.executablePath();
  if (!existsSync(executablePath)) return undefined;
  // Chromium refuses its own sandbox to the administrator, as whom build machines run.
  const args = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  return chromium.launch({ executablePath, args });
}
