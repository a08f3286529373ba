/**
 * The drawing from afar, where no text can be read: symbols and wires in a few strokes on one canvas, which pans and
 * zooms with a thousand parts in sight. It draws the same display lists, without their texts.
 */
import { memo, useEffect, useMemo, useRef } from "react";
import { useStore } from "@xyflow/react";
import type { ReactFlowState } from "@xyflow/react";
import { inflate } from "../../../core/geometry/boxes.ts";
import type { Pen, Primitive } from "../../../core/geometry/display.ts";
import { PALETTES, PEN_WIDTH } from "../../../core/drawing/palette.ts";
import { arcPath } from "../../../core/drawing/svg.ts";
import type { Path } from "../../../core/layout/lines.ts";
import { useEditor } from "../../window/editor-context.ts";
import { useShownState } from "../../window/shown-state.ts";
import type { Scene, SceneView } from "./scene.ts";
import { PIXELS_PER_MM } from "./scale.ts";
import { useDrawing } from "./use-drawing.ts";
import { wireLooks } from "./wire-look.ts";
import type { WireLooks } from "./wire-look.ts";
import { wiresOfViews } from "./Wires.tsx";

/** Below this a 2.5 mm text is three pixels high at most. */
const AFAR = 0.3;

export const useAfar = (): boolean => useStore(isAfar);
const isAfar = ({ transform: [, , zoom] }: ReactFlowState): boolean => zoom < AFAR;

type Look = ReturnType<WireLooks["look"]>;

/** Colour and width, mm, of a wire; as sheet.css has them near by, a little wider so that they stay to be seen. */
const LOOKS: Readonly<Record<Look, readonly [colour: string, width: number, dash?: readonly number[]]>> = {
  plain: [PALETTES.colour.ink, 0.3],
  "traction-circuit": [PALETTES.colour.ink, 0.8],
  traction: [PALETTES.colour.traction, 1],
  auxiliary: [PALETTES.colour.auxiliary, 0.5],
  chassis: [PALETTES.colour.protective, 0.6, [2, 1.5]],
  floating: [PALETTES.colour.faint, 0.5, [0.5, 1.1]],
  dead: [PALETTES.colour.faint, 0.25],
};

interface Strokes {
  readonly path: Path2D;
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
}

export const Simplified = memo(function Simplified({ scene }: { readonly scene: Scene }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [left, top, zoom] = useStore((flow) => flow.transform);
  const width = useStore((flow) => flow.width);
  const height = useStore((flow) => flow.height);
  const wires = useEditor((editor) => editor.history.present.wires);
  const solved = useEditor((editor) => editor.solved);
  const state = useShownState();
  const selection = useEditor((editor) => editor.selection);
  const shift = useDrawing((drawing) => drawing.shift);
  const carried = shift?.views;
  const resting = useMemo(() => scene.views.filter(({ key }) => carried?.has(key) !== true), [scene, carried]);
  const moving = useMemo(() => scene.views.filter(({ key }) => carried?.has(key) === true), [scene, carried]);
  const wireStrokes = useMemo(() => {
    const away = carried === undefined ? undefined : wiresOfViews(scene, wires, carried);
    const { look } = wireLooks(solved, state);
    const shown = wires.filter(({ id }) => scene.routed.paths.has(id) && away?.has(id) !== true);
    return strokesOfWires(shown, scene, (wire) => look(wire));
  }, [scene, wires, solved, state, carried]);
  const restingStrokes = useMemo(() => strokesOfViews(resting), [resting]);
  const movingStrokes = useMemo(() => strokesOfViews(moving), [moving]);
  const marked = useMemo(() => markedOf(scene, selection.parts, selection.wires), [scene, selection]);
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext("2d");
    if (element === null || context == null) return;
    const density = globalThis.devicePixelRatio;
    const [wide, high] = [Math.round(width * density), Math.round(height * density)];
    if (element.width !== wide) element.width = wide;
    if (element.height !== high) element.height = high;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, wide, high);
    const scale = PIXELS_PER_MM * zoom * density;
    context.setTransform(scale, 0, 0, scale, left * density, top * density);
    const accent = getComputedStyle(element).getPropertyValue("--sheet-accent");
    context.globalAlpha = 0.4;
    context.strokeStyle = context.fillStyle = accent;
    context.lineWidth = 3;
    context.stroke(marked.lines);
    context.globalAlpha = 0.12;
    context.fill(marked.parts);
    context.globalAlpha = 1;
    draw(context, wireStrokes);
    draw(context, restingStrokes);
    if (shift !== null) {
      context.translate(shift.by.x, shift.by.y);
      draw(context, movingStrokes);
    }
  });
  return <canvas ref={canvas} className="simplified" aria-hidden style={{ width, height }} />;
});

function draw(context: CanvasRenderingContext2D, strokes: readonly Strokes[]): void {
  for (const { path, colour, width, dash } of strokes) {
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.setLineDash([...dash]);
    context.stroke(path);
  }
}

function trace(path: Path2D, line: Path): void {
  line.forEach(([x, y], index) => (index === 0 ? path.moveTo(x, y) : path.lineTo(x, y)));
}

function strokesOfWires<Wire extends { readonly id: string }>(
  wires: readonly Wire[],
  scene: Scene,
  look: (wire: Wire) => Look,
): readonly Strokes[] {
  const paths = new Map<Look, Path2D>();
  for (const wire of wires) {
    const as = look(wire);
    const path = paths.get(as) ?? new Path2D();
    paths.set(as, path);
    for (const line of scene.routed.paths.get(wire.id) ?? []) trace(path, line);
  }
  return [...paths].map(([as, path]) => {
    const [colour, width, dash = []] = LOOKS[as];
    return { path, colour, width, dash };
  });
}

/** The lines of all symbols, one path for each width of pen. */
function strokesOfViews(views: readonly SceneView[]): readonly Strokes[] {
  const paths = new Map<Pen, Path2D>();
  for (const { list } of views)
    for (const item of list) {
      if (item.draw === "text" || item.ink === "none") continue;
      const pen = item.pen ?? "symbol";
      const path = paths.get(pen) ?? new Path2D();
      paths.set(pen, path);
      traceItem(path, item);
    }
  const colour = PALETTES.colour.ink;
  return [...paths].map(([pen, path]) => ({ path, colour, width: PEN_WIDTH[pen], dash: [] }));
}

function traceItem(path: Path2D, item: Exclude<Primitive, { readonly draw: "text" }>): void {
  switch (item.draw) {
    case "line":
      trace(path, item.points);
      if (item.closed === true) path.closePath();
      break;
    case "circle":
      path.moveTo(item.x + item.r, item.y);
      path.arc(item.x, item.y, item.r, 0, 2 * Math.PI);
      break;
    case "arc":
      path.addPath(new Path2D(arcPath(item)));
  }
}

function markedOf(scene: Scene, parts: readonly string[], wires: readonly string[]) {
  const marked = { parts: new Path2D(), lines: new Path2D() };
  for (const { part, box } of scene.views)
    if (parts.includes(part.id)) {
      const { x, y, width, height } = inflate(box, 0.6);
      marked.parts.rect(x, y, width, height);
    }
  for (const id of wires) for (const line of scene.routed.paths.get(id) ?? []) trace(marked.lines, line);
  return marked;
}
