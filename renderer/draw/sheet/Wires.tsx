/** All wires of the sheet in one drawing, of which only what shows is mounted. */
import { memo, useMemo } from "react";
import { overlap } from "../../../core/geometry/boxes.ts";
import type { Box, DisplayList } from "../../../core/geometry/display.ts";
import { drawWireText } from "../../../core/drawing/sheet.ts";
import { textPrimitive } from "../../../core/drawing/view-drawing.ts";
import { lineBox } from "../../../core/layout/text-line.ts";
import type { Path } from "../../../core/layout/lines.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { Wire, WireId } from "../../../core/project/document.ts";
import { useEditor } from "../../window/editor-context.ts";
import { useShownState } from "../../window/shown-state.ts";
import { currentMarks } from "./current-marks.ts";
import type { CurrentMark } from "./current-marks.ts";
import { DisplayListSvg } from "./DisplayListSvg.tsx";
import type { Scene } from "./scene.ts";
import { placeOf, viewBoxOf } from "./scale.ts";
import { useDrawing } from "./use-drawing.ts";
import { useVisibleBox } from "./visible.ts";
import { wireLooks } from "./wire-look.ts";

/** The wires with an end on one of these views. */
export function wiresOfViews(scene: Scene, wires: readonly Wire[], views: ReadonlySet<string>): ReadonlySet<WireId> {
  const touched = wires.filter(({ ends }) =>
    ends.some((end) => end !== null && views.has(scene.pinByKey.get(terminalKey(end))?.view.key ?? "")),
  );
  return new Set(touched.map(({ id }) => id));
}

const NONE: ReadonlySet<WireId> = new Set();

export const Wires = memo(function Wires({ scene }: { readonly scene: Scene }) {
  const wires = useEditor((editor) => editor.history.present.wires);
  const solved = useEditor((editor) => editor.solved);
  const state = useShownState();
  const selected = useEditor((editor) => editor.selection.wires);
  const hovered = useDrawing((drawing) => drawing.hoveredWire);
  const carried = useDrawing((drawing) => drawing.shift?.views ?? null);
  const visible = useVisibleBox();
  const looks = useMemo(() => wireLooks(solved, state), [solved, state]);
  const marks = useMemo(() => (state === undefined ? [] : currentMarks(scene, looks.current)), [scene, looks, state]);
  const away = useMemo(() => (carried === null ? NONE : wiresOfViews(scene, wires, carried)), [scene, wires, carried]);
  const shown = useMemo(
    () =>
      wires.flatMap((wire) => {
        const lines = scene.routed.paths.get(wire.id);
        if (lines === undefined || !lines.some((line) => overlap(boundsOf(line), visible, 5))) return [];
        return [{ wire, lines }];
      }),
    [wires, scene, visible],
  );
  const texts = useMemo(() => textsOf(scene), [scene]);
  const chosen = new Set(selected);
  return (
    <svg className="wires" aria-hidden style={placeOf(visible)} viewBox={viewBoxOf(visible)}>
      {shown.map(({ wire, lines }) =>
        away.has(wire.id) ? null : (
          <WireLine
            key={wire.id}
            id={wire.id}
            lines={lines}
            look={looks.look(wire)}
            marked={chosen.has(wire.id) ? "selected" : hovered === wire.id ? "hovered" : ""}
          />
        ),
      )}
      {away.size === 0 &&
        scene.dots
          .filter(({ x, y }) => overlap({ x, y, width: 0, height: 0 }, visible, 1))
          .map(({ x, y }) => <circle key={`${String(x)} ${String(y)}`} className="wire-dot" cx={x} cy={y} r={0.75} />)}
      {marks.map((mark) => (away.has(mark.wire) ? null : <Current key={mark.wire} mark={mark} />))}
      {texts.map(({ key, wire, room, list }) =>
        away.has(wire) || !overlap(room, visible) ? null : <DisplayListSvg key={key} list={list} />,
      )}
    </svg>
  );
});

const pathData = (line: Path): string => `M${line.map((point) => point.join(" ")).join("L")}`;

interface WireLineProps {
  readonly id: WireId;
  readonly lines: readonly Path[];
  readonly look: string;
  readonly marked: "selected" | "hovered" | "";
}

const WireLine = memo(function WireLine({ id, lines, look, marked }: WireLineProps) {
  const data = useMemo(() => lines.map(pathData).join(""), [lines]);
  return (
    <g className="wire" data-wire={id} data-look={look} data-marked={marked === "" ? undefined : marked}>
      <path className="wire-reach" d={data} />
      {marked !== "" && <path className="wire-mark" d={data} />}
      {look === "chassis" && <path className="wire-under" d={data} />}
      <path className="wire-line" d={data} />
    </g>
  );
});

function Current({ mark: { x, y, angle, figure } }: { readonly mark: CurrentMark }) {
  return (
    <>
      <path
        className="wire-current"
        d="M-1.2-0.75L1.2 0L-1.2 0.75Z"
        transform={`translate(${String(x)} ${String(y)}) rotate(${String(angle)})`}
      />
      {figure !== undefined && (
        <text className="wire-amps" x={figure.x} y={figure.y} fontSize={figure.size} textAnchor={figure.anchor}>
          {figure.text}
        </text>
      )}
    </>
  );
}

interface SheetText {
  readonly key: string;
  readonly wire: WireId;
  readonly room: Box;
  readonly list: DisplayList;
}

/** Numbers beside their lines, and what stands at the tips of lines that leave the sheet. */
function textsOf(scene: Scene): readonly SheetText[] {
  const numbers = scene.texts.map(
    (text): SheetText => ({
      key: `number ${text.wire}`,
      wire: text.wire,
      room: lineBox(text.line),
      list: drawWireText(text),
    }),
  );
  const tips = scene.routed.stubs.flatMap(({ texts, numbered }, index) =>
    texts.map(
      (line): SheetText => ({
        key: `tip ${String(index)} ${line.wire}`,
        wire: line.wire,
        room: lineBox(line),
        list: [textPrimitive(line, numbered ? "ink" : "faint")],
      }),
    ),
  );
  return [...numbers, ...tips];
}

function boundsOf(line: Path): Box {
  const xs = line.map(([x]) => x);
  const ys = line.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}
