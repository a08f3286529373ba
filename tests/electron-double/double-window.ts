/** A double of Electron's BrowserWindow and its web contents: a page of a real Chromium. */
import { randomBytes } from "node:crypto";
import { EventEmitter } from "node:events";
import * as fs from "node:fs";
import * as path from "node:path";
import type { BrowserContext, CDPSession, Page, Route } from "playwright-core";
import { decode, encode } from "./codec.ts";
import type { DoubleMenu, Key } from "./double-menu.ts";
import { pageWorldScript, preloadScript } from "./page-scripts.ts";

const STAND_IN = ".app.invalid";
/** app://bundle/x <-> https://bundle.app.invalid/x: Chromium cannot be given a scheme from outside. */
const toChromium = (address: string): string =>
  address.replace(/^app:\/\/([^/]+)/, (_all, host: string) => `https://${host}${STAND_IN}`);
const toElectron = (address: string): string => address.replace(/^https:\/\/([^/]+)\.app\.invalid/, "app://$1");

export class DoubleEvent {
  defaultPrevented = false;
  preventDefault(): void {
    this.defaultPrevented = true;
  }
}

export interface WindowOptions {
  readonly width?: number;
  readonly height?: number;
  readonly webPreferences?: {
    readonly preload?: string;
    readonly sandbox?: boolean;
    readonly contextIsolation?: boolean;
    readonly nodeIntegration?: boolean;
    readonly webviewTag?: boolean;
    readonly webSecurity?: boolean;
  };
}

/** What a window needs of the program it belongs to. */
export interface WindowOwner {
  readonly isReady: boolean;
  readonly context: BrowserContext;
  readonly app: EventEmitter;
  readonly ipc: EventEmitter;
  readonly menu: DoubleMenu | null;
  readonly log: { readonly kind: string; readonly detail: unknown }[];
  readonly problems: string[];
  opened(window: DoubleWindow): void;
  gone(window: DoubleWindow): void;
  fetch(url: string, method: string): Promise<Response | undefined>;
  invoke(channel: string, event: unknown, given: readonly unknown[]): Promise<unknown>;
}

type OpenHandler = (details: { readonly url: string }) => { readonly action: "allow" | "deny" };

class DoubleWebContents extends EventEmitter {
  mainFrame: { url: string; parent: null } = { url: "", parent: null };
  openHandler: OpenHandler = () => ({ action: "allow" });
  readonly #window: DoubleWindow;

  constructor(window: DoubleWindow) {
    super();
    this.#window = window;
  }

  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }

  /** A page cannot really break off here; a test says so by the event. */
  isCrashed(): boolean {
    return true;
  }

  send(channel: string, ...given: unknown[]): void {
    this.#window.toPreload({ kind: "tell", channel, given: given.map(encode) });
  }
}

type FromPreload =
  | { readonly kind: "preload-broke"; readonly text: string }
  | { readonly kind: "send"; readonly channel: string; readonly given: readonly unknown[] }
  | { readonly kind: "invoke"; readonly channel: string; readonly given: readonly unknown[]; readonly id: number }
  | ({ readonly kind: "key" } & Key);

const WORLD = "preload-double";

export class DoubleWindow extends EventEmitter {
  readonly webContents: DoubleWebContents;
  readonly ready: Promise<Page>;
  edited = false;
  readonly #double: WindowOwner;
  readonly #options: WindowOptions;
  #cdp: CDPSession | undefined;
  #world = 0;
  #loading = false;
  #destroyed = false;

  constructor(double: WindowOwner, options: WindowOptions) {
    super();
    const { sandbox, contextIsolation, nodeIntegration, webviewTag, webSecurity, preload } =
      options.webPreferences ?? {};
    if (!double.isReady) throw new Error("Cannot create BrowserWindow before app is ready");
    if (
      sandbox !== true ||
      contextIsolation !== true ||
      nodeIntegration !== false ||
      webviewTag === true ||
      webSecurity === false
    )
      throw new Error("double: only sandboxed, isolated windows without Node are allowed");
    if (preload === undefined || !path.isAbsolute(preload)) throw new Error("preload script must have absolute path");
    this.#double = double;
    this.#options = options;
    this.webContents = new DoubleWebContents(this);
    double.opened(this);
    double.app.emit("web-contents-created", {}, this.webContents);
    this.ready = this.#begin(preload);
    this.ready.catch((cause: unknown) => double.problems.push(String(cause)));
  }

