/** The views of a sheet as canvas nodes. A node is made anew only when its view changed, moves, or must stay mounted. */
import { useMemo } from "react";
import type { Point } from "../../../core/geometry/display.ts";
import { useEditor } from "../../window/editor-context.ts";
import type { Scene, SceneView } from "./scene.ts";
import { toPixels } from "./scale.ts";
import { useDrawing } from "./use-drawing.ts";
import type { SheetNode } from "./ViewNode.tsx";

const AT_HOME: Point = { x: 0, y: 0 };

const atHome = new WeakMap<SceneView, SheetNode>();

function nodeOf(view: SceneView, by: Point, held: boolean): SheetNode {
  const resting = by === AT_HOME && !held;
  const kept = resting ? atHome.get(view) : undefined;
  if (kept !== undefined) return kept;
  const width = toPixels(view.room.width);
  const height = toPixels(view.room.height);
  const node: SheetNode = {
    id: view.key,
    type: "view",
    position: { x: toPixels(view.room.x + by.x), y: toPixels(view.room.y + by.y) },
    data: { view },
    // Sizes and an empty list of handles spare the canvas to mount every node once in order to measure it.
    width,
    height,
    measured: { width, height },
    handles: [],
    // What is selected or has the keyboard stays mounted wherever the paper is moved.
    dragging: held,
  };
  if (resting) atHome.set(view, node);
  return node;
}

/** From afar only what is selected or has the keyboard has nodes: the rest is drawn without. */
export function useSheetNodes(scene: Scene | undefined, afar: boolean): SheetNode[] {
  const parts = useEditor((editor) => editor.selection.parts);
  const shift = useDrawing((drawing) => drawing.shift);
  const cursor = useDrawing((drawing) => drawing.cursor);
  const standing = cursor === null ? undefined : cursor.on === "part" ? cursor.part : cursor.end[0];
  return useMemo(() => {
    const held = new Set(parts);
    if (standing !== undefined) held.add(standing);
    const views = scene?.views ?? [];
    return (afar ? views.filter(({ part }) => held.has(part.id)) : views).map((view) =>
      nodeOf(view, shift?.views.has(view.key) === true ? shift.by : AT_HOME, held.has(view.part.id)),
    );
  }, [scene, afar, parts, shift, standing]);
}
