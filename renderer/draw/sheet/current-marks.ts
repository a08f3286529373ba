/** A fixed arrowhead on each wire that carries current, with its figure beside it where there is room. */
import { inflate, overlap } from "../../../core/geometry/boxes.ts";
import type { Box } from "../../../core/geometry/display.ts";
import { titleBlockOf } from "../../../core/layout/paper.ts";
import { lineBox } from "../../../core/layout/text-line.ts";
import type { TextLine } from "../../../core/layout/text-line.ts";
import type { WireId } from "../../../core/project/document.ts";
import type { Ampere, Millimetre } from "../../../core/quantity/kinds.ts";
import type { Scene } from "./scene.ts";

export interface CurrentMark {
  readonly wire: WireId;
  readonly x: Millimetre;
  readonly y: Millimetre;
  /** Degrees clockwise from the positive x axis. */
  readonly angle: number;
  readonly figure: TextLine | undefined;
}

const HEAD: Millimetre = 2.6;
const SIZE = 2.5;
const GAP = 0.9;
/** Parts of the way along a piece, the middle first. */
const PLACES: readonly number[] = [0.5, 0.35, 0.65, 0.2, 0.8];

interface Piece {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly length: Millimetre;
}

/** "152 A", "8.3 A", "0.45 A": two or three figures. */
export function amperes(amps: Ampere): string {
  const size = Math.abs(amps);
  const digits = size >= 10 ? 0 : size >= 1 ? 1 : 2;
  return `${size.toFixed(digits)} A`;
}

/** Only wires with one line: a stub shows too little of its wire. */
export function currentMarks(scene: Scene, current: (wire: WireId) => Ampere | undefined): readonly CurrentMark[] {
  const lines = [...scene.routed.paths].flatMap(([wire, paths]) => {
    const [path] = paths;
    return paths.length === 1 && path !== undefined ? [{ wire, pieces: piecesOf(path) }] : [];
  });
  const taken: Box[] = [
    ...scene.views.flatMap(({ box, label }) => [inflate(box, -1), ...(label === undefined ? [] : [label])]),
    ...scene.texts.map(({ line }) => lineBox(line)),
    ...scene.routed.stubs.flatMap(({ texts }) => texts.map(lineBox)),
    titleBlockOf(scene.sheet),
  ];
  const strokes = lines.flatMap(({ pieces }) => pieces.map(boxOf));
  return lines.flatMap(({ wire, pieces }) => {
    const amps = current(wire);
    const longest = [...pieces].sort((a, b) => b.length - a.length);
    const [first] = longest;
    if (amps === undefined || first === undefined || first.length < HEAD + 1) return [];
    for (const piece of longest.slice(0, 3))
      for (const share of PLACES) {
        const mark = markOn(wire, piece, share, amps, (box) =>
          [...taken, ...strokes].some((other) => overlap(box, other, 0.2)),
        );
        if (mark?.figure === undefined) continue;
        taken.push(lineBox(mark.figure));
        return [mark];
      }
    return [bare(wire, first, 0.5, amps)];
  });
}

function bare(wire: WireId, { from, to }: Piece, share: number, amps: Ampere): CurrentMark {
  const [dx, dy] = amps >= 0 ? [to[0] - from[0], to[1] - from[1]] : [from[0] - to[0], from[1] - to[1]];
  return {
    wire,
    x: from[0] + (to[0] - from[0]) * share,
    y: from[1] + (to[1] - from[1]) * share,
    angle: (Math.atan2(dy, dx) * 180) / Math.PI,
    figure: undefined,
  };
}

function markOn(
  wire: WireId,
  piece: Piece,
  share: number,
  amps: Ampere,
  covered: (box: Box) => boolean,
): CurrentMark | undefined {
  if (piece.length < HEAD + 1) return undefined;
  const mark = bare(wire, piece, share, amps);
  const level = piece.from[1] === piece.to[1];
  const text = { text: amperes(amps), size: SIZE } as const;
  const lines: readonly TextLine[] = level
    ? [
        { ...text, x: mark.x, y: mark.y - GAP, anchor: "middle" },
        { ...text, x: mark.x, y: mark.y + GAP + 1.9, anchor: "middle" },
      ]
    : [
        { ...text, x: mark.x + GAP, y: mark.y + 0.9, anchor: "start" },
        { ...text, x: mark.x - GAP, y: mark.y + 0.9, anchor: "end" },
      ];
  const figure = lines.find((line) => !covered(lineBox(line)));
  return figure === undefined ? undefined : { ...mark, figure };
}

const piecesOf = (path: readonly (readonly [number, number])[]): readonly Piece[] =>
  path.slice(1).map((to, index) => {
    const from = path[index] ?? to;
    return { from, to, length: Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]) };
  });

const boxOf = ({ from, to }: Piece): Box => ({
  x: Math.min(from[0], to[0]),
  y: Math.min(from[1], to[1]),
  width: Math.abs(to[0] - from[0]),
  height: Math.abs(to[1] - from[1]),
});
