/** Starts the built program for a test: on the double, or on Electron itself where it is on this machine. */
import * as fs from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { _electron } from "playwright-core";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";
import type { TestContext } from "vitest";
import { findElectron, hasDisplay } from "../../electron/find-electron.mjs";
import { DIST, MAIN, buildDesktop } from "../../electron/main/build.mjs";
import { buildRenderer } from "../../electron/web-server/build.mjs";
import { NO_BROWSER, startBrowser } from "../harness/browser.ts";
import { launchDouble } from "./electron-double.ts";
import type { DesktopProgram, DoubleOptions, ElectronDouble } from "./electron-double.ts";

const ROOT = path.resolve(import.meta.dirname, "../..");

export const newFolder = (): string => fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-desktop-"));

/** A folder of settings of a person who has read the cautions. */
export function readySettings(): string {
  const folder = newFolder();
  fs.writeFileSync(path.join(folder, "preferences.json"), JSON.stringify({ cautionsRead: true }));
  return folder;
}

/** The built program; LOOMWRIGHT_DESKTOP names the folder of another build, in which a mistake was planted. */
const builtProgram = (): string => path.join(process.env["LOOMWRIGHT_DESKTOP"] ?? DIST, path.basename(MAIN));

let browser: Browser | undefined;

/** Builds what is stale and starts the one browser that all doubles share; call it before the tests. */
export async function prepare(): Promise<void> {
  browser = await startBrowser();
  await buildRenderer(() => undefined);
  await buildDesktop(() => undefined);
}

export const finish = async (): Promise<void> => browser?.close();

/** Starts the built program on the double, without waiting for a window; undefined where there is no browser. */
export function begin(
  options: Omit<DoubleOptions, "browser">,
): (DesktopProgram & { readonly double: ElectronDouble }) | undefined {
  return browser === undefined
    ? undefined
    : launchDouble(builtProgram(), { userData: readySettings(), ...options, browser });
}

/** Why Electron itself cannot run the tests here, or undefined. REQUIRE_ELECTRON turns that into a failure. */
function withoutElectron(): string | undefined {
  if (findElectron() === undefined) return "not run: Electron itself is not on this machine (only its package is)";
  return hasDisplay() ? undefined : "not run: Electron is there, but no display (xvfb-run -a gives one)";
}

async function launchElectron(): Promise<DesktopProgram> {
  const program = await _electron.launch({
    executablePath: findElectron() ?? "",
    args: [...(process.getuid?.() === 0 ? ["--no-sandbox"] : []), `--user-data-dir=${readySettings()}`, ROOT],
    cwd: ROOT,
  });
  return {
    firstWindow: async () => {
      const page = await program.firstWindow();
      await page.locator("[data-ready=true]").waitFor();
      return page;
    },
    evaluate: (work, given) => program.evaluate(work as never, given as never),
    close: () => program.close(),
  };
}

export interface Launched {
  readonly program: DesktopProgram;
  readonly page: Page;
}

const PATIENCE_MS = 8000;

/** Runs a test in the program on Electron itself. */
export async function inElectron(context: TestContext, test: (launched: Launched) => Promise<void>): Promise<void> {
  const missing = withoutElectron();
  if (missing !== undefined && process.env["REQUIRE_ELECTRON"] !== undefined) throw new Error(missing);
  if (missing !== undefined) return context.skip(missing);
  const program = await launchElectron();
  try {
    await test({ program, page: await program.firstWindow() });
  } finally {
    await program.close();
  }
}

export interface LaunchedDouble extends Launched {
  readonly double: ElectronDouble;
}

/** Runs a test in the program on the double; whatever the page or the preload complained of fails it. */
export async function inDouble(
  context: TestContext,
  options: Omit<DoubleOptions, "browser">,
  test: (launched: LaunchedDouble) => Promise<void>,
): Promise<void> {
  const program = begin(options);
  if (program === undefined) return context.skip(NO_BROWSER);
  try {
    const page = await program.firstWindow();
    page.setDefaultTimeout(PATIENCE_MS);
    await test({ program, page, double: program.double });
    expect(program.double.problems).toEqual([]);
  } finally {
    await program.close();
  }
}
