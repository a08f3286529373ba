/** One view of a part on the canvas. It draws itself and knows no gesture: the hand reads the paper, not elements. */
import { memo, useMemo } from "react";
import type { Node, NodeProps } from "@xyflow/react";
import type { DisplayList } from "../../../core/geometry/display.ts";
import { drawView } from "../../../core/drawing/view-drawing.ts";
import { hasBlades, standingSymbol } from "../../../core/parts/standing-symbol.ts";
import { inflate } from "../../../core/geometry/boxes.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import { contactKey } from "../../window/analysis/protocol.ts";
import type { StateView } from "../../window/analysis/protocol.ts";
import { useEditor } from "../../window/editor-context.ts";
import { shownState } from "../../window/shown-state.ts";
import { DisplayListSvg } from "./DisplayListSvg.tsx";
import type { SceneView } from "./scene.ts";
import { PIXELS_PER_MM, viewBoxOf } from "./scale.ts";

export type SheetNode = Node<{ readonly view: SceneView }, "view">;

export const viewElement = (key: string): string => `view-${key}`;
export const terminalElement = (key: string): string => `terminal-${key}`;

export const ViewNode = memo(function ViewNode({ data: { view } }: NodeProps<SheetNode>) {
  const { part, room, box, list, pins } = view;
  const selected = useEditor(({ selection }) => selection.parts.includes(part.id));
  const standing = useStanding(view);
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
      <DisplayListSvg list={standing ?? list} />
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

const closedIn = new WeakMap<StateView, ReadonlySet<string>>();

function closedContacts(state: StateView): ReadonlySet<string> {
  let closed = closedIn.get(state);
  if (closed === undefined) closedIn.set(state, (closed = new Set(state.closed)));
  return closed;
}

/** The view with its contacts as they stand in the state that shows; undefined where it has none, or no state shows. */
function useStanding(view: SceneView): DisplayList | undefined {
  const blades = useMemo(() => hasBlades(view.view), [view]);
  // As text, so that only a contact of this view that moves draws it anew.
  const closed = useEditor((editor) => {
    const state = blades ? shownState(editor) : undefined;
    if (state === undefined) return undefined;
    const contacts = closedContacts(state);
    const terminals = view.pins.map(({ terminal }) => terminal);
    const pairs = terminals.flatMap((a) => terminals.map((b) => contactKey(view.part.id, { a, b })));
    return pairs.filter((pair) => contacts.has(pair)).join(" ");
  });
  return useMemo(() => {
    if (closed === undefined) return undefined;
    const pairs = new Set(closed.split(" "));
    const isClosed = (a: string, b: string): boolean =>
      pairs.has(contactKey(view.part.id, { a, b })) || pairs.has(contactKey(view.part.id, { a: b, b: a }));
    return drawView({ ...view, view: { ...view.view, symbol: standingSymbol(view.view, isClosed) } });
  }, [view, closed]);
}
