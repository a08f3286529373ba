/** Where the ends of a selected wire can be taken hold of: on its line, just off the terminal. */
import type { Point } from "../../../core/geometry/display.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { Project, WireEnd, WireId } from "../../../core/project/document.ts";
import type { Millimetre } from "../../../core/quantity/kinds.ts";
import type { Scene } from "./scene.ts";

export interface WireHandle extends Point {
  readonly wire: WireId;
  /** The end that it moves. */
  readonly end: 0 | 1;
  /** The end that stays, and where its line begins. */
  readonly fixed: WireEnd | null;
  readonly start: Point;
}

const OFF: Millimetre = 3.5;

export const sameEnd = (a: WireEnd, b: WireEnd): boolean => a[0] === b[0] && a[1] === b[1];

export function wireHandles(scene: Scene, project: Project, wires: readonly WireId[]): readonly WireHandle[] {
  return wires.flatMap((id) => {
    const wire = project.wires.find((candidate) => candidate.id === id);
    const lines = scene.routed.paths.get(id);
    if (wire === undefined || lines === undefined) return [];
    return ([0, 1] as const).flatMap((end): WireHandle[] => {
      const here = wire.ends[end];
      if (here === null) return looseHandle(scene, id, end, wire.ends[end === 0 ? 1 : 0]);
      const pin = scene.pinByKey.get(terminalKey(here));
      const line = pin === undefined ? undefined : lines.map((each) => startingAt(each, pin)).find(isFound);
      if (pin === undefined || line === undefined) return [];
      const fixed = wire.ends[end === 0 ? 1 : 0];
      const far = fixed === null ? undefined : scene.pinByKey.get(terminalKey(fixed));
      const [x, y] = line.at(-1) ?? [pin.x, pin.y];
      return [
        { wire: id, end, fixed, start: far === undefined ? { x, y } : { x: far.x, y: far.y }, ...along(line, OFF) },
      ];
    });
  });
}

/** A loose end is taken hold of at the tip of the line that comes from the other. */
function looseHandle(scene: Scene, id: WireId, end: 0 | 1, fixed: WireEnd | null): WireHandle[] {
  const pin = fixed === null ? undefined : scene.pinByKey.get(terminalKey(fixed));
  const line =
    pin === undefined
      ? undefined
      : scene.routed.paths
          .get(id)
          ?.map((each) => startingAt(each, pin))
          .find(isFound);
  const tip = line?.at(-1);
  if (pin === undefined || tip === undefined) return [];
  return [{ wire: id, end, fixed, start: { x: pin.x, y: pin.y }, x: tip[0], y: tip[1] }];
}

const isFound = (path: Path | undefined): path is Path => path !== undefined;

/** The path as seen from the pin; undefined where it does not touch it. */
function startingAt(path: Path, pin: Point): Path | undefined {
  const touches = (point: Path[number] | undefined): boolean => point?.[0] === pin.x && point[1] === pin.y;
  return touches(path[0]) ? path : touches(path.at(-1)) ? [...path].reverse() : undefined;
}

/** The place so far along a path; its middle if it is shorter than twice that. */
function along(path: Path, wanted: Millimetre): Point {
  const lengths = path.slice(1).map(([x, y], index) => {
    const [px, py] = path[index] ?? [x, y];
    return Math.abs(x - px) + Math.abs(y - py);
  });
  let left = Math.min(wanted, lengths.reduce((sum, length) => sum + length, 0) / 2);
  for (const [index, length] of lengths.entries()) {
    const [ax, ay] = path[index] ?? [0, 0];
    const [bx, by] = path[index + 1] ?? [ax, ay];
    if (left <= length && length > 0)
      return { x: ax + ((bx - ax) * left) / length, y: ay + ((by - ay) * left) / length };
    left -= length;
  }
  const [x, y] = path[0] ?? [0, 0];
  return { x, y };
}
