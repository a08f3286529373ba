/** Says so above the sheet while the drawing shows something other than the state that is lit on the strip. */
import { Button } from "../controls/Button.tsx";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import "./shown-instead.css";

export function ShownInstead() {
  const { store } = useSurroundings();
  const name = useEditor((editor) => editor.beside?.name);
  if (name === undefined) return null;
  return (
    <p className="shown-instead" role="status">
      <span>The drawing shows: {name}</span>
      <Button
        look="link"
        onClick={() => {
          const { faults } = store.now;
          store.set({ beside: null, inTime: null, faults: faults === null ? null : { shown: null } });
        }}
      >
        Show it without
      </Button>
    </p>
  );
}
