/** The desktop program: one window, the page in it, and what the two may do. Electron itself is handed in. */
import * as fs from "node:fs/promises";
import * as path from "node:path";
import type { BrowserWindow } from "electron";
import { ChangeWatch } from "../files/change-watch.ts";
import { FileProblem } from "../files/file-problem.ts";
import { FileTokens } from "../files/file-tokens.ts";
import { PreferencesFile } from "../files/preferences.ts";
import { RecentFiles } from "../files/recent-files.ts";
import { RecoveryStore } from "../files/recovery.ts";
import { ASK, SAY, TELL } from "./channels.ts";
import { CloseGuard } from "./close-guard.ts";
import { Demos } from "./demos.ts";
import type { ElectronApi } from "./electron-api.ts";
import { fencePage, fenceSession } from "./fences.ts";
import { Gate } from "./gate.ts";
import { menuTemplate } from "./menu.ts";
import { PAGE, SCHEME, answerPage } from "./page-address.ts";
import { RequestedFiles, namedDrawing } from "./requested-files.ts";
import * as shapes from "./shapes.ts";
import { WindowFiles } from "./window-files.ts";

/** Switches that would open the running program to another. */
const DOORS = ["remote-debugging-port", "remote-debugging-pipe", "inspect", "inspect-brk"];

/** @param dist absolute: the folder that holds preload.cjs, renderer/ and demos/ */
export function startApp(electron: ElectronApi, dist: string): void {
  const { app } = electron;
  const opened = app.isPackaged && DOORS.some((door) => app.commandLine.hasSwitch(door));
  if (opened || !app.requestSingleInstanceLock()) return app.quit();
  new Program(electron, dist).start();
}

class Program {
  readonly #electron: ElectronApi;
  readonly #dist: string;
  #window: BrowserWindow | undefined;
  /** The page is being ended on purpose. */
  #ending = false;
  readonly #requested = new RequestedFiles();
  readonly #tokens = new FileTokens();
  readonly #watch = new ChangeWatch(this.#tokens, (token) => this.#tell(TELL.changedOnDisk, token));
  readonly #recovery: RecoveryStore;
  readonly #preferences: PreferencesFile;
  readonly #files: WindowFiles;
  readonly #guard: CloseGuard;

