/**
 * The drawing in words: a tree of its parts with their terminals, and of its wires. For finding things, for views that
 * stand on no sheet yet, and for those who do not see the sheet.
 */
import { useEffect, useId, useMemo, useState } from "react";
import type { KeyboardEvent } from "react";
import { terminalKey, pinPlaces } from "../../../core/layout/placed-view.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { focusSheet } from "../sheet/drawing-state.ts";
import type { DrawingStore } from "../sheet/drawing-state.ts";
import { useDrawingStore } from "../sheet/use-drawing.ts";
import "./outline.css";
import { outlineRows } from "./outline-rows.ts";
import type { OutlineRow, OutlineTarget } from "./outline-rows.ts";

const NONE: ReadonlySet<string> = new Set();

export function Outline() {
  const { store } = useSurroundings();
  const drawing = useDrawingStore();
  const project = useEditor((editor) => editor.history.present);
  const [find, setFind] = useState("");
  const [toggled, setToggled] = useState(NONE);
  const [at, setAt] = useState("");
  const id = useId();
  const rows = useMemo(() => outlineRows(project, find, toggled), [project, find, toggled]);
  const index = Math.max(
    0,
    rows.findIndex(({ key }) => key === at),
  );
  const current = rows[index];
  const idOf = ({ key }: OutlineRow): string => `${id}-${key.replaceAll(" ", "-")}`;
  const shown = current === undefined ? undefined : idOf(current);
  useEffect(() => {
    if (shown !== undefined && at !== "") document.getElementById(shown)?.scrollIntoView({ block: "nearest" });
  }, [shown, at]);

  const go = (row: OutlineRow | undefined): void => {
    if (row !== undefined) setAt(row.key);
  };
  const toggle = ({ key }: OutlineRow): void => {
    const next = new Set(toggled);
    if (!next.delete(key)) next.add(key);
    setToggled(next);
  };
  const activate = (row: OutlineRow): void => {
    go(row);
    if (row.target.what === "group") toggle(row);
    else carryOut(row.target, store, drawing);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (current === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    switch (event.key) {
      case "ArrowDown":
        go(rows[index + 1]);
        break;
      case "ArrowUp":
        go(rows[index - 1]);
        break;
      case "Home":
        go(rows[0]);
        break;
      case "End":
        go(rows.at(-1));
        break;
      case "ArrowRight":
        if (current.open === false) toggle(current);
        else if (current.open === true) go(rows[index + 1]);
        break;
      case "ArrowLeft":
        if (current.open === true) toggle(current);
        else go(rows.slice(0, index).findLast(({ level }) => level < current.level));
        break;
      case "Enter":
      case " ":
        activate(current);
        break;
      default:
        return;
    }
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <section className="outline" aria-label="Outline">
      <input
        type="search"
        aria-label="Find a part or a wire"
        placeholder="Find a part or a wire"
        autoComplete="off"
        spellCheck={false}
        value={find}
        onChange={({ target }) => setFind(target.value)}
        onKeyDown={({ key }) => {
          const first = rows.find(({ target }) => target.what !== "group");
          if (key === "ArrowDown" && first !== undefined) {
            go(first);
            document.getElementById(`${id}-tree`)?.focus();
          } else if (key === "Enter" && first !== undefined) activate(first);
        }}
      />
      <div
        id={`${id}-tree`}
        className="outline-tree"
        role="tree"
        aria-label="Parts and wires"
        tabIndex={0}
        aria-activedescendant={shown}
        onKeyDown={onKeyDown}
      >
        {rows.map((row) => (
          <Row key={row.key} id={idOf(row)} row={row} current={row === current} toggle={toggle} activate={activate} />
        ))}
      </div>
    </section>
  );
}

interface RowProps {
  readonly id: string;
  readonly row: OutlineRow;
  readonly current: boolean;
  readonly toggle: (row: OutlineRow) => void;
  readonly activate: (row: OutlineRow) => void;
}

function Row({ id, row, current, toggle, activate }: RowProps) {
  const { target, level, open, name, more, position, count } = row;
  const selected = useEditor(({ selection }) =>
    target.what === "part"
      ? selection.parts.includes(target.part)
      : target.what === "wire" && selection.wires.includes(target.wire),
  );
  return (
    <div
      id={id}
      className="outline-row"
      role="treeitem"
      aria-level={level}
      aria-posinset={position}
      aria-setsize={count}
      aria-expanded={open}
      aria-selected={selected}
      aria-label={`${name}, ${more}${target.what === "place" ? ": on no sheet. Enter places it" : ""}`}
      data-current={current || undefined}
      data-level={level}
      onClick={() => activate(row)}
    >
      <span
        className="outline-sign"
        aria-hidden
        onClick={(event) => {
          if (open === undefined) return;
          event.stopPropagation();
          toggle(row);
        }}
      >
        {open === undefined ? "" : open ? "−" : "+"}
      </span>
      <span className="outline-name">{name}</span>
      <span className="outline-more">{more}</span>
      {target.what === "place" && <span className="outline-place">Place</span>}
    </div>
  );
}

/** Selects it and brings it into view; a terminal is given the keyboard on the sheet; an absent view hangs at the pointer. */
function carryOut(target: Exclude<OutlineTarget, { what: "group" }>, store: EditorStore, drawing: DrawingStore): void {
  const again = { shown: drawing.getState().shown + 1 };
  switch (target.what) {
    case "part":
      drawing.setState({ ...again, cursor: null });
      store.select({ parts: [target.part] });
      break;
    case "wire":
      drawing.setState(again);
      store.select({ wires: [target.wire] });
      break;
    case "terminal": {
      const [part] = target.end;
      const place = pinPlaces(store.project).get(terminalKey(target.end));
      store.set({ table: false, ...(place === undefined ? {} : { sheet: place.sheet }) });
      drawing.setState({ ...again, cursor: { on: "terminal", end: target.end } });
      store.set({ hovered: target.end });
      store.select({ parts: [part] });
      requestAnimationFrame(focusSheet);
      break;
    }
    case "place":
      store.set({ table: false });
      drawing.setState({
        placing: { what: "view", part: target.part, view: target.view, turn: 0, mirrored: false },
        at: null,
        wiring: null,
      });
      requestAnimationFrame(focusSheet);
      break;
  }
}
