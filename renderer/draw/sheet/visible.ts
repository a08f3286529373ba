/** What of the paper shows, in steps: a pan within a step draws nothing new. */
import { useMemo } from "react";
import { useStore } from "@xyflow/react";
import type { ReactFlowState } from "@xyflow/react";
import type { Box } from "../../../core/geometry/display.ts";
import { PIXELS_PER_MM } from "./scale.ts";

/** Edges of the visible paper, mm, rounded outwards to steps of about half of what shows. */
function visibleKey({ transform: [x, y, zoom], width, height }: ReactFlowState): string {
  const scale = zoom * PIXELS_PER_MM;
  const step = 2 ** Math.ceil(Math.log2(Math.max(1, width / scale / 2)));
  const from = (offset: number): number => Math.floor(-offset / scale / step) * step;
  const to = (offset: number, size: number): number => Math.ceil((size - offset) / scale / step) * step;
  return [from(x), from(y), to(x, width), to(y, height)].join(" ");
}

export function useVisibleBox(): Box {
  const key = useStore(visibleKey);
  return useMemo(() => {
    const [left = 0, top = 0, right = 0, bottom = 0] = key.split(" ").map(Number);
    return { x: left, y: top, width: right - left, height: bottom - top };
  }, [key]);
}
