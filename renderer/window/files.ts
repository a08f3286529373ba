/**
 * Everything between the drawing and files: open, save, export, recent, demos, recovery, and the questions that belong
 * to them. Nothing unsaved is ever left without asking.
 */
import type { FileRef, Host, OpenedFile, Recovery, SaveResult } from "../../core/host/host.ts";
import { decodeUtf8 } from "../../core/project/bytes.ts";
import type { Project } from "../../core/project/document.ts";
import type { History } from "../../core/project/history.ts";
import { newProject } from "../../core/project/new-project.ts";
import { readProject } from "../../core/project/read.ts";
import { writeProject } from "../../core/project/write.ts";
import type { EditorStore } from "./editor-store.ts";
import { sheetFiles } from "./export-sheets.ts";
import type { Journal } from "./journal.ts";
import { reportFile } from "./save-report.ts";
import type { Ask } from "./save-report.ts";
import type { Shell } from "./shell.ts";

const ENDING = ".loomwright";

/** What the desktop says is a sentence already, with its remedy; what a browser says needs one round it. */
function sentence(cause: unknown, round: (why: string) => string): string {
  const why = cause instanceof Error ? cause.message : String(cause);
  return why.endsWith(".") && !(cause instanceof DOMException) ? why : round(why);
}

/** A host that breaks off instead of answering must not leave the person in the belief that the file is safe. */
async function answered(step: () => Promise<SaveResult>): Promise<SaveResult> {
  try {
    return await step();
  } catch (cause) {
    const otherwise = (why: string): string => `Nothing was written (${why}). Try again, or choose another place.`;
    return { saved: false, why: "failed", text: sentence(cause, otherwise) };
  }
}

const OVERTAKEN: SaveResult = {
  saved: false,
  why: "failed",
  text: "No report was made: the drawing was changed, or could not be analysed, before every check had answered. Save the report once more.",
};

export class Files {
  readonly #host: Host;
  readonly #store: EditorStore;
  readonly #shell: Shell;
  readonly #journal: Journal;
  readonly #ask: Ask;
  /** How many drawings have stood in the window. */
  #opened = 0;
  /** The empty drawing with which the window begins. */
  readonly #untouched: History;

  constructor(host: Host, store: EditorStore, shell: Shell, journal: Journal, ask: Ask) {
    this.#ask = ask;
    this.#host = host;
    this.#store = store;
    this.#shell = shell;
    this.#journal = journal;
    this.#untouched = store.now.history;
  }

