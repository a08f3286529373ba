/**
 * The cells: moved through, selected, typed into, copied and pasted. Only rows in view are there, and the one that has
 * the keyboard, wherever it is: the keyboard must not fall out of the table when it is scrolled.
 */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { ClipboardEvent, KeyboardEvent } from "react";
import { useStore } from "zustand";
import { partById } from "../../../core/project/lookup.ts";
import { useSurroundings } from "../../window/editor-context.ts";
import type { Asked } from "../facts/asked.ts";
import { blockBetween, isOneCell, moved, pasting, placesIn } from "./block.ts";
import type { Block, Place } from "./block.ts";
import { CellEditor } from "./CellEditor.tsx";
import type { Leaving } from "./CellEditor.tsx";
import { copiedText, shownText } from "./column.ts";
import type { Column } from "./column.ts";
import { missingFields, cellFor, stepFilling } from "./filling.ts";
import { GridRow, Heading } from "./GridRow.tsx";
import { readTabSeparated, writeTabSeparated } from "./tab-separated.ts";
import { tableOf } from "./table-store.ts";
import type { CellName } from "./table-store.ts";
import { useRowsInView } from "./use-rows-in-view.ts";
import { writeCells } from "./write-cells.ts";
import type { Writing } from "./write-cells.ts";

/** Pixels: a row as the tokens have it (--row), and the heading of two lines. */
const ROW = 28;
const HEADING = 44;
const MOST_TOLD = 24;

interface GridProps {
  readonly columns: readonly Column[];
  readonly rows: readonly string[];
  readonly asked: Asked;
}

interface Editing {
  readonly cell: CellName;
  readonly text: string;
  /** Typing replaced what stood there. */
  readonly typed: boolean;
}

