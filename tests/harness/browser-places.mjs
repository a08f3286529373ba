/** Where a Chromium may stand. */
import { existsSync } from "node:fs";

const PLACES = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium"];

/** @returns {string | undefined} the browser named in LOOMWRIGHT_BROWSER, else the one that the system has */
export function systemBrowser() {
  return process.env["LOOMWRIGHT_BROWSER"] ?? PLACES.find((place) => existsSync(place));
}
