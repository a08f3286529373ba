/** The canvas as the hand sees it: millimetres of paper instead of pixels. */
import type { ReactFlowInstance } from "@xyflow/react";
import type { Box } from "../../../core/geometry/display.ts";
import { SHEET_SURFACE } from "./drawing-state.ts";
import type { Canvas } from "./hand.ts";
import { PIXELS_PER_MM, toMillimetres, toPixels } from "./scale.ts";

/** Pixels left free round what is brought into view. */
const BORDER = 24;

const surfaceBox = (): DOMRect => document.getElementById(SHEET_SURFACE)?.getBoundingClientRect() ?? new DOMRect();

export function canvasOf(flow: ReactFlowInstance): Canvas {
  return {
    toPaper: ({ x, y }) => toMillimetres(flow.screenToFlowPosition({ x, y })),
    millimetres: (pixels) => pixels / flow.getZoom() / PIXELS_PER_MM,
    middle() {
      const { left, top, width, height } = surfaceBox();
      return toMillimetres(flow.screenToFlowPosition({ x: left + width / 2, y: top + height / 2 }));
    },
    visible() {
      const { left, top, right, bottom } = surfaceBox();
      const from = toMillimetres(flow.screenToFlowPosition({ x: left, y: top }));
      const to = toMillimetres(flow.screenToFlowPosition({ x: right, y: bottom }));
      return { x: from.x, y: from.y, width: to.x - from.x, height: to.y - from.y };
    },
    reveal(box) {
      const { x, y, zoom } = flow.getViewport();
      const { width, height } = surfaceBox();
      const dx = shiftInto(x + toPixels(box.x) * zoom, toPixels(box.width) * zoom, width);
      const dy = shiftInto(y + toPixels(box.y) * zoom, toPixels(box.height) * zoom, height);
      if (dx !== 0 || dy !== 0) void flow.setViewport({ x: x + dx, y: y + dy, zoom });
    },
  };
}

/** How far a stretch must move to lie within the room; the middle of the room if it was wholly outside. */
function shiftInto(start: number, length: number, room: number): number {
  if (start >= BORDER && start + length <= room - BORDER) return 0;
  if (start + length < 0 || start > room || length > room - 2 * BORDER) return room / 2 - (start + length / 2);
  return start < BORDER ? BORDER - start : room - BORDER - (start + length);
}

const PAPER_EDGE = 12;

/** The whole sheet of paper, whatever its size. */
export function showWhole(flow: ReactFlowInstance): void {
  const paper = document.querySelector(`#${SHEET_SURFACE} .paper`);
  if (!(paper instanceof SVGElement)) return;
  const { width, height } = surfaceBox();
  const box: Box = {
    x: 0,
    y: 0,
    width: Number.parseFloat(paper.style.width),
    height: Number.parseFloat(paper.style.height),
  };
  const zoom = Math.min((width - 2 * PAPER_EDGE) / box.width, (height - 2 * PAPER_EDGE) / box.height);
  void flow.setViewport({ x: (width - box.width * zoom) / 2, y: (height - box.height * zoom) / 2, zoom });
}
