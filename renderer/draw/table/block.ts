/** Blocks of cells: from corner to corner, moved by keys, filled from a copied block. Rows and columns count from 0. */

export interface Place {
  readonly row: number;
  readonly column: number;
}

/** Both ends belong to it. */
export interface Block {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export const blockBetween = (a: Place, b: Place): Block => ({
  top: Math.min(a.row, b.row),
  left: Math.min(a.column, b.column),
  bottom: Math.max(a.row, b.row),
  right: Math.max(a.column, b.column),
});

export const isOneCell = ({ top, left, bottom, right }: Block): boolean => top === bottom && left === right;

export function placesIn({ top, left, bottom, right }: Block): readonly Place[] {
  const places: Place[] = [];
  for (let row = top; row <= bottom; row += 1)
    for (let column = left; column <= right; column += 1) places.push({ row, column });
  return places;
}

export interface Extent {
  readonly rows: number;
  readonly columns: number;
  /** Rows that a page has. */
  readonly page: number;
}

interface Pressed {
  readonly key: string;
  readonly ctrl: boolean;
}

/** Where a key leads, within the table; undefined for a key that leads nowhere. Row -1 is the heading. */
export function moved({ row, column }: Place, { key, ctrl }: Pressed, extent: Extent): Place | undefined {
  const [lastRow, lastColumn] = [extent.rows - 1, extent.columns - 1];
  const to = (wantedRow: number, wantedColumn: number): Place => ({
    row: Math.max(-1, Math.min(lastRow, wantedRow)),
    column: Math.max(0, Math.min(lastColumn, wantedColumn)),
  });
  switch (key) {
    case "ArrowUp":
      return to(ctrl ? 0 : row - 1, column);
    case "ArrowDown":
      return to(ctrl ? lastRow : row + 1, column);
    case "ArrowLeft":
      return to(row, ctrl ? 0 : column - 1);
    case "ArrowRight":
      return to(row, ctrl ? lastColumn : column + 1);
    case "Home":
      return to(ctrl ? 0 : row, 0);
    case "End":
      return to(ctrl ? lastRow : row, lastColumn);
    case "PageUp":
      return to(Math.max(0, row - extent.page), column);
    case "PageDown":
      return to(row + extent.page, column);
    default:
      return undefined;
  }
}

export interface Pasting {
  readonly cells: readonly (Place & { readonly text: string })[];
  /** What is selected afterwards. */
  readonly block: Block;
  /** Rows and columns of the copied block that lie beyond the table's edge. */
  readonly beyond: { readonly rows: number; readonly columns: number };
}

/** A single copied cell fills the whole block; anything larger is laid with its corner on the block's. */
export function pasting(
  block: Block,
  copied: readonly (readonly string[])[],
  extent: Pick<Extent, "rows" | "columns">,
): Pasting {
  const wide = Math.max(0, ...copied.map((row) => row.length));
  const only = copied[0]?.[0];
  if (copied.length === 1 && wide === 1 && only !== undefined)
    return {
      cells: placesIn(block).map((place) => ({ ...place, text: only })),
      block,
      beyond: { rows: 0, columns: 0 },
    };
  const cells = copied.flatMap((row, down) =>
    row.map((text, along) => ({ row: block.top + down, column: block.left + along, text })),
  );
  const within = cells.filter(({ row, column }) => row < extent.rows && column < extent.columns);
  return {
    cells: within,
    block: {
      ...block,
      bottom: Math.min(extent.rows, block.top + copied.length) - 1,
      right: Math.min(extent.columns, block.left + wide) - 1,
    },
    beyond: {
      rows: Math.max(0, block.top + copied.length - extent.rows),
      columns: Math.max(0, block.left + wide - extent.columns),
    },
  };
}
