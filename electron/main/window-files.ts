/** What the window asks about files: the system's dialogs, and the files behind the tokens. */
import * as fs from "node:fs/promises";
import * as path from "node:path";
import type { BrowserWindow } from "electron";
import type { FileRef, OpenedFile, SaveResult } from "../../core/host/host.ts";
import { atomicSave } from "../files/atomic-save.ts";
import type { ChangeWatch } from "../files/change-watch.ts";
import { FileProblem, writingProblem } from "../files/file-problem.ts";
import type { FileTokens } from "../files/file-tokens.ts";
import type { RecentFiles } from "../files/recent-files.ts";
import { SaveQueue } from "../files/save-queue.ts";
import type { ElectronApi } from "./electron-api.ts";
import type { ExportedFile } from "./shapes.ts";

const ENDING = ".loomwright";
const DRAWINGS = [{ name: "Loomwright drawing", extensions: ["loomwright"] }];
const CANCELLED: SaveResult = { saved: false, why: "cancelled" };

interface Means {
  readonly dialog: ElectronApi["dialog"];
  readonly window: () => BrowserWindow;
  readonly tokens: FileTokens;
  readonly recent: RecentFiles;
  readonly watch: ChangeWatch;
  /** Tells the system's own list of recent documents. */
  readonly tellSystem: (file: string) => void;
}

/** What a name suggests, without what could lead to another folder. */
const suggested = (name: string): string =>
  name.replace(/[/\\\0<>:"|?*]/g, "-").replace(/^\.+/, "") || `Untitled${ENDING}`;

const exists = (file: string): Promise<boolean> =>
  fs.stat(file).then(
    () => true,
    () => false,
  );

/** What a person can mend comes back as a sentence; anything else is this program's fault and stays one. */
async function outcome(work: () => Promise<SaveResult>): Promise<SaveResult> {
  try {
    return await work();
  } catch (cause) {
    if (cause instanceof FileProblem) return { saved: false, why: "failed", text: cause.message };
    throw cause;
  }
}

export class WindowFiles {
  readonly #means: Means;
  readonly #saves = new SaveQueue<SaveResult>();

  constructor(means: Means) {
    this.#means = means;
  }

  async open(): Promise<OpenedFile | null> {
    const { dialog, window } = this.#means;
    const { canceled, filePaths } = await dialog.showOpenDialog(window(), {
      properties: ["openFile"],
      filters: DRAWINGS,
    });
    const [file] = filePaths;
    return canceled || file === undefined ? null : this.openPath(file);
  }

  /** @throws FileProblem */
  async openPath(file: string): Promise<OpenedFile> {
    const { token } = await this.#means.tokens.grant(file);
    return this.openToken(token);
  }

  /** @throws FileProblem */
  async openToken(token: string): Promise<OpenedFile> {
    const { file, bytes } = await this.#means.tokens.read(token);
    await this.#isCurrent(token);
    return { file, name: file.name, bytes };
  }

  save(token: string | null, name: string, bytes: Uint8Array, overwriteChanged: boolean): Promise<SaveResult> {
    if (token === null) return this.saveAs(name, bytes);
    return outcome(() =>
      this.#saves.save(token, async () => {
        if (!overwriteChanged && (await this.#means.tokens.changed(token)))
          return { saved: false, why: "changed-on-disk" };
        return this.#write(token, bytes);
      }),
    );
  }

  async saveAs(name: string, bytes: Uint8Array): Promise<SaveResult> {
    const { dialog, window, tokens } = this.#means;
    const chosen = await dialog.showSaveDialog(window(), { defaultPath: suggested(name), filters: DRAWINGS });
    if (chosen.canceled || chosen.filePath === "") return CANCELLED;
    const named = path.extname(chosen.filePath) === "" ? `${chosen.filePath}${ENDING}` : chosen.filePath;
    // The dialog has asked about the name as it was typed, not about the one with the ending.
    if (named !== chosen.filePath && (await exists(named)) && !this.#mayReplace([path.basename(named)]))
      return CANCELLED;
    return outcome(async () => {
      const { token } = await tokens.grant(named);
      return this.#saves.save(token, () => this.#write(token, bytes));
    });
  }

  async exportFiles(files: readonly ExportedFile[]): Promise<SaveResult> {
    const [only] = files;
    if (files.length === 1 && only !== undefined) return this.#exportOne(only);
    const { dialog, window } = this.#means;
    const chosen = await dialog.showOpenDialog(window(), {
      properties: ["openDirectory", "createDirectory"],
      buttonLabel: "Export here",
    });
    const [folder] = chosen.filePaths;
    if (chosen.canceled || folder === undefined) return CANCELLED;
    const there = new Set((await fs.readdir(folder).catch((): string[] => [])).map((name) => name.toLowerCase()));
    const replaced = files.map(({ name }) => name).filter((name) => there.has(name.toLowerCase()));
    if (replaced.length > 0 && !this.#mayReplace(replaced)) return CANCELLED;
    return outcome(async () => {
      for (const { name, bytes } of files) await atomicSave(path.join(folder, name), bytes, { backup: false });
      return { saved: true, file: null };
    });
  }

  async recentFiles(): Promise<readonly FileRef[]> {
    const paths = await this.#means.recent.paths();
    return Promise.all(paths.map((file) => this.#means.tokens.grant(file)));
  }

  async #exportOne({ name, bytes }: ExportedFile): Promise<SaveResult> {
    const extensions = [path.extname(name).slice(1)];
    const { dialog, window } = this.#means;
    const chosen = await dialog.showSaveDialog(window(), {
      defaultPath: name,
      filters: [{ name: "Export", extensions }],
    });
    if (chosen.canceled || chosen.filePath === "") return CANCELLED;
    return outcome(async () => {
      await atomicSave(chosen.filePath, bytes, { backup: false });
      return { saved: true, file: null };
    });
  }

  async #write(token: string, bytes: Uint8Array): Promise<SaveResult> {
    const { tokens } = this.#means;
    const file = tokens.pathOf(token);
    if (file === undefined) throw new FileProblem("This drawing has no file here yet. Save it under a name first.");
    await atomicSave(file, bytes, { backup: true });
    try {
      await tokens.wrote(token, bytes);
    } catch (cause) {
      throw writingProblem(path.basename(file), cause);
    }
    await this.#isCurrent(token);
    return { saved: true, file: tokens.refOf(token) };
  }

  async #isCurrent(token: string): Promise<void> {
    const { tokens, recent, watch, tellSystem } = this.#means;
    const file = tokens.pathOf(token);
    if (file === undefined) return;
    watch.turnTo(token);
    tellSystem(file);
    await recent.add(file);
  }

  #mayReplace(names: readonly string[]): boolean {
    const [first = ""] = names;
    const message =
      names.length === 1 ? `${first} is there already.` : `${names.length} of these files are there already.`;
    const answer = this.#means.dialog.showMessageBoxSync(this.#means.window(), {
      type: "question",
      message,
      detail: "What they hold is replaced. To keep it, choose another place.",
      buttons: ["Replace", "Cancel"],
      defaultId: 1,
      cancelId: 1,
    });
    return answer === 0;
  }
}
