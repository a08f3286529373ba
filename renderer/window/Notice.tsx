/** One sentence at the foot of the drawing: why an edit was refused, what was saved. Spoken, too. */
import { useEditor, useSurroundings } from "./editor-context.ts";

export function Notice() {
  const { store } = useSurroundings();
  const notice = useEditor((editor) => editor.notice);
  return (
    <div className="notice" role="status" data-empty={notice === null}>
      {notice !== null && (
        <>
          <span>{notice}</span>
          <button type="button" className="notice-away" onClick={() => store.set({ notice: null })}>
            Put away
          </button>
        </>
      )}
    </div>
  );
}
