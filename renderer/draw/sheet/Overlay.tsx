/** What lies over the drawing while the hand is at work: rings at terminals, lines being drawn, what is being placed. */
import { useMemo } from "react";
import { corners, inflate } from "../../../core/geometry/boxes.ts";
import type { Point } from "../../../core/geometry/display.ts";
import { drawView } from "../../../core/drawing/view-drawing.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { WireEnd } from "../../../core/project/document.ts";
import { useEditor } from "../../window/editor-context.ts";
import { DisplayListSvg } from "./DisplayListSvg.tsx";
import { viewKey } from "./drawing-state.ts";
import { placedAt } from "./placing.ts";
import type { Scene } from "./scene.ts";
import { PIXELS_PER_MM } from "./scale.ts";
import { useDrawing } from "./use-drawing.ts";
import { wireHandles } from "./wire-handles.ts";
import { wiresOfViews } from "./Wires.tsx";

interface OnScene {
  readonly scene: Scene;
}

export function Overlay({ scene }: OnScene) {
  return (
    <svg className="overlay" aria-hidden>
      <g transform={`scale(${String(PIXELS_PER_MM)})`}>
        <Carried scene={scene} />
        <Handles scene={scene} />
        <Terminals scene={scene} />
        <Standing scene={scene} />
        <Line />
        <Hanging scene={scene} />
        <Band />
      </g>
    </svg>
  );
}

const pointsOf = (path: Path): string => path.map((point) => point.join(",")).join(" ");

/** Wires of what is being moved: straight until it is put down. */
function Carried({ scene }: OnScene) {
  const shift = useDrawing((drawing) => drawing.shift);
  const wires = useEditor((editor) => editor.history.present.wires);
  const views = shift?.views;
  const touched = useMemo(() => {
    if (views === undefined) return [];
    const ids = wiresOfViews(scene, wires, views);
    return wires.filter(({ id }) => ids.has(id));
  }, [scene, wires, views]);
  if (shift === null) return null;
  const { by } = shift;
  const move = (path: Path): Path => path.map(([x, y]) => [x + by.x, y + by.y] as const);
  return touched.map(({ id, ends }) => {
    const lines = scene.routed.paths.get(id) ?? [];
    const pins = ends.map((end) => (end === null ? undefined : scene.pinByKey.get(terminalKey(end))));
    const moved = pins.map((pin) => pin !== undefined && shift.views.has(pin.view.key));
    const [a, b] = pins;
    const whole = moved.every(Boolean) || a === undefined || b === undefined;
    if (whole)
      return lines.map((line, index) => (
        <polyline key={`${id} ${String(index)}`} className="carried" points={pointsOf(move(line))} />
      ));
    const at = (pin: Point, index: number): string =>
      moved[index] === true ? `${String(pin.x + by.x)},${String(pin.y + by.y)}` : `${String(pin.x)},${String(pin.y)}`;
    return <polyline key={id} className="carried" points={`${at(a, 0)} ${at(b, 1)}`} />;
  });
}

/** Small squares by which the ends of a selected wire are taken hold of. */
function Handles({ scene }: OnScene) {
  const project = useEditor((editor) => editor.history.present);
  const wires = useEditor((editor) => editor.selection.wires);
  const busy = useDrawing((drawing) => drawing.shift !== null || drawing.wiring !== null);
  if (busy) return null;
  return wireHandles(scene, project, wires).map(({ wire, end, x, y }) => (
    <rect
      key={`${wire} ${String(end)}`}
      className="wire-handle"
      data-wire-end={`${wire}:${String(end)}`}
      x={x - 0.9}
      y={y - 0.9}
      width={1.8}
      height={1.8}
    />
  ));
}

/** A ring round the terminal at the pointer, and round both ends of a wire that is being drawn. */
function Terminals({ scene }: OnScene) {
  const hovered = useEditor((editor) => editor.hovered);
  const from = useDrawing((drawing) => drawing.wiring?.from ?? null);
  const over = useDrawing((drawing) => drawing.wiring?.over ?? null);
  const ends: (readonly [string, WireEnd | null])[] = [
    ["hovered", over === null ? hovered : null],
    ["from", from],
    ["over", over],
  ];
  return ends.map(([role, end]) => {
    const pin = end === null ? undefined : scene.pinByKey.get(terminalKey(end));
    return pin === undefined ? null : (
      <circle key={role} className="terminal-ring" data-role={role} cx={pin.x} cy={pin.y} r={1.7} />
    );
  });
}

/** Where the keyboard stands. */
function Standing({ scene }: OnScene) {
  const cursor = useDrawing((drawing) => drawing.cursor);
  const shift = useDrawing((drawing) => drawing.shift);
  if (cursor === null || shift !== null) return null;
  if (cursor.on === "terminal") {
    const pin = scene.pinByKey.get(terminalKey(cursor.end));
    return pin === undefined ? null : <circle className="standing" cx={pin.x} cy={pin.y} r={2.4} />;
  }
  const view = scene.views.find(({ key }) => key === viewKey(cursor.part, cursor.view));
  if (view === undefined) return null;
  const { x, y, width, height } = inflate(view.box, 0.6);
  return <rect className="standing" x={x} y={y} width={width} height={height} />;
}

/** The wire that is being drawn. */
function Line() {
  const wiring = useDrawing((drawing) => drawing.wiring);
  if (wiring === null) return null;
  const { start, at } = wiring;
  return <line className="line-drawn" x1={start.x} y1={start.y} x2={at.x} y2={at.y} />;
}

/** What hangs at the pointer. */
function Hanging({ scene }: OnScene) {
  const placing = useDrawing((drawing) => drawing.placing);
  const at = useDrawing((drawing) => drawing.at);
  const project = useEditor((editor) => editor.history.present);
  if (placing === null || at === null) return null;
  return (
    <g className="hanging">
      {placedAt(project, placing, scene.sheet.id, at).map((view) => (
        <g key={view.view.id}>
          <polygon
            className="hanging-room"
            points={corners(inflate(view.box, -0.9))
              .map(({ x, y }) => `${String(x)},${String(y)}`)
              .join(" ")}
          />
          <DisplayListSvg list={drawView(view)} />
        </g>
      ))}
    </g>
  );
}

function Band() {
  const band = useDrawing((drawing) => drawing.band);
  return band === null ? null : <rect className="band" {...band} />;
}
