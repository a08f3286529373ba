/** A wire list's table: cells by the name of their column, and what is wrong in which line. */
import { contentProblem } from "../project/content.ts";
import { tooLarge } from "../project/bytes.ts";
import { choiceOf } from "../project/nearest.ts";
import { shown } from "../project/problems.ts";
import { readCsv } from "./csv.ts";

export type ListFile = "wires" | "parts";

export interface ListProblem {
  readonly file: ListFile;
  readonly line: number;
  /** One or two plain sentences: what is so, what to do. */
  readonly text: string;
}

export interface TableRow<Column extends string> {
  readonly line: number;
  /** "" where the cell is empty or the column is not there. */
  readonly cell: (column: Column) => string;
  readonly complain: (text: string) => void;
}

export interface Table<Column extends string> {
  readonly rows: readonly TableRow<Column>[];
  readonly has: (column: Column) => boolean;
}

/**
 * Reads a table whose first row names its columns, in any order. Problems are added to `problems`; undefined if the
 * table cannot be read at all.
 */
export function readTable<Column extends string>(
  file: ListFile,
  text: string,
  required: readonly Column[],
  optional: readonly Column[],
  problems: ListProblem[],
): Table<Column> | undefined {
  const complainAt =
    (line: number) =>
    (sentence: string): void => {
      problems.push({ file, line, text: sentence });
    };
  const long = tooLarge(text.length);
  if (long !== undefined) {
    complainAt(1)(long);
    return undefined;
  }
  const reading = readCsv(text);
  if (!reading.ok) {
    complainAt(reading.line)(reading.text);
    return undefined;
  }
  const [header, ...rows] = reading.rows;
  if (header === undefined) {
    complainAt(1)(`The ${file} list is empty. Its first line names the columns: ${required.join(", ")} and others.`);
    return undefined;
  }
  const columns = headerColumns(header.cells, [...required, ...optional], complainAt(header.line));
  const missing = required.filter((column) => !columns.has(column));
  if (missing.length > 0) {
    complainAt(header.line)(`There is no column "${missing.join('", "')}". Add it to the first line.`);
    return undefined;
  }
  return {
    has: (column) => columns.has(column),
    rows: rows.map(({ line, cells }) => {
      const complain = complainAt(line);
      const extra = cells.slice(header.cells.length).find((cell) => cell.trim() !== "");
      if (extra !== undefined) {
        complain(
          `"${shown(extra)}" stands beyond the last column. Put a cell that holds "${reading.separator}" in double quotes.`,
        );
      }
      for (const cell of cells) {
        const wrong = contentProblem(cell);
        if (wrong !== undefined) complain(`In one cell, ${wrong}`);
      }
      return { line, complain, cell: (column) => (cells[columns.get(column) ?? -1] ?? "").trim() };
    }),
  };
}

function headerColumns<Column extends string>(
  cells: readonly string[],
  known: readonly Column[],
  complain: (text: string) => void,
): ReadonlyMap<Column, number> {
  const columns = new Map<Column, number>();
  cells.forEach((cell, index) => {
    const name = cell.trim().toLowerCase();
    const column = known.find((candidate) => candidate === name);
    if (column === undefined) {
      const what = name === "" ? `Column ${index + 1} has no name.` : `There is no column called "${shown(cell)}".`;
      complain(`${what} ${choiceOf(name, known)}`);
    } else if (columns.has(column)) complain(`The column "${column}" stands twice. Take one of the two out.`);
    else columns.set(column, index);
  });
  return columns;
}
