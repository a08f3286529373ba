/**
 * Blocks of cells as spreadsheets exchange them: cells by tabs, rows by line ends, a cell with either of them or with
 * quotation marks in quotation marks, which are doubled inside.
 */

/** Rows of cells; [] for an empty text. A quotation mark within a cell stands for itself (3/8"). */
export function readTabSeparated(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    const { cell, next } = text[at] === '"' ? quoted(text, at) : plain(text, at);
    row.push(cell);
    const mark = text[next];
    at = next + 1;
    if (mark === "\t") {
      if (at === text.length) row.push("");
      continue;
    }
    if (mark === "\r" && text[at] === "\n") at += 1;
    rows.push(row);
    row = [];
  }
  if (row.length > 0) rows.push(row);
  return rows;
}

interface Read {
  readonly cell: string;
  /** Where the mark that ends the cell stands. */
  readonly next: number;
}

function plain(text: string, from: number): Read {
  const rest = /[\t\r\n]/g;
  rest.lastIndex = from;
  const next = rest.exec(text)?.index ?? text.length;
  return { cell: text.slice(from, next), next };
}

function quoted(text: string, from: number): Read {
  const inside = /"((?:[^"]|"")*)"(?=[\t\r\n]|$)/y;
  inside.lastIndex = from;
  const found = inside.exec(text);
  // An opening mark without its closing one is just a mark.
  if (found === null) return plain(text, from);
  return { cell: (found[1] ?? "").replaceAll('""', '"'), next: inside.lastIndex };
}

export function writeTabSeparated(rows: readonly (readonly string[])[]): string {
  const written = (cell: string): string =>
    /[\t\r\n]/.test(cell) || cell.startsWith('"') ? `"${cell.replaceAll('"', '""')}"` : cell;
  return rows.map((row) => row.map(written).join("\t")).join("\n");
}
