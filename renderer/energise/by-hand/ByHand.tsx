/**
 * The controls of the state that shows, to be set by hand: keys, pedals, switches, plugs. What is set makes a state of the
 * person's own, which can be named, kept and taken away again.
 */
import { useEffect, useMemo, useState } from "react";
import { changeState } from "../../../core/project/commands/change-state.ts";
import { removeState } from "../../../core/project/commands/remove-state.ts";
import type { UserState } from "../../../core/project/document.ts";
import { Button } from "../../controls/Button.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { controlsIn, ownState, setControl } from "./controls.ts";
import type { ControlRow } from "./controls.ts";
import "./by-hand.css";

export function ByHand() {
  const { store } = useSurroundings();
  const open = useEditor((editor) => editor.byHand);
  const state = useEditor((editor) => editor.stateName);
  const project = useEditor((editor) => editor.history.present);
  const rows = useMemo(() => (state === null ? [] : controlsIn(project, state)), [project, state]);
  if (!open || state === null) return null;
  const own = ownState(project, state);
  return (
    <section className="by-hand" aria-label={`Controls in ${state}`}>
      <div className="by-hand-head">
        {own === undefined ? (
          <p>
            <b>{state}</b>: set a control and a state of your own begins, with everything else as it is here.
          </p>
        ) : (
          <OwnState own={own} />
        )}
        <Button onClick={() => store.set({ byHand: false })}>Close the controls</Button>
      </div>
      {rows.length === 0 && <p>No part of this drawing is moved by hand.</p>}
      <div className="by-hand-rows">
        {rows.map((row) => (
          <Control key={row.part} row={row} state={state} />
        ))}
      </div>
    </section>
  );
}

function Control({ row, state }: { readonly row: ControlRow; readonly state: string }) {
  const { store } = useSurroundings();
  const { designation, title, positions, position, built } = row;
  return (
    <label className="by-hand-row" data-moved={position !== built || undefined}>
      <span>
        <b>{designation}</b> {title}
      </span>
      <select value={position} onChange={({ target }) => setControl(store, state, row, target.value)}>
        {positions.map((each) => (
          <option key={each} value={each}>
            {each}
          </option>
        ))}
      </select>
      <span className="by-hand-built">{position === built ? "" : `otherwise ${built}`}</span>
    </label>
  );
}

function OwnState({ own: { name, from } }: { readonly own: UserState }) {
  const { store } = useSurroundings();
  const [typed, setTyped] = useState(name);
  useEffect(() => setTyped(name), [name]);
  const rename = (): void => {
    const wanted = typed.trim();
    if (wanted === name) return;
    const before = store.project;
    store.perform(changeState, { state: name, name: wanted });
    if (store.project === before) setTyped(name);
    else store.set({ stateName: wanted });
  };
  return (
    <form
      className="by-hand-name"
      onSubmit={(event) => {
        event.preventDefault();
        rename();
      }}
    >
      <label>
        Your state{" "}
        <input
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={typed}
          title="Lower-case letters, digits and hyphens"
          onChange={({ target }) => setTyped(target.value)}
          onBlur={rename}
        />
      </label>
      <span>as {from}, but for what is marked</span>
      <Button
        onClick={() => {
          store.perform(removeState, { state: name });
          store.set({ stateName: from });
        }}
      >
        Remove the state {name}
      </Button>
    </form>
  );
}
