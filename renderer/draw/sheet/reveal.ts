/** What is selected elsewhere (a finding, the outline, the command field) comes into view on its sheet. */
import { useEffect, useRef } from "react";
import { overlap, union } from "../../../core/geometry/boxes.ts";
import type { Box } from "../../../core/geometry/display.ts";
import { pinPlaces, terminalKey } from "../../../core/layout/placed-view.ts";
import type { Project, SheetId } from "../../../core/project/document.ts";
import { partById } from "../../../core/project/lookup.ts";
import { useEditor } from "../../window/editor-context.ts";
import type { Selection } from "../../window/selection.ts";
import type { Hand } from "./hand.ts";
import type { Scene } from "./scene.ts";
import { useDrawing } from "./use-drawing.ts";

export function useRevealSelection(hand: Hand, scene: Scene | undefined): void {
  const selection = useEditor((editor) => editor.selection);
  const shown = useDrawing((drawing) => drawing.shown);
  const done = useRef<readonly unknown[]>([]);
  useEffect(() => {
    if (scene === undefined || hand.pressing) return;
    // Once for each selection: an edit of what is selected does not bring it back from where the person left it.
    const wanted = [selection, shown, scene.sheet.id];
    if (wanted.every((value, index) => value === done.current[index])) return;
    done.current = wanted;
    const boxes = boxesOf(scene, selection);
    const [first] = boxes;
    if (first !== undefined) {
      const visible = hand.canvas.visible();
      if (!boxes.some((box) => overlap(box, visible))) hand.canvas.reveal(first);
      return;
    }
    const elsewhere = sheetOf(hand.store.project, selection);
    if (elsewhere !== undefined && elsewhere !== scene.sheet.id) hand.store.set({ sheet: elsewhere });
  }, [hand, scene, selection, shown]);
}

function boxesOf(scene: Scene, { parts, wires }: Selection): readonly Box[] {
  const views = scene.views.filter(({ part }) => parts.includes(part.id)).map(({ room }) => room);
  const lines = wires.flatMap((id) => {
    const points = (scene.routed.paths.get(id) ?? []).flat();
    const box = union(points.map(([x, y]) => ({ x, y, width: 0, height: 0 })));
    return box === undefined ? [] : [box];
  });
  return [...views, ...lines];
}

/** The first sheet on which something of it stands. */
function sheetOf(project: Project, { parts, wires }: Selection): SheetId | undefined {
  for (const id of parts) {
    const place = partById(project, id)?.views[0];
    if (place !== undefined) return place.sheet;
  }
  const pins = pinPlaces(project);
  for (const id of wires)
    for (const end of project.wires.find((wire) => wire.id === id)?.ends ?? []) {
      const pin = end === null ? undefined : pins.get(terminalKey(end));
      if (pin !== undefined) return pin.sheet;
    }
  return undefined;
}
