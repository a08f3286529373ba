/**
 * A test double of the electron module. It is not Electron: a window is a page of the Chromium that is installed, driven
 * from outside; the program under test is the one that is shipped, byte for byte. Only what the program uses is here, so
 * that anything new fails loudly. What it cannot prove stands in README.md beside it.
 */
import { EventEmitter } from "node:events";
import * as fs from "node:fs";
import Module from "node:module";
import * as os from "node:os";
import * as path from "node:path";
import type * as Electron from "electron";
import type { Browser, BrowserContext, Page } from "playwright-core";
import type { Template } from "./double-menu.ts";
import { DoubleMenu } from "./double-menu.ts";
import type { WindowOptions, WindowOwner } from "./double-window.ts";
import { DoubleEvent, DoubleWindow } from "./double-window.ts";

type Answerer = (request: Request) => Response | Promise<Response>;
type Invoked = (event: unknown, ...given: unknown[]) => unknown;
type BeforeRequest = (
  details: { readonly url: string },
  decide: (answer: { readonly cancel?: boolean }) => void,
) => void;
type PermissionRequest = (page: unknown, permission: string, decide: (granted: boolean) => void) => void;

export interface DoubleOptions {
  /** Whose pages the windows are; several programs may share it, each has storage of its own. */
  readonly browser: Browser;
  /** false: another program holds the lock already. */
  readonly onlyInstance?: boolean;
  /** The folder of settings, to begin again where another run ended; otherwise a new one. */
  readonly userData?: string;
  /** What stands on the command line after the program. */
  readonly words?: readonly string[];
}

export class ElectronDouble implements WindowOwner {
  readonly log: { readonly kind: string; readonly detail: unknown }[] = [];
  /** What the page or the preload complained of, and every request that was refused. */
  readonly problems: string[] = [];
  windows: DoubleWindow[] = [];
  menu: DoubleMenu | null = null;
  readonly ipc = new EventEmitter();
  readonly app = new EventEmitter();
  readonly module: Readonly<Record<string, unknown>>;
  readonly userData: string;
  readonly exited: Promise<void>;
  isReady = false;
  permissionRequest: PermissionRequest | undefined;
  permissionCheck: (() => boolean) | undefined;
  devicePermission: (() => boolean) | undefined;
  #beforeRequest: BeforeRequest | undefined;
  #context: BrowserContext | undefined;
  readonly #browser: Browser;
  #quitting = false;
  #end: () => void = () => undefined;
  readonly #privileged = new Set<string>();
  readonly #schemes = new Map<string, Answerer>();
  readonly #handlers = new Map<string, Invoked>();

