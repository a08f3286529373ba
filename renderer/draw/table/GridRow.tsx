/** One row of the table, and its heading. */
import { memo } from "react";
import type { PointerEvent, ReactNode } from "react";
import type { Asked } from "../facts/asked.ts";
import { waiting } from "./arrange.ts";
import type { Sorting } from "./arrange.ts";
import { NOT_KNOWN } from "./column.ts";
import type { Cell, Column } from "./column.ts";
import type { TableStore } from "./table-store.ts";

interface HeadingProps {
  readonly columns: readonly Column[];
  readonly width: number;
  readonly sorting: Sorting | null;
  /** Column that has the keyboard. */
  readonly active: number | null;
  readonly sortBy: (column: string) => void;
}

export function Heading({ columns, width, sorting, active, sortBy }: HeadingProps) {
  return (
    <div className="grid-head" role="rowgroup" style={{ width }}>
      <div className="grid-row" role="row" aria-rowindex={1}>
        {columns.map(({ id, title, about, width: wide }, index) => {
          const direction = sorting?.column === id ? sorting.direction : undefined;
          return (
            <div
              key={id}
              className="grid-heading"
              role="columnheader"
              aria-colindex={index + 1}
              aria-sort={direction ?? "none"}
              tabIndex={index === active ? 0 : -1}
              data-active={index === active || undefined}
              title={about}
              style={{ width: wide }}
              onClick={() => sortBy(id)}
            >
              <span className="grid-title">{title}</span>
              {direction !== undefined && <SortSign up={direction === "ascending"} />}
            </div>
          );
        })}
      </div>
    </div>
  );
}

/** Three lines that grow or shrink downwards, as the column does. */
function SortSign({ up }: { readonly up: boolean }) {
  const lengths = up ? [3, 6, 9] : [9, 6, 3];
  return (
    <svg className="grid-sort" width="9" height="9" viewBox="0 0 9 9" aria-hidden>
      {lengths.map((length, index) => (
        <path key={index} d={`M0 ${String(1.5 + index * 3)}H${String(length)}`} />
      ))}
    </svg>
  );
}

interface GridRowProps {
  readonly id: string;
  readonly index: number;
  readonly top: number;
  readonly width: number;
  readonly columns: readonly Column[];
  readonly asked: Asked;
  readonly active: number | null;
  /** Columns of the block, both included. */
  readonly left: number | null;
  readonly right: number | null;
  /** Stands in the active cell while it is typed into. */
  readonly editor: ReactNode;
  readonly table: TableStore;
  readonly begin: ((text: string | null) => void) | null;
}

export const GridRow = memo(function GridRow(props: GridRowProps) {
  const { id, index, top, width, columns, asked, active, left, right, editor, table, begin } = props;
  const press = (event: PointerEvent, column: string): void => {
    if (event.button !== 0 || (event.target instanceof HTMLElement && event.target.closest("input") !== null)) return;
    // What is being typed is taken over into its own cell before the cursor leaves it.
    if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
    table.go({ row: id, column }, event.shiftKey);
  };
  const enter = (event: PointerEvent, column: string): void => {
    if ((event.buttons & 1) === 1 && table.now.anchor !== null) table.go({ row: id, column }, true);
  };
  return (
    <div
      className="grid-row"
      role="row"
      aria-rowindex={index + 2}
      style={{ width, transform: `translateY(${String(top)}px)` }}
    >
      {columns.map((column, at) => {
        const cell = column.cell(id);
        const waits = waiting(column, id, cell, asked);
        const edited = at === active && editor !== false;
        return (
          <div
            key={column.id}
            className="grid-cell"
            role="gridcell"
            aria-colindex={at + 1}
            aria-selected={left !== null && right !== null && at >= left && at <= right}
            aria-readonly={cell === undefined || column.edit === undefined || undefined}
            tabIndex={at === active ? 0 : -1}
            data-active={at === active || undefined}
            data-mark={markOf(column, cell, waits)}
            style={{ width: column.width }}
            onPointerDown={(event) => press(event, column.id)}
            onPointerEnter={(event) => enter(event, column.id)}
            onDoubleClick={() => begin?.(null)}
          >
            {edited ? editor : <CellText cell={cell} waits={waits} fixed={column.edit === undefined} />}
          </div>
        );
      })}
    </div>
  );
});

type Mark = "absent" | "fixed" | "stated" | "usual" | "unknown" | "asked" | "empty";

function markOf(column: Column, cell: Cell | undefined, waits: number): Mark {
  if (cell === undefined) return "absent";
  if (column.edit === undefined) return "fixed";
  if (typeof cell.value === "string") return "stated";
  if (waits > 0) return "asked";
  if (cell.value === null) return "unknown";
  return cell.usual === undefined ? "empty" : "usual";
}

interface CellTextProps {
  readonly cell: Cell | undefined;
  readonly waits: number;
  readonly fixed: boolean;
}

function CellText({ cell, waits, fixed }: CellTextProps) {
  if (cell === undefined) return <span className="cell-silent">has no such field</span>;
  const { value, usual } = cell;
  if (typeof value === "string" || fixed)
    return (
      <span className="cell-text" title={value ?? undefined}>
        {value}
      </span>
    );
  const needed = waits === 0 ? "" : `, ${String(waits)} ${waits === 1 ? "check waits" : "checks wait"} for it`;
  if (value === null)
    return (
      <span className="cell-text" title="Somebody looked, and it is not known.">
        {NOT_KNOWN}
        <span className="cell-silent">{needed}</span>
      </span>
    );
  if (usual !== undefined)
    return (
      <span className="cell-text" title={`Usual value, not confirmed${needed}.`}>
        {usual}
        <span className="cell-silent">, usual value, not confirmed{needed}</span>
      </span>
    );
  return (
    <>
      {waits === 0 && <span className="cell-none" aria-hidden title="Not stated." />}
      <span className="cell-silent">
        not stated
        {needed}
      </span>
    </>
  );
}
