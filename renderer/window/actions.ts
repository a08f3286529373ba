/**
 * Everything the window can be told to do, by name: the one list behind the command field, the shortcuts and the
 * system's menu.
 */
import type { MenuAction } from "../../core/host/host.ts";
import { addSheet } from "../../core/project/commands/add-sheet.ts";
import { deleteEntries } from "../../core/project/commands/delete.ts";
import { removeSheet } from "../../core/project/commands/remove-sheet.ts";
import { turnView } from "../../core/project/commands/turn-view.ts";
import type { TurnView } from "../../core/project/commands/turn-view.ts";
import { startFilling } from "../draw/table/filling.ts";
import type { EditorStore, Stage } from "./editor-store.ts";
import { STAGES } from "./editor-store.ts";
import { NOTHING } from "./selection.ts";
import type { Files } from "./files.ts";
import type { Shell } from "./shell.ts";
import type { Shortcut } from "./shortcut.ts";
import { STAGE_NAMES } from "./stage-names.ts";

export interface Action {
  readonly id: string;
  /** A verb with its object, as the command field lists it. */
  readonly name: string;
  /** Other words that a person may search for. */
  readonly also?: string;
  readonly shortcut?: Shortcut;
  /** Further keys that do the same, not shown. */
  readonly alternatives?: readonly Shortcut[];
  readonly run: () => void;
}

interface Means {
  readonly store: EditorStore;
  readonly shell: Shell;
  readonly files: Files;
  /** Hands an action to those who listen to the host's menu: the sheet, for zooming. */
  readonly send: (action: MenuAction) => void;
}

const ctrl = (key: string, shift = false): Shortcut => ({ key, ctrl: true, shift });
const plain = (key: string): Shortcut => ({ key, ctrl: false, shift: false });

export function editorActions(means: Means): readonly Action[] {
  return [...fileActions(means), ...editActions(means), ...viewActions(means), ...windowActions(means)];
}

function fileActions({ shell, files }: Means): Action[] {
  const ask = (kind: "open-demo" | "open-recent") => () => void shell.ask({ kind });
  return [
    { id: "open", name: "Open a drawing", also: "file load", shortcut: ctrl("o"), run: () => void files.open() },
    { id: "save", name: "Save the drawing", also: "file keep", shortcut: ctrl("s"), run: () => void files.save() },
    {
      id: "save-as",
      name: "Save the drawing under another name",
      also: "file copy",
      shortcut: ctrl("s", true),
      run: () => void files.saveAs(),
    },
    { id: "new", name: "Begin an empty drawing", also: "new file blank", run: () => void files.startNew() },
    { id: "open-recent", name: "Open a recent drawing", also: "file last", run: ask("open-recent") },
    { id: "open-demo", name: "Open a demo vehicle", also: "example sample", run: ask("open-demo") },
    {
      id: "export-svg",
      name: "Export all sheets as SVG",
      also: "picture image print",
      shortcut: ctrl("e"),
      run: () => void files.exportSvg(),
    },
    {
      id: "save-report",
      name: "Save the findings report",
      also: "print paper inspector html export pdf not checked",
      run: () => void files.saveReport(),
    },
  ];
}

function editActions({ store, shell }: Means): Action[] {
  const turn = (how: TurnView["how"]) => () => turnSelection(store, how);
  return [
    { id: "undo", name: "Undo the last edit", also: "back", shortcut: ctrl("z"), run: () => store.undo() },
    {
      id: "redo",
      name: "Do the undone edit again",
      also: "redo forward",
      shortcut: ctrl("z", true),
      alternatives: [ctrl("y")],
      run: () => store.redo(),
    },
    {
      id: "delete",
      name: "Delete what is selected",
      also: "remove part wire",
      shortcut: plain("Delete"),
      alternatives: [plain("Backspace")],
      run: () => deleteSelection(store),
    },
    {
      id: "select-all",
      name: "Select everything on the sheet",
      also: "all",
      shortcut: ctrl("a"),
      run: () => selectSheet(store),
    },
    {
      id: "turn-back",
      name: "Turn what is selected anticlockwise",
      also: "rotate left",
      shortcut: plain(","),
      run: turn("anticlockwise"),
    },
    {
      id: "turn",
      name: "Turn what is selected clockwise",
      also: "rotate right",
      shortcut: plain("."),
      run: turn("clockwise"),
    },
    { id: "mirror", name: "Mirror what is selected", also: "flip", shortcut: plain("/"), run: turn("mirror") },
    {
      id: "add-sheet",
      name: "Add a sheet",
      also: "page paper",
      run: () => {
        const name = String(store.project.sheets.length + 1);
        const { paper } = shell.now.preferences;
        const sheet = store.perform(addSheet, { name, paper, orientation: "landscape" });
        if (sheet !== undefined) store.set({ sheet, table: false, selection: NOTHING });
      },
    },
    {
      id: "remove-sheet",
      name: "Take this sheet out; its parts stay in the drawing",
      also: "remove delete page",
      run: () => void store.perform(removeSheet, { sheet: store.now.sheet }),
    },
  ];
}