  constructor(electron: ElectronApi, dist: string) {
    const { app, dialog } = electron;
    const own = app.getPath("userData");
    this.#electron = electron;
    this.#dist = dist;
    this.#recovery = new RecoveryStore(path.join(own, "recovery"));
    this.#preferences = new PreferencesFile(path.join(own, "preferences.json"));
    this.#files = new WindowFiles({
      dialog,
      window: () => this.#open(),
      tokens: this.#tokens,
      recent: new RecentFiles(path.join(own, "recent.json")),
      watch: this.#watch,
      tellSystem: (file) => app.addRecentDocument(file),
    });
    this.#guard = new CloseGuard({
      ask: () => this.#askAboutUnsaved(),
      save: () => this.#tell(TELL.menu, "save"),
      forget: () => this.#recovery.dropOwned(),
      close: () => this.#window?.close(),
      quit: () => app.quit(),
    });
  }

  /** Everything that must be said before Electron is ready is said in this first moment. */
  start(): void {
    const { app, ipcMain, protocol } = this.#electron;
    app.enableSandbox();
    protocol.registerSchemesAsPrivileged([
      { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
    // macOS hands over a double-clicked file before the program is ready.
    app.on("open-file", (event, file) => {
      event.preventDefault();
      this.#requested.ask(file);
    });
    app.on("second-instance", (_event, words, folder) => {
      this.#requested.ask(namedDrawing(words, folder));
      if (this.#window?.isMinimized() === true) this.#window.restore();
      this.#window?.focus();
    });
    app.on("web-contents-created", (_event, page) => fencePage(page));
    app.on("before-quit", () => this.#guard.quitting());
    app.on("window-all-closed", () => app.quit());
    this.#requested.ask(namedDrawing(process.argv, process.cwd()));
    this.#listen(new Gate(ipcMain, () => this.#window?.webContents));
    void app.whenReady().then(() => this.#ready());
  }

  async #ready(): Promise<void> {
    const { app, Menu, protocol, session } = this.#electron;
    await fs.mkdir(app.getPath("userData"), { recursive: true });
    protocol.handle(SCHEME, (request) => answerPage(path.join(this.#dist, "renderer"), request));
    fenceSession(session.defaultSession);
    const template = menuTemplate((action) => this.#tell(TELL.menu, action), !app.isPackaged);
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
    this.#window = this.#newWindow();
    await this.#window.loadURL(PAGE);
  }

  #newWindow(): BrowserWindow {
    const { app, BrowserWindow } = this.#electron;
    const window = new BrowserWindow({
      width: 1440,
      height: 900,
      minWidth: 900,
      minHeight: 600,
      show: false,
      webPreferences: {
        preload: path.join(this.#dist, "preload.cjs"),
        sandbox: true,
        contextIsolation: true,
        nodeIntegration: false,
        webviewTag: false,
        webSecurity: true,
        spellcheck: false,
        devTools: !app.isPackaged,
      },
    });
    window.on("ready-to-show", () => window.show());
    window.on("close", (event) => {
      if (!this.#guard.mayClose()) event.preventDefault();
    });
    window.on("closed", () => {
      this.#watch.stop();
      this.#requested.hold();
      this.#window = undefined;
    });
    // Windows only: the person signs out or the computer is switched off.
    window.on("query-session-end", () => this.#guard.systemEnds());
    window.on("session-end", () => this.#guard.systemEnds());
    window.on("unresponsive", () => this.#offerReload("The window does not answer.", "Wait"));
    window.webContents.on("render-process-gone", (_event, { reason }) => {
      if (reason !== "clean-exit" && !this.#ending) this.#offerReload("The window broke off.", "Close");
    });
    return window;
  }

  #listen(gate: Gate): void {
    const { NAME, BYTES, TOKEN } = shapes;
    const [files, recovery, demos] = [this.#files, this.#recovery, new Demos(path.join(this.#dist, "demos"))];
    gate.answer(ASK.openFile, [], () => files.open());
    gate.answer(ASK.openRecent, [TOKEN], (token) => files.openToken(token));
    gate.answer(ASK.openDropped, [shapes.DROPPED], (file) => files.openPath(file));
    gate.answer(
      ASK.saveFile,
      [shapes.TOKEN_OR_NULL, NAME, BYTES, shapes.FLAG],
      async (token, name, bytes, overwrite) => {
        const result = await files.save(token, name, bytes, overwrite);
        if (!result.saved) this.#guard.notSaved();
        return result;
      },
    );
    gate.answer(ASK.saveFileAs, [NAME, BYTES], (name, bytes) => files.saveAs(name, bytes));
    gate.answer(ASK.exportFiles, [shapes.EXPORTS], (exported) => files.exportFiles(exported));
    gate.answer(ASK.recentFiles, [], () => files.recentFiles());
    gate.answer(ASK.demos, [], () => demos.list());
    gate.answer(ASK.openDemo, [NAME], (id) => demos.open(id));
    gate.answer(ASK.writeRecovery, [TOKEN, NAME, shapes.DRAWING_TEXT], (id, name, text) =>
      recovery.write(id, name, text),
    );
    gate.answer(ASK.dropRecovery, [TOKEN], (id) => recovery.drop(id));
    gate.answer(ASK.listRecoveries, [], () => recovery.list());
    gate.answer(ASK.loadPreferences, [], () => this.#preferences.load());
    gate.answer(ASK.savePreferences, [shapes.PREFERENCES], (text) => this.#preferences.save(text));
    gate.hear(SAY.begun, [], () => {
      recovery.disown();
      this.#guard.begun();
      this.#requested.hold();
    });
    gate.hear(SAY.dirty, [shapes.FLAG], (dirty) => {
      this.#window?.setDocumentEdited(dirty);
      this.#guard.dirty(dirty);
    });
    gate.hear(SAY.takesFiles, [], () => this.#requested.deliver((file) => void this.#handOver(file)));
  }

  /** A file that the system asked for goes to the page; what stands in the way is said at once. */
  async #handOver(file: string): Promise<void> {
    try {
      this.#tell(TELL.openRequest, await this.#files.openPath(file));
    } catch (cause) {
      if (!(cause instanceof FileProblem)) throw cause;
      this.#electron.dialog.showMessageBoxSync(this.#open(), {
        type: "warning",
        message: cause.message,
        buttons: ["Close"],
      });
    }
  }

  #askAboutUnsaved(): "save" | "discard" | "keep" {
    const answer = this.#electron.dialog.showMessageBoxSync(this.#open(), {
      type: "warning",
      message: "The drawing has unsaved changes.",
      detail: "They are lost unless you save them.",
      buttons: ["Save the changes", "Discard the changes", "Keep working"],
      defaultId: 0,
      cancelId: 2,
      noLink: true,
    });
    return answer === 0 ? "save" : answer === 1 ? "discard" : "keep";
  }

  #offerReload(message: string, otherwise: "Wait" | "Close"): void {
    const window = this.#open();
    const answer = this.#electron.dialog.showMessageBoxSync(window, {
      type: "warning",
      message,
      detail: "Loading it again offers the unsaved work that was set aside, at most 20 seconds old.",
      buttons: ["Load it again", otherwise],
      defaultId: 0,
      cancelId: 1,
    });
    if (answer === 0) this.#loadAgain(window);
    else if (otherwise === "Close") window.destroy();
  }

  /** A page that hangs would hold up the one that takes its place: it is ended first, without asking a second time. */
  #loadAgain(window: BrowserWindow): void {
    this.#ending = true;
    if (!window.webContents.isCrashed()) window.webContents.forcefullyCrashRenderer();
    void window.loadURL(PAGE).finally(() => (this.#ending = false));
  }

  #open(): BrowserWindow {
    if (this.#window === undefined) throw new Error("there is no window to ask in");
    return this.#window;
  }

  #tell(channel: string, what: unknown): void {
    if (this.#window !== undefined && !this.#window.isDestroyed()) this.#window.webContents.send(channel, what);
  }
}
