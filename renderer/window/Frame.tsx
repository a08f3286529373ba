/**
 * The window: stages along the top edge, shelf at the left, sheet in the middle, margin at the right, operating states
 * along the foot. Each region belongs to its own folder; here they are only given their places.
 */
import { useEffect } from "react";
import { Leaders } from "../check/Leaders.tsx";
import { Margin } from "../check/Margin.tsx";
import { Outline } from "../draw/outline/Outline.tsx";
import { Sheet } from "../draw/sheet/Sheet.tsx";
import { Shelf } from "../draw/shelf/Shelf.tsx";
import { Table } from "../draw/table/Table.tsx";
import { ByHand } from "../energise/by-hand/ByHand.tsx";
import { InTime } from "../energise/in-time/InTime.tsx";
import { ShownInstead } from "../energise/ShownInstead.tsx";
import { StateStrip } from "../energise/StateStrip.tsx";
import { TerminalCard } from "../energise/TerminalCard.tsx";
import { CommandField } from "./CommandField.tsx";
import { Dialogs } from "./dialogs/Dialogs.tsx";
import { EditorContext, useEditor } from "./editor-context.ts";
import { isDirty } from "./editor-store.ts";
import { Notice } from "./Notice.tsx";
import { Region } from "./Region.tsx";
import { SheetBar } from "./SheetBar.tsx";
import { ShellContext, useShell, useShellParts } from "./shell-context.ts";
import { Stages } from "./Stages.tsx";
import type { WindowParts } from "./start-editor.ts";

export function Frame({ surroundings }: { readonly surroundings: WindowParts }) {
  return (
    <EditorContext value={surroundings}>
      <ShellContext value={surroundings}>
        <Regions />
      </ShellContext>
    </EditorContext>
  );
}

function Regions() {
  const table = useEditor((editor) => editor.table);
  const working = useEditor((editor) => editor.working);
  const ready = useShell((shell) => shell.ready);
  const outline = useShell((shell) => shell.outline);
  useDroppedFiles();
  return (
    <div className="frame" data-ready={ready} data-analysis={working ? "working" : "settled"}>
      <header className="frame-top">
        <FileName />
        <Stages />
        <CommandField />
      </header>
      <div className="frame-shelf">
        <Region name="The shelf">
          <Shelf />
        </Region>
      </div>
      <main className="frame-middle">
        <SheetBar />
        <ShownInstead />
        <div className="frame-drawing">
          {outline && (
            <div className="frame-outline">
              <Region name="The outline">
                <Outline />
              </Region>
            </div>
          )}
          <div className="frame-paper">
            <Region key={table ? "table" : "sheet"} name={table ? "The table" : "The sheet"}>
              {table ? <Table /> : <Sheet />}
            </Region>
          </div>
        </div>
        <Notice />
      </main>
      <aside className="frame-margin" aria-label="Margin">
        <Region name="The margin">
          <Margin />
        </Region>
      </aside>
      <footer className="frame-strip">
        <Region name="The controls">
          <ByHand />
        </Region>
        <Region name="What happens in time">
          <InTime />
        </Region>
        <Region name="The strip of states">
          <StateStrip />
        </Region>
      </footer>
      <div className="frame-over">
        <Region name="What lies over the sheet">
          {!table && <Leaders />}
          <TerminalCard />
        </Region>
      </div>
      <Dialogs />
    </div>
  );
}

/** The drawing's name; pressing it opens the field from which it can be saved, exported or left for another. */
function FileName() {
  const { actions } = useShellParts();
  const name = useEditor((editor) => editor.fileName);
  const dirty = useEditor(isDirty);
  const plain = name.replace(/\.loomwright$/, "");
  useEffect(() => {
    document.title = `${dirty ? "Unsaved: " : ""}${plain} - Loomwright`;
  }, [plain, dirty]);
  return (
    <h1 className="frame-name">
      <button type="button" title={name} onClick={() => actions.find(({ id }) => id === "command-field")?.run()}>
        <span className="frame-name-text">{plain}</span>
        {dirty && <span className="frame-unsaved">unsaved</span>}
      </button>
    </h1>
  );
}

/** A file dropped anywhere on the window is opened; the browser must not leave the page for it. */
function useDroppedFiles(): void {
  const { files } = useShellParts();
  useEffect(() => {
    const carriesFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
    const over = (event: DragEvent): void => {
      if (carriesFile(event)) event.preventDefault();
    };
    const drop = (event: DragEvent): void => {
      if (!carriesFile(event)) return;
      event.preventDefault();
      const dropped = event.dataTransfer?.files[0];
      if (dropped !== undefined) void files.openDropped(dropped);
    };
    addEventListener("dragover", over);
    addEventListener("drop", drop);
    return () => {
      removeEventListener("dragover", over);
      removeEventListener("drop", drop);
    };
  }, [files]);
}
