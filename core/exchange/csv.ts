/**
 * Comma-separated values after RFC 4180, as spreadsheets really write them: with a byte order mark, with semicolons
 * or tabs instead of commas, with a leading line `sep=;`. Reading and writing.
 */

export interface CsvRow {
  /** Line of the file on which the row begins, counted from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

export type CsvReading =
  | { readonly ok: true; readonly rows: readonly CsvRow[]; readonly separator: Separator }
  | { readonly ok: false; readonly line: number; readonly text: string };

type Separator = "," | ";" | "\t";
const SEPARATORS: readonly Separator[] = [",", ";", "\t"];

/** The separator that stands most often in the first line, outside quotes; a comma where none does. */
function separatorOf(text: string): Separator {
  const counts = new Map<string, number>();
  let quoted = false;
  for (const sign of text) {
    if (sign === '"') quoted = !quoted;
    else if (!quoted && (sign === "\n" || sign === "\r")) break;
    else if (!quoted) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  }
  const often = (separator: Separator): number => counts.get(separator) ?? 0;
  return SEPARATORS.reduce((best, next) => (often(next) > often(best) ? next : best));
}

/** A cell that a spreadsheet would take for a formula (or that our own export guarded against it). */
const FORMULA = /^[=+\-@\t\r]/;
const GUARDED = /^'+[=+\-@\t\r]/;

/**
 * Reads a table. Cells come out without the apostrophe that guards against formulas, those without quotes trimmed;
 * rows with nothing in them are left out. Never throws.
 */
export function readCsv(text: string): CsvReading {
  let body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  let line = 1;
  const declared = /^sep=([,;\t])\r?\n/.exec(body);
  if (declared !== null) {
    body = body.slice(declared[0].length);
    line = 2;
  }
  const separator = SEPARATORS.find((sign) => sign === declared?.[1]) ?? separatorOf(body);
  const rows: CsvRow[] = [];
  let cells: string[] = [];
  let start = line;
  let at = 0;

  const finish = (): void => {
    if (cells.some((cell) => cell.trim() !== "")) rows.push({ line: start, cells });
    cells = [];
    start = line;
  };
  const keep = (cell: string): void => {
    cells.push(GUARDED.test(cell) ? cell.slice(1) : cell);
  };
  const endOfPlain = (from: number): number => {
    let end = from;
    while (end < body.length && body[end] !== separator && body[end] !== "\n" && body[end] !== "\r") end += 1;
    return end;
  };

  while (at < body.length) {
    let end = endOfPlain(at);
    if (/^ *"/.test(body.slice(at, at + 64))) {
      const quoted = readQuoted(body, body.indexOf('"', at) + 1);
      if (quoted === undefined) {
        return {
          ok: false,
          line: start,
          text: 'A cell begins with " but has no closing ". Add it at the end of the cell.',
        };
      }
      end = endOfPlain(quoted.end);
      if (body.slice(quoted.end, end).trim() !== "") {
        const text =
          'Something stands between the closing " of a cell and the next separator. A " within a cell is written "".';
        return { ok: false, line: line + quoted.lines, text };
      }
      keep(quoted.cell);
      line += quoted.lines;
    } else keep(body.slice(at, end).trim());
    at = end + 1;
    const sign = body[end];
    if (sign === "\n" || sign === "\r") {
      if (sign === "\r" && body[at] === "\n") at += 1;
      line += 1;
      finish();
    } else if (sign !== undefined && at >= body.length) cells.push("");
  }
  finish();
  return { ok: true, rows, separator };
}

/** The text of a quoted cell, the index behind its closing quote, and how many line ends it holds. */
function readQuoted(body: string, from: number): { cell: string; end: number; lines: number } | undefined {
  const pieces: string[] = [];
  let at = from;
  for (;;) {
    const quote = body.indexOf('"', at);
    if (quote === -1) return undefined;
    pieces.push(body.slice(at, quote));
    if (body[quote + 1] !== '"') {
      const cell = pieces.join('"');
      return { cell, end: quote + 1, lines: (cell.match(/\r\n|\r|\n/g) ?? []).length };
    }
    at = quote + 2;
  }
}

/**
 * Writes a table: commas, CRLF line ends, quotes where they are needed. A cell that begins with = + - @ gets an
 * apostrophe, so that no spreadsheet runs it as a formula.
 */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  const cell = (text: string): string => {
    // A text that already looks guarded is guarded once more, so that it reads back as it was.
    const guarded = FORMULA.test(text) || GUARDED.test(text) ? `'${text}` : text;
    return /[",;\t\r\n]|^ | $/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
  };
  return rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}
