/** The paper under everything: its edge, the frame with its zones, and the title block in its corner. */
import { memo, useMemo } from "react";
import { drawFrame, drawTitleBlock } from "../../../core/drawing/frame.ts";
import { paperSize } from "../../../core/layout/paper.ts";
import type { SheetId } from "../../../core/project/document.ts";
import { useEditor } from "../../window/editor-context.ts";
import { DisplayListSvg } from "./DisplayListSvg.tsx";
import { placeOf, viewBoxOf } from "./scale.ts";

export const Paper = memo(function Paper({ id }: { readonly id: SheetId }) {
  const sheets = useEditor((editor) => editor.history.present.sheets);
  const title = useEditor((editor) => editor.history.present.title);
  const index = sheets.findIndex((sheet) => sheet.id === id);
  const sheet = sheets[index];
  const list = useMemo(
    () => (sheet === undefined ? [] : [...drawFrame(sheet), ...drawTitleBlock(sheet, index + 1, sheets.length, title)]),
    [sheet, index, sheets.length, title],
  );
  if (sheet === undefined) return null;
  const box = { x: 0, y: 0, ...paperSize(sheet) };
  return (
    <svg className="paper" aria-hidden style={placeOf(box)} viewBox={viewBoxOf(box)}>
      <DisplayListSvg list={list} />
    </svg>
  );
});
