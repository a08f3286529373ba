/** Tells what is drawn over the sheet where its things lie. */
import { useEffect } from "react";
import { penAnchors } from "../../../core/drawing/pen-anchors.ts";
import type { PenAnchor } from "../../../core/drawing/pen-anchors.ts";
import type { Point } from "../../../core/geometry/display.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import { showPlaces } from "../../window/paper-places.ts";
import type { PaperPlaces } from "../../window/paper-places.ts";
import type { Scene } from "./scene.ts";

/** Beside a terminal or a wire, so that it is not covered; at the corner of a part. Pixels. */
const ASIDE: Readonly<Record<PenAnchor["on"], Point>> = {
  terminal: { x: 12, y: -12 },
  wire: { x: 0, y: -12 },
  part: { x: 0, y: 0 },
};

export function placesOfScene(scene: Scene): PaperPlaces {
  const anchors = penAnchors(scene.views, scene.routed.paths);
  return (key) => {
    const anchor = anchors(key);
    return anchor === undefined ? undefined : { x: anchor.x, y: anchor.y, aside: ASIDE[anchor.on] };
  };
}

export function useScenePlaces(store: EditorStore, scene: Scene | undefined): void {
  useEffect(() => {
    showPlaces(store, scene === undefined ? undefined : placesOfScene(scene));
    return () => showPlaces(store, undefined);
  }, [store, scene]);
}
