/** Which view of the drawing stands in the middle: a sheet by name, or the table; and whether the outline is beside it. */
import { useEditor, useSurroundings } from "./editor-context.ts";
import { NOTHING } from "./selection.ts";
import { useShell, useShellParts } from "./shell-context.ts";

export function SheetBar() {
  const { store } = useSurroundings();
  const { shell, actions } = useShellParts();
  const sheets = useEditor((editor) => editor.history.present.sheets);
  const shown = useEditor((editor) => editor.sheet);
  const table = useEditor((editor) => editor.table);
  const outline = useShell((state) => state.outline);
  return (
    <nav className="sheet-bar" aria-label="Views of the drawing">
      {sheets.map(({ id, name }) => (
        <button
          key={id}
          type="button"
          aria-current={!table && id === shown ? "page" : undefined}
          onClick={() => store.set({ sheet: id, table: false, ...(id === shown ? {} : { selection: NOTHING }) })}
        >
          Sheet {name}
        </button>
      ))}
      <button type="button" onClick={() => actions.find(({ id }) => id === "add-sheet")?.run()}>
        Add a sheet
      </button>
      <span className="sheet-bar-gap" />
      <button
        type="button"
        aria-current={table ? "page" : undefined}
        onClick={() => store.set({ table: !store.now.table })}
      >
        Table
      </button>
      <button type="button" aria-pressed={outline} onClick={() => shell.toggleOutline()}>
        Outline
      </button>
    </nav>
  );
}