function viewActions({ store, shell, send }: Means): Action[] {
  const stages = STAGES.map(
    (stage: Stage): Action => ({
      id: `stage-${stage}`,
      name: `Go to the stage ${STAGE_NAMES[stage]}`,
      run: () => store.set({ stage }),
    }),
  );
  return [
    {
      id: "show-table",
      name: "Show the table or the sheet",
      also: "list parts wires",
      shortcut: ctrl("l"),
      run: () => store.set({ table: !store.now.table }),
    },
    {
      id: "fill-in",
      name: "Fill in what is missing",
      also: "not checked data fields",
      run: () => startFilling(store),
    },
    {
      id: "show-outline",
      name: "Show or hide the outline",
      also: "tree parts wires screen reader",
      shortcut: ctrl("j"),
      run: () => shell.toggleOutline(),
    },
    ...stages,
    {
      id: "zoom-in",
      name: "Enlarge the sheet",
      also: "zoom in",
      shortcut: ctrl("+"),
      alternatives: [ctrl("="), ctrl("+", true)],
      run: () => send("zoom-in"),
    },
    {
      id: "zoom-out",
      name: "Make the sheet smaller",
      also: "zoom out",
      shortcut: ctrl("-"),
      run: () => send("zoom-out"),
    },
    {
      id: "zoom-whole",
      name: "Show the whole sheet",
      also: "zoom fit",
      shortcut: ctrl("0"),
      run: () => send("zoom-whole"),
    },
  ];
}

function windowActions({ shell, files }: Means): Action[] {
  const ask = (kind: "preferences" | "about" | "licences") => () => void shell.ask({ kind });
  return [
    {
      id: "command-field",
      name: "Search, do or go to something",
      also: "command find",
      shortcut: ctrl("k"),
      run: () => document.getElementById(COMMAND_FIELD)?.focus(),
    },
    {
      id: "preferences",
      name: "Set preferences",
      also: "units paper author theme dark light awg mm2 settings",
      shortcut: ctrl(","),
      run: ask("preferences"),
    },
    {
      id: "checks",
      name: "Show all checks and how each stands",
      also: "list catalogue rules inspector looked at passed not checked does not apply what is checked help",
      run: () => void shell.ask({ kind: "checks" }),
    },
    { id: "cautions", name: "Read the cautions", also: "safety danger", run: () => void files.showCautions(false) },
    { id: "about", name: "About Loomwright", also: "version help", run: ask("about") },
    { id: "licences", name: "Read the licences", also: "open source", run: ask("licences") },
  ];
}

/** The command field's id, so that its action finds it. */
export const COMMAND_FIELD = "command-field";

/** Turns or mirrors every view of the selected parts that stands on the sheet shown, as one gesture. */
function turnSelection(store: EditorStore, how: TurnView["how"]): void {
  const { selection, sheet } = store.now;
  const chosen = new Set(selection.parts);
  const gesture = crypto.randomUUID();
  for (const part of store.project.parts) {
    if (!chosen.has(part.id)) continue;
    for (const place of part.views)
      if (place.sheet === sheet) store.perform(turnView, { part: part.id, view: place.view, how }, gesture);
  }
}

function deleteSelection(store: EditorStore): void {
  const { parts, wires } = store.now.selection;
  if (parts.length + wires.length > 0) store.perform(deleteEntries, { parts, wires });
}

/** The parts that stand on the sheet shown, and the wires between them. */
function selectSheet(store: EditorStore): void {
  const { sheet } = store.now;
  const parts = store.project.parts.filter(({ views }) => views.some((view) => view.sheet === sheet));
  const here = new Set(parts.map(({ id }) => id));
  const wires = store.project.wires.filter(({ ends }) => ends.every((end) => end !== null && here.has(end[0])));
  store.select({ parts: [...here], wires: wires.map(({ id }) => id) });
}
