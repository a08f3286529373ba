/** The command field: one line in which to search, to do and to go somewhere, with the shortcut of each shown. */
import { useId, useMemo, useRef, useState } from "react";
import type { KeyboardEvent } from "react";
import "./command-field.css";
import { COMMAND_FIELD } from "./actions.ts";
import { search } from "./command-search.ts";
import type { Found, Target } from "./command-search.ts";
import { useEditor, useSurroundings } from "./editor-context.ts";
import type { EditorStore } from "./editor-store.ts";
import type { Files } from "./files.ts";
import { useShell, useShellParts } from "./shell-context.ts";
import { shortcutText } from "./shortcut.ts";

export function CommandField() {
  const { store } = useSurroundings();
  const { actions, files } = useShellParts();
  const [typed, setTyped] = useState("");
  const [open, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const found = useFound(typed, open);
  const chosen = found[Math.min(at, found.length - 1)];

  const close = (): void => {
    setOpen(false);
    setTyped("");
    setAt(0);
  };
  const take = ({ target }: Found): void => {
    close();
    field.current?.blur();
    carryOut(target, store, files);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === "Escape") {
      close();
      field.current?.blur();
    } else if (event.key === "Enter" && chosen !== undefined) take(chosen);
    else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      const step = event.key === "ArrowDown" ? 1 : -1;
      if (found.length > 0) setAt((Math.min(at, found.length - 1) + step + found.length) % found.length);
    } else return;
    event.preventDefault();
  };

  return (
    <search className="command-field">
      <input
        ref={field}
        id={COMMAND_FIELD}
        type="text"
        role="combobox"
        aria-label="Search, do or go to something"
        aria-autocomplete="list"
        aria-expanded={open}
        aria-controls={list}
        aria-activedescendant={open && chosen !== undefined ? `${list} ${chosen.key}`.replaceAll(" ", "-") : undefined}
        placeholder={`Search, do, go to   ${shortcutOf(actions, "command-field")}`}
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onFocus={() => setOpen(true)}
        onBlur={close}
        onChange={({ target }) => {
          setTyped(target.value);
          setAt(0);
        }}
        onKeyDown={onKeyDown}
      />
      <ul id={list} role="listbox" aria-label="What can be done or gone to" hidden={!open}>
        {open &&
          found.map((each, index) => (
            <Row
              key={each.key}
              found={each}
              id={`${list} ${each.key}`.replaceAll(" ", "-")}
              first={each.group !== found[index - 1]?.group}
              chosen={each === chosen}
              take={take}
            />
          ))}
        {open && found.length === 0 && (
          <li className="command-none" role="option" aria-selected={false} aria-disabled>
            Nothing is called that. Parts are found by designation (F1) or kind (fuse).
          </li>
        )}
      </ul>
    </search>
  );
}

function useFound(typed: string, open: boolean): readonly Found[] {
  const { actions } = useShellParts();
  const project = useEditor((editor) => editor.history.present);
  const document = useEditor((editor) => editor.checked?.document ?? null);
  const demos = useShell((shell) => shell.demos);
  return useMemo(
    () => (open ? search(typed, { actions, project, findings: document?.findings ?? [], demos }) : []),
    [open, typed, actions, project, document, demos],
  );
}

interface RowProps {
  readonly found: Found;
  readonly id: string;
  /** Opens a group: its name stands above it. */
  readonly first: boolean;
  readonly chosen: boolean;
  readonly take: (found: Found) => void;
}

function Row({ found, id, first, chosen, take }: RowProps) {
  const intoView = (row: HTMLLIElement | null): void => {
    if (chosen) row?.scrollIntoView({ block: "nearest" });
  };
  return (
    <>
      {first && (
        <li className="command-group" role="presentation">
          {found.group}
        </li>
      )}
      <li
        ref={intoView}
        id={id}
        role="option"
        aria-selected={chosen}
        // Pressing must not take the focus from the field, which would close the list before the click arrives.
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => take(found)}
      >
        <span>{found.label}</span>
        {found.beside !== "" && <kbd>{found.beside}</kbd>}
      </li>
    </>
  );
}

const shortcutOf = (actions: ReturnType<typeof useShellParts>["actions"], id: string): string => {
  const shortcut = actions.find((action) => action.id === id)?.shortcut;
  return shortcut === undefined ? "" : shortcutText(shortcut);
};

function carryOut(target: Target, store: EditorStore, files: Files): void {
  switch (target.go) {
    case "action":
      target.action.run();
      break;
    case "part": {
      const place = store.project.parts.find(({ id }) => id === target.id)?.views[0];
      store.set({ table: false, ...(place === undefined ? {} : { sheet: place.sheet }) });
      store.select({ parts: [target.id] });
      break;
    }
    case "wire":
      store.set({ table: false });
      store.select({ wires: [target.id] });
      break;
    case "finding":
      store.set({ stage: "check", finding: target.id, table: false });
      break;
    case "sheet":
      store.set({ sheet: target.id, table: false });
      break;
    case "demo":
      void files.openDemo(target.id);
      break;
  }
}
