/**
 * Takes the pictures of README.md anew: npm run pictures. The real window in the Chromium that is installed, and a sheet
 * as the command line draws it. Writes assets/pictures/*.png; ends with 2 where there is no browser.
 */
import { spawnSync } from "node:child_process";
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { ensureInstalled } from "../electron/install.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const INTO = path.join(ROOT, "assets/pictures");
/** Pictures are kept in the repository for ever: larger ones do not go in. */
const MOST_BYTES = 300_000;
const FAULTY = "farm-pickup-96v-faulty";

/** @typedef {import("playwright-core").Page} Page */
/** @typedef {{ name: string, dark?: boolean, show: (page: Page) => Promise<unknown> }} View */

/** @param {Page} page @param {string} name */
const state = (page, name) =>
  page
    .getByRole("radiogroup", { name: "Operating states" })
    .getByRole("radio", { name: new RegExp(`^${name}:`) })
    .click();

/** @param {Page} page @param {number} index */
const openFinding = (page, index) =>
  page
    .getByRole("complementary", { name: "Margin" })
    .getByRole("article")
    .nth(index)
    .getByRole("button")
    .first()
    .click();

/** @type {readonly View[]} */
const VIEWS = [
  {
    name: "finding",
    show: async (page) => {
      await state(page, "driving");
      await openFinding(page, 0);
    },
  },
  {
    name: "table",
    show: async (page) => {
      await page
        .getByRole("navigation", { name: "Views of the drawing" })
        .getByRole("button", { name: "Table" })
        .click();
      await page
        .getByRole("region", { name: "Parts and wires" })
        .getByText(/^Wires/)
        .click();
    },
  },
  {
    name: "dark",
    dark: true,
    show: async (page) => {
      await state(page, "emergency-stop");
      await openFinding(page, 2);
    },
  },
];

/** @param {string} name @param {Buffer} png */
function keep(name, png) {
  if (png.length > MOST_BYTES)
    throw new Error(`${name}.png would have ${png.length} bytes, more than ${MOST_BYTES}: show less of it.`);
  fs.mkdirSync(INTO, { recursive: true });
  fs.writeFileSync(path.join(INTO, `${name}.png`), png);
  console.log(`assets/pictures/${name}.png: ${Math.round(png.length / 1000)} kB`);
}

/** @returns {string} the first sheet of the demo, as `draw` writes it */
function drawnSheet() {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-pictures-"));
  try {
    const words = ["draw", `demo-projects/${FAULTY}/${FAULTY}.loomwright`, "--out", folder];
    const run = spawnSync(process.execPath, ["electron/command-line/launch.mjs", ...words], {
      cwd: ROOT,
      encoding: "utf8",
    });
    const [first] = fs.readdirSync(folder).sort();
    if (run.status !== 0 || first === undefined) throw new Error(`The sheet was not drawn: ${run.stderr}`);
    return fs.readFileSync(path.join(folder, first), "utf8");
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/** @returns {Promise<number>} the exit code */
async function takePictures() {
  if (!ensureInstalled()) return 2;
  const { bundled } = await import("./harness/bundled.mjs");
  const { WindowHarness } = await bundled(path.join(ROOT, "tests/harness/window.ts"));
  const harness = await WindowHarness.start();
  if (harness === undefined) {
    console.error("No pictures: no Chromium is installed; install one, or name one in LOOMWRIGHT_BROWSER.");
    return 2;
  }
  try {
    for (const { name, dark = false, show } of VIEWS) {
      const opened = await harness.open({ query: `demo=${FAULTY}`, dark });
      opened.page.setDefaultTimeout(10_000);
      await opened.settled();
      await show(opened.page);
      // Leader lines and the scroll to a place are drawn after the click that asked for them.
      await opened.page.waitForTimeout(800);
      keep(name, await opened.page.screenshot({ animations: "disabled" }));
      await opened.close();
    }
    const opened = await harness.open({ query: "new" });
    await opened.page.setViewportSize({ width: 1280, height: 905 });
    const svg = drawnSheet().replace(/^<\?xml[^>]*>\s*/, "");
    await opened.page.evaluate((/** @type {string} */ text) => {
      const sheet = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
      sheet.setAttribute("width", "1280");
      sheet.setAttribute("height", "905");
      document.body.replaceChildren(document.importNode(sheet, true));
    }, svg);
    keep("sheet", await opened.page.screenshot());
  } finally {
    await harness.stop();
  }
  return 0;
}

try {
  process.exitCode = await takePictures();
} catch (problem) {
  console.error(`No pictures: ${problem instanceof Error ? problem.message.split("\n")[0] : String(problem)}`);
  process.exitCode = 2;
}
