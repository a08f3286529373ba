/** All sheets as SVG files that look the same anywhere: the drawing's typeface goes along inside. */
import { drawSheet } from "../../core/drawing/sheet.ts";
import { sheetFileName } from "../../core/drawing/sheet-file-name.ts";
import { toSvg } from "../../core/drawing/svg.ts";
import type { Project } from "../../core/project/document.ts";
import type { SolvedView } from "./analysis/protocol.ts";
import { carriedTypeface } from "./carried-typeface.ts";

export interface SheetFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly mime: string;
}

/** `solved` tells which wires carry the traction circuit and are drawn wide; without it all have one width. */
export async function sheetFiles(project: Project, solved: SolvedView | null): Promise<readonly SheetFile[]> {
  const wide = new Set(solved?.tractionWires ?? []);
  const carried = { format: "woff2", base64: await carriedTypeface("regular") } as const;
  return project.sheets.map((sheet, index) => {
    const drawn = drawSheet(project, sheet.id, solved === null ? {} : { traction: (wire) => wide.has(wire) });
    const text = toSvg(drawn, { typeface: carried });
    return {
      name: `${sheetFileName(index, sheet.name)}.svg`,
      bytes: new TextEncoder().encode(text),
      mime: "image/svg+xml",
    };
  });
}
