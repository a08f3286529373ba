/** Tells what is drawn over the sheet where its things lie. */
import { useEffect } from "react";
import { inflate } from "../../../core/geometry/boxes.ts";
import type { Point } from "../../../core/geometry/display.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import { showPlaces } from "../../window/paper-places.ts";
import type { PaperPlaces } from "../../window/paper-places.ts";
import type { Scene } from "./scene.ts";

/** Beside a terminal or a wire, so that it is not covered; at the corner of a part. Pixels. */
const BESIDE_TERMINAL: Point = { x: 12, y: -12 };
const ABOVE_WIRE: Point = { x: 0, y: -12 };
const AT_CORNER: Point = { x: 0, y: 0 };

export function placesOfScene(scene: Scene): PaperPlaces {
  const views = new Map(scene.views.toReversed().map((view) => [view.part.id, view]));
  return (key) => {
    const pin = scene.pinByKey.get(key);
    if (pin !== undefined) return { x: pin.x, y: pin.y, aside: BESIDE_TERMINAL };
    const view = views.get(key);
    if (view !== undefined) {
      const { x, y, width } = inflate(view.box, -0.9);
      return { x: x + width, y, aside: AT_CORNER };
    }
    const [line] = scene.routed.paths.get(key) ?? [];
    return line === undefined ? undefined : { ...halfWay(line), aside: ABOVE_WIRE };
  };
}

function halfWay(line: Path): Point {
  const lengths = line
    .slice(1)
    .map(([x, y], index) => Math.hypot(x - (line[index]?.[0] ?? x), y - (line[index]?.[1] ?? y)));
  let left = lengths.reduce((sum, length) => sum + length, 0) / 2;
  for (const [index, length] of lengths.entries()) {
    const [a, b] = [line[index], line[index + 1]];
    if (a === undefined || b === undefined) break;
    if (left <= length) {
      const part = length === 0 ? 0 : left / length;
      return { x: a[0] + (b[0] - a[0]) * part, y: a[1] + (b[1] - a[1]) * part };
    }
    left -= length;
  }
  const [x = 0, y = 0] = line[0] ?? [];
  return { x, y };
}

export function useScenePlaces(store: EditorStore, scene: Scene | undefined): void {
  useEffect(() => {
    showPlaces(store, scene === undefined ? undefined : placesOfScene(scene));
    return () => showPlaces(store, undefined);
  }, [store, scene]);
}
