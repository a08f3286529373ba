/**
 * Says what the keyboard does on the sheet, for those who hear the window instead of seeing it. What a terminal carries
 * is said by its card.
 */
import type { Project } from "../../../core/project/document.ts";
import { partById } from "../../../core/project/lookup.ts";
import { useEditor } from "../../window/editor-context.ts";
import type { Cursor, DrawingState } from "./drawing-state.ts";
import { terminalName } from "./wired-to.ts";
import { useDrawing } from "./use-drawing.ts";
import { wiringCaution } from "./wiring-caution.ts";

export function Spoken() {
  const project = useEditor((editor) => editor.history.present);
  const solved = useEditor((editor) => editor.solved);
  const cursor = useDrawing((drawing) => drawing.cursor);
  const placing = useDrawing((drawing) => drawing.placing);
  const wiring = useDrawing((drawing) => drawing.wiring);
  const caution =
    wiring === null || wiring.from === null || wiring.over === null
      ? undefined
      : wiringCaution(project, solved, wiring.from, wiring.over);
  const [wire] = useEditor((editor) => editor.selection.wires);
  const chosen = cursor?.on === "terminal" && wiring === null ? project.wires.find(({ id }) => id === wire) : undefined;
  return (
    <p className="spoken" role="status">
      {[
        sentence(project, cursor, placing, wiring),
        caution ?? "",
        chosen === undefined ? "" : `Wire ${chosen.number} is selected.`,
      ]
        .join(" ")
        .trim()}
    </p>
  );
}

function sentence(
  project: Project,
  cursor: Cursor | null,
  placing: DrawingState["placing"],
  wiring: DrawingState["wiring"],
): string {
  if (placing !== null) return "Move it with the arrow keys, put it down with Enter, put it back with Escape.";
  if (wiring !== null && wiring.by === "keys" && wiring.from !== null) {
    const to =
      wiring.over === null
        ? "go to the other terminal with the arrow keys"
        : `to ${terminalName(project, wiring.over)}`;
    return `Wire from ${terminalName(project, wiring.from)}: ${to}. Enter ends it.`;
  }
  return cursor?.on === "part" ? (partById(project, cursor.part)?.designation ?? "") : "";
}
