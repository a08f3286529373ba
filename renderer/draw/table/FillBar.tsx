/** "Fill in what is missing": what the checks lack, counted, and the way from one field to the next. */
import { useMemo } from "react";
import { useStore } from "zustand";
import { checkName, checkNames } from "../../check/numbering.ts";
import { Button } from "../../controls/Button.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { cellFor, missingFields, startFilling, stepFilling, stopFilling } from "./filling.ts";
import { tableOf } from "./table-store.ts";

const values = (count: number): string => (count === 1 ? "1 value is" : `${String(count)} values are`);

export function FillBar() {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const view = useEditor((editor) => editor.checked);
  const checked = view?.document ?? null;
  const filling = useStore(tableOf(store).api, (state) => state.filling);
  const missing = useMemo(() => missingFields(project, checked), [project, checked]);
  const count = missing.length;
  const at = missing.findIndex(({ key }) => key === filling?.key);
  const item = missing[at];
  const waiting = item?.checks ?? [];
  return (
    <div
      className="fill"
      role="group"
      aria-label="Fill in what is missing"
      data-walking={filling !== null || undefined}
    >
      <p className="fill-text" role="status">
        {checked === null ? (
          "Not looked at yet: what is missing shows after the check."
        ) : count === 0 ? (
          "Nothing is missing: no check waits for a value."
        ) : filling === null ? (
          <>
            <b>{values(count)} not stated</b> that checks wait for.
          </>
        ) : item === undefined ? (
          <>
            <b>Stated.</b> {values(count)} still missing.
          </>
        ) : (
          <>
            <span className="fill-place">
              {at + 1} of {count}
            </span>
            <b>
              {item.title}: {item.thing}
            </b>
            <span className="fill-checks">
              {waiting.length === 1 ? "The check waits for it: " : `${String(waiting.length)} checks wait for it: `}
              {checkNames(waiting, checkName(view))}.
              {cellFor(project, item) === undefined && " It is stated in the margin."}
            </span>
          </>
        )}
      </p>
      {count > 0 && filling === null && (
        <Button look="main" onClick={() => startFilling(store)}>
          Fill in what is missing
        </Button>
      )}
      {filling !== null && (
        <>
          {count > 0 && (
            <>
              <Button onClick={() => stepFilling(store, -1)}>Previous</Button>
              <Button look="main" onClick={() => stepFilling(store, 1)}>
                Next
              </Button>
            </>
          )}
          <Button onClick={() => stopFilling(store)}>Leave off</Button>
        </>
      )}
    </div>
  );
}