  constructor({ browser, onlyInstance = true, userData }: DoubleOptions) {
    this.#browser = browser;
    this.userData = userData ?? fs.mkdtempSync(path.join(os.tmpdir(), "loomwright-double-"));
    this.exited = new Promise((resolve) => (this.#end = resolve));
    const windowOf = (options: WindowOptions): DoubleWindow => new DoubleWindow(this, options);
    class BrowserWindow {
      constructor(options: WindowOptions) {
        return windowOf(options);
      }
    }
    this.module = {
      app: this.#appDouble(onlyInstance),
      BrowserWindow,
      Menu: {
        buildFromTemplate: (template: readonly Template[]) => new DoubleMenu(template),
        setApplicationMenu: (menu: DoubleMenu | null) => (this.menu = menu),
        getApplicationMenu: () => this.menu,
      },
      dialog: Object.fromEntries(
        ["showOpenDialog", "showSaveDialog", "showMessageBoxSync"].map((name) => [name, () => this.#unprepared(name)]),
      ),
      ipcMain: Object.assign(this.ipc, {
        handle: (channel: string, handler: Invoked) => this.#handle(channel, handler),
      }),
      protocol: {
        registerSchemesAsPrivileged: (schemes: readonly { readonly scheme: string }[]) => {
          this.#onlyBefore("protocol.registerSchemesAsPrivileged");
          for (const { scheme } of schemes) this.#privileged.add(scheme);
        },
        handle: (scheme: string, answerer: Answerer) => {
          if (!this.isReady) throw new Error("double: protocol.handle before the app is ready");
          if (!this.#privileged.has(scheme)) throw new Error(`double: ${scheme} was not registered as privileged`);
          this.#schemes.set(scheme, answerer);
        },
      },
      session: { defaultSession: this.#sessionDouble() },
    };
  }

  #appDouble(onlyInstance: boolean): EventEmitter {
    return Object.assign(this.app, {
      isPackaged: false,
      commandLine: { hasSwitch: () => false },
      whenReady: () => this.#start(),
      getPath: (name: string) => {
        if (name !== "userData") throw new Error(`double: no path "${name}" is prepared`);
        return this.userData;
      },
      requestSingleInstanceLock: () => onlyInstance,
      enableSandbox: () => this.#onlyBefore("app.enableSandbox"),
      addRecentDocument: (file: string) => void this.log.push({ kind: "recent", detail: file }),
      quit: () => void this.quit(),
    });
  }

  #sessionDouble(): unknown {
    return {
      setPermissionRequestHandler: (handler: PermissionRequest) => (this.permissionRequest = handler),
      setPermissionCheckHandler: (handler: () => boolean) => (this.permissionCheck = handler),
      setDevicePermissionHandler: (handler: () => boolean) => (this.devicePermission = handler),
      webRequest: { onBeforeRequest: (handler: BeforeRequest) => (this.#beforeRequest = handler) },
    };
  }

  get context(): BrowserContext {
    if (this.#context === undefined) throw new Error("double: Chromium does not run yet");
    return this.#context;
  }

  #onlyBefore(what: string): void {
    if (this.isReady) throw new Error(`${what} should be called before app is ready`);
  }

  /** A dialog that no test prepared an answer for is a mistake, never a silent default. */
  #unprepared(name: string): never {
    const problem = `dialog.${name} was opened but the test prepared no answer`;
    this.problems.push(problem);
    throw new Error(problem);
  }

  #handle(channel: string, handler: Invoked): void {
    if (this.#handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    this.#handlers.set(channel, handler);
  }

  async invoke(channel: string, event: unknown, given: readonly unknown[]): Promise<unknown> {
    const handler = this.#handlers.get(channel);
    if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
    return handler(event, ...given);
  }

  /** What the program answers under its own scheme; undefined when it, or the double, refuses. Nothing ever goes out. */
  async fetch(url: string, method: string): Promise<Response | undefined> {
    let cancelled = false;
    this.#beforeRequest?.({ url }, ({ cancel }) => (cancelled = cancel === true));
    const answerer = this.#schemes.get(url.slice(0, url.indexOf(":")));
    if (!cancelled && answerer !== undefined) return answerer(new Request(url, { method }));
    this.log.push({ kind: cancelled ? "request cancelled" : "request of no scheme", detail: url });
    return undefined;
  }

  async #start(): Promise<void> {
    this.#context = await this.#browser.newContext();
    this.isReady = true;
    this.app.emit("ready", {});
  }

  async quit(): Promise<void> {
    if (this.#quitting) return;
    this.#quitting = true;
    this.app.emit("before-quit", new DoubleEvent());
    for (const window of [...this.windows]) {
      window.close();
      if (!window.isDestroyed()) {
        this.#quitting = false;
        return;
      }
    }
    await this.#context?.close();
    this.#end();
  }

  opened(window: DoubleWindow): void {
    this.windows.push(window);
  }

  gone(window: DoubleWindow): void {
    this.windows = this.windows.filter((each) => each !== window);
    if (this.windows.length === 0 && !this.#quitting) this.app.emit("window-all-closed");
  }
}

type ElectronModule = typeof Electron;

/** The program under test, whichever runs it: the shape is that of Playwright's ElectronApplication. */
export interface DesktopProgram {
  firstWindow(): Promise<Page>;
  evaluate<Result, Given>(
    work: (electron: ElectronModule, given: Given) => Result | Promise<Result>,
    given: Given,
  ): Promise<Result>;
  close(): Promise<void>;
  /** Only where the double runs it. */
  readonly double?: ElectronDouble;
}

const LONGEST_START_MS = 20_000;

async function firstWindow(double: ElectronDouble): Promise<Page> {
  for (const begun = Date.now(); Date.now() - begun < LONGEST_START_MS; ) {
    const page = await double.windows[0]?.ready;
    if (page !== undefined) {
      await page.locator("[data-ready=true]").waitFor();
      return page;
    }
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`the program made no window: ${double.problems.join("; ")}`);
}

/** Loads the built program as Electron would, with the double in Electron's place. */
function load(main: string, double: ElectronDouble, words: readonly string[]): void {
  const loader = Module as unknown as { _load: (request: string, ...more: unknown[]) => unknown };
  const real = loader._load;
  const argv = process.argv;
  loader._load = (request, ...more) => (request === "electron" ? double.module : real.call(loader, request, ...more));
  process.argv = ["electron", main, ...words];
  try {
    const require = Module.createRequire(main);
    Reflect.deleteProperty(require.cache, require.resolve(main));
    require(main);
  } finally {
    loader._load = real;
    process.argv = argv;
  }
}

export function launchDouble(
  main: string,
  options: DoubleOptions,
): DesktopProgram & { readonly double: ElectronDouble } {
  const double = new ElectronDouble(options);
  load(main, double, options.words ?? []);
  return {
    double,
    firstWindow: () => firstWindow(double),
    evaluate: async (work, given) => await work(double.module as unknown as ElectronModule, given),
    close: async () => {
      for (const window of double.windows) window.removeAllListeners("close");
      await double.quit();
    },
  };
}
