/**
 * The built window in a real browser, as a person gets it: served on 127.0.0.1 with its strict policy. Whatever the
 * page complains of (console, script that breaks off, policy violation) and every request that leaves this server is
 * kept in `problems`, which a test expects to be empty.
 */
import type { Browser, BrowserContext, Page } from "playwright-core";
import { buildRenderer } from "../../electron/web-server/build.mjs";
import { serve } from "../../electron/web-server/serve.mjs";
import type { Serving } from "../../electron/web-server/serve.mjs";
import { DEFAULTS, writePreferences } from "../../renderer/window/preferences.ts";
import type { Preferences } from "../../renderer/window/preferences.ts";
import { startBrowser } from "./browser.ts";

export interface OpenOptions {
  /** "new" = an empty drawing; "demo=NAME" = that demo; nothing: as a person who starts it. */
  readonly query?: string;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  /** undefined: as on the first start ever. By default the cautions have been read. */
  readonly preferences?: Partial<Preferences> | undefined;
  /** Takes the browser's file pickers away, as in browsers that have none. */
  readonly withoutPickers?: boolean;
  /** The browser keeps nothing: no database, as in some private windows. */
  readonly withoutStorage?: boolean;
}

export interface OpenedWindow {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly problems: readonly string[];
  /** Waits until the newest drawing has been solved and checked. */
  settled(): Promise<void>;
  /** Milliseconds from asking for the page to the drawing standing there, ready for the hand. */
  readyAfter(): Promise<number>;
  close(): Promise<void>;
}

export class WindowHarness {
  readonly #serving: Serving;
  readonly #browser: Browser;

  private constructor(serving: Serving, browser: Browser) {
    this.#serving = serving;
    this.#browser = browser;
  }

  /** undefined where no browser is installed: skip with NO_BROWSER of tests/harness/browser.ts. */
  static async start(): Promise<WindowHarness | undefined> {
    const browser = await startBrowser();
    if (browser === undefined) return undefined;
    const folder = await buildRenderer(() => undefined);
    return new WindowHarness(await serve(folder, 0), browser);
  }

  get url(): string {
    return this.#serving.url;
  }

  /** A window with storage of its own. */
  async open(options: OpenOptions = {}): Promise<OpenedWindow> {
    const { width = 1280, height = 720, dark = false } = options;
    const context = await this.#browser.newContext({
      viewport: { width, height },
      colorScheme: dark ? "dark" : "light",
      acceptDownloads: true,
    });
    const preferences = "preferences" in options ? options.preferences : { cautionsRead: true };
    if (preferences !== undefined) await seed(context, { ...DEFAULTS, cautionsRead: true, ...preferences });
    if (options.withoutPickers === true)
      await context.addInitScript(() => {
        for (const picker of ["showOpenFilePicker", "showSaveFilePicker", "showDirectoryPicker"])
          Reflect.deleteProperty(window, picker);
      });
    if (options.withoutStorage === true)
      await context.addInitScript(() => {
        const refuse = (): never => {
          throw new DOMException("The browser keeps nothing here.", "SecurityError");
        };
        IDBFactory.prototype.open = refuse;
        Storage.prototype.getItem = refuse;
        Storage.prototype.setItem = refuse;
      });
    const problems: string[] = [];
    await watch(context, this.url, problems);
    await markReady(context);
    const page = await context.newPage();
    // Listening from the start: taking choosers over takes the browser a moment, in which one would go by unseen.
    page.on("filechooser", () => undefined);
    await page.goto(`${this.url}${options.query === undefined ? "" : `?${options.query}`}`);
    await page.locator("[data-ready=true]").waitFor();
    return {
      page,
      context,
      problems,
      settled: async () => {
        await page.locator("[data-analysis='settled']").waitFor();
      },
      readyAfter: () => page.evaluate((name) => performance.getEntriesByName(name)[0]?.startTime ?? NaN, READY),
      close: () => context.close(),
    };
  }

  async stop(): Promise<void> {
    await this.#browser.close();
    await this.#serving.close();
  }
}

/** Set once the window is ready and its sheet painted. */
const READY = "ready";

async function markReady(context: BrowserContext): Promise<void> {
  await context.addInitScript((name) => {
    const look = (): void => {
      const ready = document.querySelector("[data-ready=true] .paper") !== null;
      if (ready) performance.mark(name);
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, READY);
}

/** Only where nothing is kept yet: what the window itself keeps must survive a reload. */
async function seed(context: BrowserContext, preferences: Preferences): Promise<void> {
  await context.addInitScript((text) => {
    // The blank page that every page is before its first address has no storage.
    if (location.protocol !== "http:") return;
    if (localStorage.getItem("loomwright-preferences") === null) localStorage.setItem("loomwright-preferences", text);
  }, writePreferences(preferences));
}

async function watch(context: BrowserContext, url: string, problems: string[]): Promise<void> {
  context.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") problems.push(`console: ${message.text()}`);
  });
  context.on("weberror", (given) => problems.push(`script: ${given.error().stack ?? given.error().message}`));
  context.on("request", (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(blob|data):/.test(address)) problems.push(`outside request: ${address}`);
  });
  await context.addInitScript(() => {
    addEventListener("securitypolicyviolation", (event) => {
      console.error(`policy violation: ${event.effectiveDirective} ${event.blockedURI}`);
    });
  });
}