export function Grid({ columns, rows, asked }: GridProps) {
  const { store } = useSurroundings();
  const table = tableOf(store);
  const { tab, sorting, active, anchor, focus } = useStore(table.api);
  const scroller = useRef<HTMLDivElement>(null);
  const [begun, setEditing] = useState<Editing | null>(null);
  const [refused, setRefused] = useState(false);
  const { first, last, page } = useRowsInView(scroller, ROW, HEADING, rows.length);
  const rowAt = useMemo(() => new Map(rows.map((id, index) => [id, index])), [rows]);
  const columnAt = useMemo(() => new Map(columns.map(({ id }, index) => [id, index])), [columns]);
  const width = columns.reduce((sum, column) => sum + column.width, 0);

  const placeOf = (cell: CellName | null): Place | undefined => {
    const row = cell === null ? undefined : cell.row === null ? -1 : rowAt.get(cell.row);
    const column = cell === null ? undefined : columnAt.get(cell.column);
    return row === undefined || column === undefined ? undefined : { row, column };
  };
  const nameAt = ({ row, column }: Place): CellName => ({
    row: row === -1 ? null : (rows[row] ?? null),
    column: columns[column]?.id ?? "",
  });
  /** Where the keyboard comes in while nobody has chosen a cell. */
  const at: Place = placeOf(active) ?? { row: rows.length === 0 ? -1 : 0, column: 0 };
  const corner = placeOf(anchor) ?? at;
  // A cell that has gone meanwhile, by an undo from elsewhere, is no longer typed into.
  const isBegun = begun !== null && begun.cell.row === active?.row && begun.cell.column === active.column;
  const editing = isBegun && placeOf(active) !== undefined ? begun : null;
  const block: Block | null = at.row === -1 ? null : blockBetween(corner.row === -1 ? at : corner, at);

  // The cell that was gone to gets the keyboard and is brought into view.
  useLayoutEffect(() => {
    const box = scroller.current;
    if (box === null || table.focused === focus) return;
    table.focused = focus;
    bringIntoView(box, at, columns);
    box.querySelector<HTMLElement>("[data-active]")?.focus({ preventScroll: true });
  });

  // The margin tells of what the cursor stands on, once it has come to rest; of a long block only of the cursor's row.
  const long = block !== null && block.bottom - block.top >= MOST_TOLD;
  const told = block === null || active === null ? [] : long ? [at.row, at.row] : [block.top, block.bottom];
  const chosen = rows.slice(told[0] ?? 0, (told[1] ?? -1) + 1).join(" ");
  useEffect(() => {
    if (chosen === "") return undefined;
    const rest = setTimeout(() => {
      const now = store.now.selection;
      table.told = chosen;
      if ([...now.parts, ...now.wires].join(" ") !== chosen) store.select({ [tab]: chosen.split(" ") });
    }, 80);
    return () => clearTimeout(rest);
  }, [chosen, tab, store, table]);

  const nameOf = (id: string): string =>
    partById(store.project, id)?.designation ??
    `Wire ${store.project.wires.find((wire) => wire.id === id)?.number ?? id}`;
  const write = (cells: readonly (Place & { readonly text: string })[]): string[] => {
    const writings = cells.flatMap(({ row, column, text }): Writing[] => {
      const [id, which] = [rows[row], columns[column]];
      return id === undefined || which === undefined ? [] : [{ row: id, column: which, text }];
    });
    return writeCells(store, writings, nameOf);
  };
  const fillBlock = (text: string): string[] =>
    block === null ? [] : write(placesIn(block).map((place) => ({ ...place, text })));

  const begin = (text: string | null): void => {
    const [id, column] = [rows[at.row], columns[at.column]];
    const cell = id === undefined ? undefined : column?.cell(id);
    if (id === undefined || column === undefined) return;
    if (cell === undefined || column.edit === undefined) {
      const why = cell === undefined ? "it has no such field" : "this column only tells what is drawn";
      table.say([`${nameOf(id)}, ${column.title.toLowerCase()}: ${why}. Choose another cell.`]);
      return;
    }
    table.say([]);
    setRefused(false);
    const here = nameAt(at);
    if (placeOf(active) === undefined) table.set({ active: here, anchor: here });
    setEditing({ cell: here, text: text ?? shownText(cell), typed: text !== null });
  };

  /** The cell in which a walk through what is missing stands. */
  const isWalkedTo = (): boolean => {
    const { filling } = table.now;
    const item = missingFields(store.project, store.now.checked?.document ?? null).find(
      ({ key }) => key === filling?.key,
    );
    const cell = item && cellFor(store.project, item);
    return cell !== undefined && cell.row === active?.row && cell.column === active.column;
  };
  const leave = (text: string, how: Leaving): void => {
    if (editing === null) return;
    if (how === "back") {
      setEditing(null);
      table.say([]);
      table.go(nameAt(at), true);
      return;
    }
    const one = block !== null && isOneCell(block);
    const walked = one && isWalkedTo();
    // What was opened and left as it was says nothing; a usual value is confirmed by Enter only.
    const untouched = how === "away" && !editing.typed && text === editing.text;
    const sentences = untouched ? [] : fillBlock(text);
    table.say(sentences);
    if (sentences.length > 0 && one && how !== "away") {
      setRefused(true);
      return;
    }
    setEditing(null);
    if (how === "away") return;
    if (walked && sentences.length === 0) return stepFilling(store, 1);
    const step = how === "down" ? { row: 1, column: 0 } : { row: 0, column: how === "right" ? 1 : -1 };
    const next: Place = {
      row: Math.min(rows.length - 1, at.row + step.row),
      column: Math.max(0, Math.min(columns.length - 1, at.column + step.column)),
    };
    table.go(nameAt(one ? next : at), !one);
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    if (editing !== null || event.altKey) return;
    const ctrl = event.ctrlKey || event.metaKey;
    const { key, shiftKey } = event;
    const letter = key.toLowerCase();
    const to = moved(at, { key, ctrl }, { rows: rows.length, columns: columns.length, page });
    if (to !== undefined) {
      const extends_ = shiftKey && at.row !== -1;
      table.go(nameAt(extends_ && to.row === -1 ? at : to), extends_);
    } else if (ctrl && letter === "z") {
      if (shiftKey) store.redo();
      else store.undo();
    } else if (ctrl && letter === "y") store.redo();
    else if (ctrl && letter === "a" && rows.length > 0)
      table.block(nameAt({ row: rows.length - 1, column: columns.length - 1 }), nameAt({ row: 0, column: 0 }));
    else if (at.row === -1 && (key === "Enter" || key === " ")) table.sortBy(columns[at.column]?.id ?? "");
    else if (key === "Enter" || key === "F2") begin(null);
    else if (key === "Delete" || key === "Backspace") table.say(fillBlock(""));
    else if (key === "Escape") table.go(nameAt(at));
    else if (!ctrl && key.length === 1 && at.row !== -1) begin(key);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  const copy = (event: ClipboardEvent): void => {
    if (editing !== null || block === null) return;
    event.preventDefault();
    const texts = rows
      .slice(block.top, block.bottom + 1)
      .map((id) => columns.slice(block.left, block.right + 1).map((column) => copiedText(column.cell(id))));
    event.clipboardData.setData("text/plain", writeTabSeparated(texts));
    if (event.type === "cut") table.say(fillBlock(""));
  };
  const paste = (event: ClipboardEvent): void => {
    if (editing !== null || block === null) return;
    event.preventDefault();
    const copied = readTabSeparated(event.clipboardData.getData("text/plain"));
    if (copied.length === 0) return table.say(["There is no text to paste. Copy cells first."]);
    const plan = pasting(block, copied, { rows: rows.length, columns: columns.length });
    const { rows: below, columns: beside } = plan.beyond;
    const sentences = write(plan.cells);
    const lost = [
      ...(below > 0 ? [`${String(below)} of the copied rows reach below the last row and were left out.`] : []),
      ...(beside > 0 ? [`${String(beside)} of the copied columns reach past the last column and were left out.`] : []),
    ];
    table.say([...sentences, ...lost]);
    const { top, left, bottom, right } = plan.block;
    table.block(nameAt({ row: bottom, column: right }), nameAt({ row: top, column: left }));
  };

  const shown = new Set<number>();
  for (let row = first; row <= last; row += 1) shown.add(row);
  if (at.row >= 0) shown.add(at.row);
  const editor = editing !== null && (
    <CellEditor
      key={`${active?.row ?? ""} ${active?.column ?? ""}`}
      text={editing.text}
      selectAll={!editing.typed}
      label={`${nameOf(rows[at.row] ?? "")}, ${columns[at.column]?.title ?? ""}`}
      hint={columns[at.column]?.hint}
      choices={columns[at.column]?.choices?.(rows[at.row] ?? "") ?? []}
      refused={refused}
      leave={leave}
    />
  );
  return (
    <div
      ref={scroller}
      className="grid"
      role="grid"
      aria-label={tab === "parts" ? "Parts" : "Wires"}
      aria-rowcount={rows.length + 1}
      aria-colcount={columns.length}
      aria-multiselectable
      onKeyDown={onKeyDown}
      onCopy={copy}
      onCut={copy}
      onPaste={paste}
    >
      <Heading
        columns={columns}
        width={width}
        sorting={sorting}
        active={at.row === -1 ? at.column : null}
        sortBy={(column) => {
          table.sortBy(column);
          table.go({ row: null, column });
        }}
      />
      <div className="grid-rows" role="rowgroup" style={{ height: rows.length * ROW, width }}>
        {[...shown]
          .sort((a, b) => a - b)
          .map((index) => {
            const id = rows[index];
            if (id === undefined) return null;
            const inBlock = block !== null && active !== null && index >= block.top && index <= block.bottom;
            return (
              <GridRow
                key={id}
                id={id}
                index={index}
                top={index * ROW}
                width={width}
                columns={columns}
                asked={asked}
                active={index === at.row ? at.column : null}
                left={inBlock ? block.left : null}
                right={inBlock ? block.right : null}
                editor={index === at.row ? editor : false}
                table={table}
                begin={index === at.row ? begin : null}
              />
            );
          })}
      </div>
      {rows.length === 0 && <p className="grid-none">No row fits what is asked for above.</p>}
    </div>
  );
}

function bringIntoView(box: HTMLElement, { row, column }: Place, columns: readonly Column[]): void {
  if (row >= 0) {
    const top = row * ROW;
    const height = box.clientHeight - HEADING;
    if (top < box.scrollTop) box.scrollTop = top;
    else if (top + ROW > box.scrollTop + height) box.scrollTop = top + ROW - height;
  }
  // The first column always shows, over what is scrolled below it.
  const fixed = columns[0]?.width ?? 0;
  if (column === 0) return;
  const left = columns.slice(0, column).reduce((sum, each) => sum + each.width, 0);
  const right = left + (columns[column]?.width ?? 0);
  if (left - fixed < box.scrollLeft) box.scrollLeft = left - fixed;
  else if (right > box.scrollLeft + box.clientWidth) box.scrollLeft = right - box.clientWidth;
}