  async #begin(preload: string): Promise<Page> {
    const double = this.#double;
    const page = await double.context.newPage();
    await page.setViewportSize({ width: this.#options.width ?? 800, height: this.#options.height ?? 600 });
    const cdp = await double.context.newCDPSession(page);
    this.#cdp = cdp;
    const secret = randomBytes(16).toString("hex");
    const binding = `b${randomBytes(8).toString("hex")}`;
    const { frameTree } = await cdp.send("Page.getFrameTree");
    cdp.on("Runtime.executionContextCreated", ({ context }) => {
      const { frameId } = (context.auxData ?? {}) as { readonly frameId?: string };
      if (context.name === WORLD && frameId === frameTree.frame.id) this.#world = context.id;
    });
    cdp.on("Page.frameNavigated", ({ frame }) => {
      if (frame.parentId === undefined) this.webContents.mainFrame = { url: toElectron(frame.url), parent: null };
    });
    cdp.on("Runtime.bindingCalled", ({ name, payload, executionContextId }) => {
      if (name === binding && executionContextId === this.#world) void this.#hear(JSON.parse(payload) as FromPreload);
    });
    await cdp.send("Runtime.enable");
    await cdp.send("Page.enable");
    // Bound in the preload's world only: the page never sees it.
    await cdp.send("Runtime.addBinding", { name: binding, executionContextName: WORLD });
    await cdp.send("Page.addScriptToEvaluateOnNewDocument", { source: pageWorldScript(secret) });
    const source = preloadScript(secret, fs.readFileSync(preload, "utf8"), binding);
    await cdp.send("Page.addScriptToEvaluateOnNewDocument", { source, worldName: WORLD });
    page.on("pageerror", (cause) => double.problems.push(`script: ${cause.stack ?? cause.message}`));
    page.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning")
        double.problems.push(`console: ${message.text()}`);
    });
    page.on("popup", (popup) => this.#judgePopup(popup));
    page.on("load", () => this.emit("ready-to-show"));
    await page.route("**/*", (route) => this.#route(route, page));
    return page;
  }

  #judgePopup(popup: Page): void {
    const { action } = this.webContents.openHandler({ url: toElectron(popup.url()) });
    this.#double.log.push({ kind: "popup", detail: action });
    if (action === "deny") void popup.close();
  }

  async #route(route: Route, page: Page): Promise<void> {
    const request = route.request();
    const url = toElectron(request.url());
    if (request.isNavigationRequest() && request.frame() === page.mainFrame() && !this.#loading) {
      const event = new DoubleEvent();
      this.webContents.emit("will-navigate", event, url);
      if (event.defaultPrevented) {
        this.#double.log.push({ kind: "navigation refused", detail: url });
        return route.abort("aborted");
      }
      this.#double.log.push({ kind: "navigation allowed", detail: url });
    }
    const answer = await this.#double.fetch(url, request.method());
    if (answer === undefined) return route.abort("blockedbyclient");
    const body = Buffer.from(await answer.arrayBuffer());
    await route.fulfill({ status: answer.status, headers: Object.fromEntries(answer.headers), body });
  }

  toPreload(message: unknown): void {
    if (this.#destroyed || this.#cdp === undefined) return;
    const expression = `fromMain(${JSON.stringify(JSON.stringify(message))})`;
    this.#cdp.send("Runtime.evaluate", { contextId: this.#world, expression }).then(
      ({ exceptionDetails }) => {
        if (exceptionDetails !== undefined) this.#double.problems.push(`preload: ${exceptionDetails.text}`);
      },
      // The page was closed meanwhile.
      () => undefined,
    );
  }

  async #hear(message: FromPreload): Promise<void> {
    const { webContents } = this;
    if (message.kind === "preload-broke") this.#double.problems.push(`preload: ${message.text}`);
    else if (message.kind === "key") this.#double.menu?.press(message, this);
    else {
      const event = Object.assign(new DoubleEvent(), { sender: webContents, senderFrame: webContents.mainFrame });
      const given = message.given.map(decode);
      if (message.kind === "send") this.#double.ipc.emit(message.channel, event, ...given);
      else {
        const { id } = message;
        try {
          this.toPreload({
            kind: "reply",
            id,
            value: encode(await this.#double.invoke(message.channel, event, given)),
          });
        } catch (cause) {
          const thrown = `Error invoking remote method '${message.channel}': ${String(cause)}`;
          this.toPreload({ kind: "reply", id, thrown });
        }
      }
    }
  }

  async loadURL(address: string): Promise<void> {
    const page = await this.ready;
    this.#loading = true;
    try {
      await page.goto(toChromium(address));
    } finally {
      this.#loading = false;
    }
  }

  close(): void {
    if (this.#destroyed) return;
    const event = new DoubleEvent();
    this.emit("close", event);
    if (!event.defaultPrevented) this.destroy();
  }

  destroy(): void {
    if (this.#destroyed) return;
    this.#destroyed = true;
    void this.ready.then((page) => page.close()).catch(() => undefined);
    this.emit("closed");
    this.#double.gone(this);
  }

  isDestroyed(): boolean {
    return this.#destroyed;
  }

  setDocumentEdited(edited: boolean): void {
    this.edited = edited;
  }

  isMinimized(): boolean {
    return false;
  }

  show(): void {
    this.#double.log.push({ kind: "shown", detail: true });
  }

  focus(): void {
    this.#double.log.push({ kind: "focused", detail: true });
  }
}
