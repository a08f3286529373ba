/**
 * The shelf at the left edge: every kind of part as its symbol. A narrow strip that opens under the pointer, with the
 * keyboard's focus, or when a letter is typed on the sheet. What is taken hangs at the pointer until it is put down.
 */
import { useEffect, useId, useMemo, useRef, useState } from "react";
import type { CSSProperties, FocusEvent, KeyboardEvent } from "react";
import { union } from "../../../core/geometry/boxes.ts";
import { readValues } from "../../../core/parts/values.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { DisplayListSvg } from "../sheet/DisplayListSvg.tsx";
import { focusSheet } from "../sheet/drawing-state.ts";
import { viewBoxOf } from "../sheet/scale.ts";
import { useDrawing, useDrawingStore } from "../sheet/use-drawing.ts";
import "./shelf.css";
import { shelfGroups } from "./shelf-search.ts";
import type { ShelfRow } from "./shelf-search.ts";

/** Off the paper a symbol takes the colours of the window. */
const WINDOW_INKS = {
  "--draw-ink": "var(--ink)",
  "--draw-faint": "var(--ink-quiet)",
  "--draw-traction": "var(--ink)",
  "--draw-auxiliary": "var(--ink)",
  "--draw-protective": "var(--ink)",
  "--draw-paper": "var(--margin)",
} as CSSProperties;

/** The pointer may cross the strip, or slip off the shelf, without opening or closing it. */
const OPEN_AFTER_MS = 120;
const CLOSE_AFTER_MS = 350;

export function Shelf() {
  const drawing = useDrawingStore();
  const asked = useDrawing(({ shelf }) => shelf !== null);
  const [hovering, setHovering] = useState(false);
  const timer = useRef(0);
  const hover = (now: boolean): void => {
    clearTimeout(timer.current);
    timer.current = setTimeout(() => setHovering(now), now ? OPEN_AFTER_MS : CLOSE_AFTER_MS);
  };
  const close = (): void => {
    clearTimeout(timer.current);
    setHovering(false);
    drawing.setState({ shelf: null });
  };
  const open = asked || hovering;
  return (
    <section
      className="shelf"
      aria-label="Shelf of parts"
      style={WINDOW_INKS}
      onPointerEnter={({ pointerType, buttons }) => pointerType === "mouse" && buttons === 0 && hover(true)}
      onPointerLeave={() => hover(false)}
      onBlur={(event: FocusEvent) => {
        if (!event.currentTarget.contains(event.relatedTarget)) drawing.setState({ shelf: null });
      }}
    >
      <button
        type="button"
        className="shelf-strip"
        aria-expanded={open}
        tabIndex={open ? -1 : 0}
        onFocus={() => drawing.setState({ shelf: { typed: "" } })}
        onClick={() => drawing.setState({ shelf: { typed: "" } })}
      >
        <span>Parts</span>
      </button>
      {open && <Panel asked={asked} close={close} />}
    </section>
  );
}

function Panel({ asked, close }: { readonly asked: boolean; readonly close: () => void }) {
  const { store } = useSurroundings();
  const drawing = useDrawingStore();
  const parts = useEditor((editor) => editor.history.present.parts);
  const typed = useDrawing(({ shelf }) => shelf?.typed ?? "");
  const [at, setAt] = useState(0);
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const groups = useMemo(() => shelfGroups(typed, parts), [typed, parts]);
  const rows = groups.flatMap((group) => group.rows);
  const active = Math.min(at, rows.length - 1);
  const idOf = (index: number): string => `${list}-${String(index)}`;
  useEffect(() => {
    if (asked) field.current?.focus();
  }, [asked]);
  useEffect(() => {
    document.getElementById(idOf(active))?.scrollIntoView({ block: "nearest" });
  });

  const take = ({ kind }: PartKindRow): void => {
    if (store.now.table) store.set({ table: false });
    drawing.setState({ placing: { what: "kind", kind: kind.kind, turn: 0, mirrored: false }, at: null, wiring: null });
    close();
    // The sheet may only now come back in place of the table.
    requestAnimationFrame(focusSheet);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const chosen = rows[active];
    if (event.key === "Escape") {
      close();
      focusSheet();
    } else if (event.key === "Enter" && chosen !== undefined) take(chosen);
    else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      const step = event.key === "ArrowDown" ? 1 : -1;
      if (rows.length > 0) setAt((active + step + rows.length) % rows.length);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  let index = -1;
  return (
    <div className="shelf-panel">
      <input
        ref={field}
        type="text"
        role="combobox"
        aria-label="Find a part by any of its names"
        aria-autocomplete="list"
        aria-expanded
        aria-controls={list}
        aria-activedescendant={active >= 0 ? idOf(active) : undefined}
        placeholder="Find a part by any of its names"
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={({ target }) => {
          drawing.setState({ shelf: { typed: target.value } });
          setAt(0);
        }}
        onFocus={() => drawing.setState({ shelf: { typed } })}
        onKeyDown={onKeyDown}
      />
      <div id={list} className="shelf-list" role="listbox" aria-label="Parts">
        {groups.map(({ name, rows: inGroup }) => (
          <div key={name} role="group" aria-label={name}>
            <div className="shelf-group" aria-hidden>
              {name}
            </div>
            {inGroup.map((row) => {
              index += 1;
              return (
                <Row key={row.kind.kind} id={idOf(index)} row={row} chosen={asked && index === active} take={take} />
              );
            })}
          </div>
        ))}
      </div>
      {rows.length === 0 && (
        <p className="shelf-none">No part goes by that name. Try another: fuse, relay, isolator, motor, lamp.</p>
      )}
    </div>
  );
}

type PartKindRow = Pick<ShelfRow, "kind">;

interface RowProps {
  readonly id: string;
  readonly row: ShelfRow;
  readonly chosen: boolean;
  readonly take: (row: ShelfRow) => void;
}

function Row({ id, row, chosen, take }: RowProps) {
  const { kind, met } = row;
  return (
    <div
      id={id}
      className="shelf-row"
      role="option"
      aria-selected={chosen}
      title={kind.explanation}
      data-kind={kind.kind}
      // Pressing must not take the focus from the field, which would close the shelf before the click arrives.
      onMouseDown={(event) => event.preventDefault()}
      onClick={() => take(row)}
    >
      <Symbol kind={kind} />
      <span>
        {kind.title}
        {met !== undefined && <span className="shelf-met">{met}</span>}
      </span>
    </div>
  );
}

/** The kind's first view as it is before anything is stated of it. */
function Symbol({ kind }: { readonly kind: PartKind }) {
  const view = useMemo(() => kind.views(readValues(kind, {}))[0], [kind]);
  const box = view === undefined ? undefined : union([view.box]);
  if (view === undefined || box === undefined) return null;
  return (
    <svg className="shelf-symbol" aria-hidden viewBox={viewBoxOf(box)}>
      <DisplayListSvg list={view.symbol} />
    </svg>
  );
}
