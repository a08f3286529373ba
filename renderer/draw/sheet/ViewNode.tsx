/** One view of a part on the canvas. It draws itself and knows no gesture: the hand reads the paper, not elements. */
import { memo } from "react";
import type { Node, NodeProps } from "@xyflow/react";
import { inflate } from "../../../core/geometry/boxes.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import { useEditor } from "../../window/editor-context.ts";
import { DisplayListSvg } from "./DisplayListSvg.tsx";
import type { SceneView } from "./scene.ts";
import { PIXELS_PER_MM, viewBoxOf } from "./scale.ts";

export type SheetNode = Node<{ readonly view: SceneView }, "view">;

export const viewElement = (key: string): string => `view-${key}`;
export const terminalElement = (key: string): string => `terminal-${key}`;

export const ViewNode = memo(function ViewNode({ data: { view } }: NodeProps<SheetNode>) {
  const { part, room, box, list, pins } = view;
  const selected = useEditor(({ selection }) => selection.parts.includes(part.id));
  const body = inflate(box, -0.9);
  return (
    <svg
      id={viewElement(view.key)}
      className="view"
      role="img"
      aria-label={`${part.designation}, ${view.kind.title}${view.view.title === "" ? "" : `, ${view.view.title}`}`}
      data-part={part.id}
      data-view={view.view.id}
      data-selected={selected || undefined}
      width={room.width * PIXELS_PER_MM}
      height={room.height * PIXELS_PER_MM}
      viewBox={viewBoxOf(room)}
    >
      <rect className="view-body" x={body.x} y={body.y} width={body.width} height={body.height} />
      <DisplayListSvg list={list} />
      {pins.map((pin) => {
        const key = terminalKey([part.id, pin.terminal]);
        return (
          <circle
            key={key}
            id={terminalElement(key)}
            className="view-terminal"
            role="img"
            aria-label={`${part.designation} ${pin.terminal}`}
            data-terminal={key}
            cx={pin.x}
            cy={pin.y}
            r={1.25}
          />
        );
      })}
    </svg>
  );
});
