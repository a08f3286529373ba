/** The stages of the job along the top edge, with what is still missing beside each. */
import { useMemo } from "react";
import { useEditor, useSurroundings } from "./editor-context.ts";
import { STAGES } from "./editor-store.ts";
import { missingAt } from "./missing.ts";
import { STAGE_NAMES } from "./stage-names.ts";

export function Stages() {
  const { store } = useSurroundings();
  const current = useEditor((editor) => editor.stage);
  const project = useEditor((editor) => editor.history.present);
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const missing = useMemo(() => STAGES.map((stage) => missingAt(stage, project, checked)), [project, checked]);
  return (
    <nav className="stages" aria-label="Stages of the job">
      {STAGES.map((stage, index) => (
        <button
          key={stage}
          type="button"
          className="stage"
          aria-current={stage === current ? "step" : undefined}
          title={missing[index] === "" ? undefined : missing[index]}
          onClick={() => store.set({ stage })}
        >
          <span className="stage-name">{STAGE_NAMES[stage]}</span>
          {missing[index] !== "" && <span className="stage-missing"> · {missing[index]}</span>}
        </button>
      ))}
    </nav>
  );
}