  async startNew(): Promise<void> {
    if (await this.#mayLeave()) this.startEmpty();
  }

  /** An empty drawing on the paper, and with the author, that the person prefers. */
  startEmpty(): void {
    const { paper, author } = this.#shell.now.preferences;
    const empty = newProject();
    const project: Project = {
      ...empty,
      title: author === "" ? {} : { author },
      sheets: empty.sheets.map((sheet) => ({ ...sheet, paper })),
    };
    this.#journal.turnTo();
    this.#show(project, null, `Untitled${ENDING}`);
  }

  async open(): Promise<void> {
    if ((await this.#mayLeave()) && (await this.#mayPick())) await this.#take(() => this.#host.openFile());
  }

  async openRecent(file: FileRef): Promise<void> {
    if (await this.#mayLeave()) await this.#take(() => this.#host.openRecent(file.token));
  }

  async openDemo(id: string): Promise<void> {
    if (await this.#mayLeave()) await this.#take(() => this.#host.openDemo(id));
  }

  /** At the start: a demo, or nothing; unless somebody has been quicker and has drawn or opened something. */
  async showFirst(id: string | undefined): Promise<void> {
    const demo = id === undefined ? null : await this.#host.openDemo(id);
    if (this.#store.now.history !== this.#untouched) return;
    if (demo === null) this.startEmpty();
    else await this.#take(() => Promise.resolve(demo));
  }

  async openDropped(file: unknown): Promise<void> {
    if (await this.#mayLeave()) await this.#take(() => this.#host.openDropped(file));
  }

  /** The system asks for a file: a double click, a second start. */
  async openGiven(file: OpenedFile): Promise<void> {
    if (await this.#mayLeave()) await this.#take(() => Promise.resolve(file));
  }

  /** True when it is saved. */
  async save(): Promise<boolean> {
    const { file, fileName } = this.#store.now;
    return this.#keep((bytes, overwrite) => this.#host.saveFile(file, fileName, bytes, overwrite));
  }

  async saveAs(): Promise<boolean> {
    return this.#keep((bytes) => this.#host.saveFileAs(this.#store.now.fileName, bytes));
  }

  async exportSvg(): Promise<void> {
    const { project } = this.#store;
    const { solved } = this.#store.now;
    const result = await answered(async () => this.#host.exportFiles(await sheetFiles(project, solved)));
    const count = project.sheets.length;
    if (result.saved) this.#tell(count === 1 ? "The sheet is exported." : `${count} sheets are exported.`);
    else if (result.why === "failed") this.#tell(result.text);
  }

  /** Waits for the checks: a report that knows only some of them would say less than it seems to. */
  async saveReport(): Promise<void> {
    const { working, fileName } = this.#store.now;
    if (working) this.#tell("Checks are still running. The report is made as soon as all have answered.");
    const made = new Date().toISOString().slice(0, 10);
    const result = await answered(async () => {
      const file = await reportFile(this.#ask, fileName, made);
      return file === undefined ? OVERTAKEN : this.#host.exportFiles([file]);
    });
    if (result.saved) this.#tell("The findings report is saved. Open it in a browser to read or print it.");
    else if (result.why === "failed") this.#tell(result.text);
  }

  async changedOnDisk(token: string): Promise<void> {
    const { file } = this.#store.now;
    if (file === null || file.token !== token) return;
    const answer = await this.#shell.ask({
      kind: "question",
      title: `${file.name} was changed by another program`,
      text: this.#store.dirty
        ? "What is in this window differs from both. Opening the file again drops your unsaved changes."
        : "What is in this window is now older than the file.",
      choices: [
        { id: "reopen", label: "Open the file again" },
        { id: "keep", label: "Keep what is here" },
      ],
    });
    if (answer === "reopen") await this.#take(() => this.#host.openRecent(file.token));
  }

  async showCautions(first: boolean): Promise<void> {
    await this.#shell.ask({ kind: "cautions", first });
    if (first) this.#shell.prefer({ cautionsRead: true });
  }

  async offerRecovery(recovery: Recovery): Promise<void> {
    const answer = await this.#shell.ask({ kind: "recovery", recovery });
    if (answer === "discard") await this.#host.dropRecovery(recovery.id);
    if (answer !== "recover" || !(await this.#mayLeave())) return;
    const read = readProject(recovery.text);
    if (!read.ok) {
      await this.#shell.ask({ kind: "unreadable", name: recovery.name, problems: read.problems });
      return;
    }
    this.#journal.turnTo(recovery.id);
    this.#show(read.project, null, recovery.name, "never");
    await this.#journal.write();
    this.#tell(`${recovery.name} is recovered as it was; save it to keep it.`);
  }

  async #take(fetch: () => Promise<OpenedFile | null>): Promise<void> {
    let opened: OpenedFile | null;
    try {
      opened = await fetch();
    } catch (cause) {
      const otherwise = (why: string): string =>
        `The system would not hand it over (${why}). Look whether it is still there, or choose another one.`;
      await this.#shell.ask({ kind: "unreadable", name: "The file", problems: [sentence(cause, otherwise)] });
      return;
    }
    if (opened === null) return;
    const decoded = decodeUtf8(opened.bytes, (bytes) => new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes));
    const read = decoded.ok ? readProject(decoded.text) : decoded;
    if (!read.ok) {
      await this.#shell.ask({ kind: "unreadable", name: opened.name, problems: read.problems });
      return;
    }
    this.#journal.turnTo();
    this.#show(read.project, opened.file, opened.name);
    if (read.notes.length > 0) this.#tell(read.notes.join(" "));
    await this.#shell.refreshFiles();
  }

  async #keep(write: (bytes: Uint8Array, overwrite: boolean) => Promise<SaveResult>): Promise<boolean> {
    const { fileName, history } = this.#store.now;
    const written = history.past.at(-1) ?? null;
    const stood = this.#opened;
    const bytes = new TextEncoder().encode(writeProject(history.present));
    let result = await answered(() => write(bytes, false));
    if (!result.saved && result.why === "changed-on-disk") {
      const answer = await this.#aboutChanges(fileName);
      if (answer === "as") return this.saveAs();
      if (answer !== "overwrite") return false;
      result = await answered(() => write(bytes, true));
    }
    if (!result.saved) {
      if (result.why === "failed") this.#tell(result.text);
      return false;
    }
    const name = result.file?.name ?? fileName;
    // By now another drawing may stand in the window: it has nothing to do with this file.
    if (stood === this.#opened) this.#store.markSaved(result.file, name, written);
    this.#tell(this.#host.abilities.saveInPlace ? `${name} is saved.` : `${name} went to your downloads.`);
    await this.#shell.refreshFiles();
    return true;
  }

  #aboutChanges(name: string): Promise<string> {
    return this.#shell.ask({
      kind: "question",
      title: `${name} was changed by another program since you opened it`,
      text: "Saving now replaces those changes. To keep both, save under another name.",
      choices: [
        { id: "overwrite", label: "Replace the file" },
        { id: "as", label: "Save under another name" },
        { id: "keep", label: "Keep working" },
      ],
    });
  }

  /** True when nothing is unsaved, or it has just been saved or given up. */
  async #mayLeave(): Promise<boolean> {
    if (!this.#store.dirty) return true;
    const answer = await this.#shell.ask({
      kind: "question",
      title: `${this.#store.now.fileName} has unsaved changes`,
      text: "They are lost unless you save them.",
      choices: [
        { id: "save", label: "Save the changes" },
        { id: "discard", label: "Discard the changes" },
        { id: "keep", label: "Keep working" },
      ],
    });
    if (answer === "save") return this.save();
    return answer === "discard";
  }

  /** A browser shows its picker only right after a click or a key: if saving has used that up, another is asked for. */
  async #mayPick(): Promise<boolean> {
    const browser = this.#host.kind === "browser" && typeof navigator !== "undefined";
    // Not every browser tells; those that do not are taken at their word.
    const activation = browser ? (navigator as Partial<Navigator>).userActivation : undefined;
    if (activation?.isActive !== false) return true;
    const answer = await this.#shell.ask({
      kind: "question",
      title: "Which drawing do you want to open?",
      text: "The one in the window is saved.",
      choices: [
        { id: "choose", label: "Choose a drawing" },
        { id: "keep", label: "Keep working" },
      ],
    });
    return answer === "choose";
  }

  #show(...drawing: Parameters<EditorStore["open"]>): void {
    this.#opened += 1;
    this.#store.open(...drawing);
  }

  #tell(notice: string): void {
    this.#store.set({ notice });
  }
}
