/** Tables for a terminal window: columns as wide as their longest cell, figures flush right. */

export interface Column {
  readonly title: string;
  readonly align?: "left" | "right";
}

/** One line a row, the titles first and underlined. An empty list of rows gives one line that says so. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return "  (none)";
  const widths = columns.map((column, index) =>
    Math.max(column.title.length, ...rows.map((row) => (row[index] ?? "").length)),
  );
  const line = (cells: readonly string[]): string =>
    `  ${columns
      .map((column, index) => {
        const cell = cells[index] ?? "";
        const width = widths[index] ?? 0;
        return column.align === "right" ? cell.padStart(width) : cell.padEnd(width);
      })
      .join("  ")}`.trimEnd();
  return [
    line(columns.map((column) => column.title)),
    line(widths.map((width) => "-".repeat(width))),
    ...rows.map(line),
  ].join("\n");
}

/** A paragraph wrapped at spaces, each line set in by `indent`. A word longer than the line stands alone. */
export function wrap(text: string, indent: string, width = 100): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && indent.length + line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((each) => indent + each).join("\n");
}
