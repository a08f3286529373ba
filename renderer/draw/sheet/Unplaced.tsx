/** What stands on no sheet yet, with a button that takes it in hand: a part that gained a contact, a part out of a list. */
import { useMemo } from "react";
import type { Project } from "../../../core/project/document.ts";
import { useEditor } from "../../window/editor-context.ts";
import { focusSheet } from "./drawing-state.ts";
import { unplacedViews } from "./unplaced-views.ts";
import type { UnplacedView } from "./unplaced-views.ts";
import { useDrawing, useDrawingStore } from "./use-drawing.ts";

/** More of them are told by number: the outline lists them all. */
const MOST_SHOWN = 3;

export function Unplaced() {
  const drawing = useDrawingStore();
  const parts = useEditor((editor): Project["parts"] => editor.history.present.parts);
  const busy = useDrawing(({ placing }) => placing !== null);
  const views = useMemo(() => unplacedViews(parts), [parts]);
  if (busy || views.length === 0) return null;
  const take = ({ part, view }: UnplacedView): void => {
    drawing.setState({ placing: { what: "view", part, view, turn: 0, mirrored: false }, at: null, wiring: null });
    focusSheet();
  };
  const more = views.length - MOST_SHOWN;
  return (
    <div className="unplaced" role="group" aria-label="On no sheet yet">
      <span>On no sheet yet:</span>
      {views.slice(0, MOST_SHOWN).map((view) => (
        <button key={`${view.part}/${view.view}`} type="button" onClick={() => take(view)}>
          Place {view.name}
        </button>
      ))}
      {more > 0 && <span>and {more} more, listed in the outline</span>}
    </div>
  );
}
