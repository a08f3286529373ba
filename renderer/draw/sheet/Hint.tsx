/** A few words beside a wire that is being drawn: which terminal it has reached, and what it would do wrong there. */
import { useStore } from "@xyflow/react";
import type { Point } from "../../../core/geometry/display.ts";
import { useEditor } from "../../window/editor-context.ts";
import { toPixels } from "./scale.ts";
import { terminalName } from "./wired-to.ts";
import { useDrawing } from "./use-drawing.ts";
import { wiringCaution } from "./wiring-caution.ts";

interface Words {
  readonly at: Point;
  readonly text: string;
  readonly caution: string | undefined;
}

export function Hint() {
  const words = useWords();
  const [left, top, zoom] = useStore((flow) => flow.transform);
  const width = useStore((flow) => flow.width);
  if (words === undefined) return null;
  const x = left + toPixels(words.at.x) * zoom;
  const y = top + toPixels(words.at.y) * zoom;
  const side = x > width - 260 ? { right: width - x + 14 } : { left: x + 14 };
  return (
    <div className="hint" style={{ ...side, top: y + 12 }} data-caution={words.caution !== undefined || undefined}>
      <span>{words.text}</span>
      {words.caution !== undefined && <strong>{words.caution}</strong>}
    </div>
  );
}

function useWords(): Words | undefined {
  const project = useEditor((editor) => editor.history.present);
  const solved = useEditor((editor) => editor.solved);
  const wiring = useDrawing((drawing) => drawing.wiring);
  if (wiring === null) return undefined;
  const { from, over, at } = wiring;
  const text = over === null ? "Lead it to a terminal" : terminalName(project, over);
  const caution = from === null || over === null ? undefined : wiringCaution(project, solved, from, over);
  return { at, text, caution };
}
