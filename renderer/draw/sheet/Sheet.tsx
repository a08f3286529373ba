/**
 * The sheet: paper, parts and wires on a canvas that pans and zooms. What is drawn comes from the same display lists
 * as the export; what the hand does is in hand.ts and keys.ts.
 */
import { useCallback, useEffect, useMemo, useReducer, useRef, useState } from "react";
import type { KeyboardEvent, PointerEvent } from "react";
import { ReactFlow, ReactFlowProvider, ViewportPortal, useReactFlow, useStore } from "@xyflow/react";
import type { NodeTypes, ReactFlowInstance } from "@xyflow/react";
import { paperSize } from "../../../core/layout/paper.ts";
import { terminalKey } from "../../../core/layout/placed-view.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import "./sheet.css";
import { INKS } from "./DisplayListSvg.tsx";
import { SHEET_SURFACE, viewKey } from "./drawing-state.ts";
import type { Cursor } from "./drawing-state.ts";
import { Hand } from "./hand.ts";
import { Hint } from "./Hint.tsx";
import { freePlace } from "./placing.ts";
import { useGestures } from "./gestures.ts";
import { SheetKeys } from "./keys.ts";
import { Overlay } from "./Overlay.tsx";
import { Paper } from "./Paper.tsx";
import { canvasOf, showWhole } from "./canvas.ts";
import { RouteBeside } from "./route-beside.ts";
import { SceneKeeper } from "./scene.ts";
import type { Scene } from "./scene.ts";
import { Simplified, useAfar } from "./Simplified.tsx";
import { useScenePlaces } from "./scene-places.ts";
import { Spoken } from "./Spoken.tsx";
import { Unplaced } from "./Unplaced.tsx";
import { useRevealSelection } from "./reveal.ts";
import { useDrawing, useDrawingStore } from "./use-drawing.ts";
import { useSheetNodes } from "./nodes.ts";
import { terminalElement, viewElement, ViewNode } from "./ViewNode.tsx";
import { Wires } from "./Wires.tsx";

const NODE_TYPES: NodeTypes = { view: ViewNode };
/** Middle and right button pan. */
const PAN_BUTTONS = [1, 2];
const ATTRIBUTION = { hideAttribution: true };

export function Sheet() {
  return (
    <ReactFlowProvider>
      <Surface />
    </ReactFlowProvider>
  );
}

function useScene(): { readonly scene: Scene | undefined; readonly pending: boolean } {
  const project = useEditor((editor) => editor.history.present);
  const sheet = useEditor((editor) => editor.sheet);
  const [round, again] = useReducer((count: number) => count + 1, 0);
  const [{ keeper, beside }] = useState(() => {
    const made = new RouteBeside(again);
    return { keeper: new SceneKeeper(made), beside: made };
  });
  useEffect(() => () => beside.close(), [beside]);
  // `round` counts what the worker has routed: the keeper then gives another scene for the same project.
  return useMemo(() => {
    const scene = keeper.sceneOf(project, sheet);
    return { round, scene, pending: keeper.pending };
  }, [keeper, project, sheet, round]);
}

function useHand(flow: ReactFlowInstance): { readonly hand: Hand; readonly keys: SheetKeys } {
  const { store } = useSurroundings();
  const drawing = useDrawingStore();
  const [made] = useState(() => {
    const hand = new Hand(store, drawing, canvasOf(flow));
    return { hand, keys: new SheetKeys(hand) };
  });
  return made;
}

/** Keys pressed while nothing has the focus (after a dialog has closed, say) are meant for the sheet. */
function useUnownedKeys(keys: SheetKeys): void {
  useEffect(() => {
    const onKey = (event: globalThis.KeyboardEvent): void => {
      if (event.defaultPrevented || document.activeElement !== document.body) return;
      if (document.querySelector("dialog[open]") !== null || !keys.down(event)) return;
      event.preventDefault();
      if (document.activeElement === document.body) document.getElementById(SHEET_SURFACE)?.focus();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [keys]);
}

function Surface() {
  const { host } = useSurroundings();
  const flow = useReactFlow();
  const { scene, pending } = useScene();
  const { hand, keys } = useHand(flow);
  const afar = useAfar();
  const nodes = useSheetNodes(scene, afar);
  const cursor = useDrawing((drawing) => drawing.cursor);
  const name = scene?.sheet.name ?? "";
  useEffect(() => hand.show(scene), [hand, scene]);
  useScenePlaces(hand.store, scene);
  useRevealSelection(hand, scene);
  useHanging(hand, scene);
  useGestures(hand);
  useUnownedKeys(keys);
  const viewChosen = useWholeSheet(flow, scene);
  useEffect(
    () =>
      host.onMenu((action) => {
        if (action === "zoom-whole") showWhole(flow);
        else if (action === "zoom-in" || action === "zoom-out") {
          viewChosen();
          void (action === "zoom-in" ? flow.zoomIn() : flow.zoomOut());
        }
      }),
    [host, flow, viewChosen],
  );
  const onKeyDown = (event: KeyboardEvent): void => {
    if (keys.down(event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  };
  return (
    <section className="sheet" aria-label={`Sheet ${name}`} data-routing={pending ? "working" : "settled"} style={INKS}>
      <ReactFlow
        id={SHEET_SURFACE}
        className="sheet-surface"
        tabIndex={0}
        aria-label={`Sheet ${name}: arrow keys go from part to part, Enter to its terminals, a letter opens the shelf`}
        aria-activedescendant={cursor === null ? undefined : elementOf(cursor)}
        nodes={nodes}
        nodeTypes={NODE_TYPES}
        onKeyDown={onKeyDown}
        onKeyUp={() => keys.up()}
        onPointerLeave={() => hand.leave()}
        onPointerDown={(event: PointerEvent) => hand.press(event.nativeEvent)}
        onMoveStart={(event) => event !== null && viewChosen()}
        onContextMenu={(event) => event.preventDefault()}
        onlyRenderVisibleElements
        elevateNodesOnSelect={false}
        nodesDraggable={false}
        nodesConnectable={false}
        nodesFocusable={false}
        elementsSelectable={false}
        disableKeyboardA11y
        deleteKeyCode={null}
        selectionKeyCode={null}
        multiSelectionKeyCode={null}
        panActivationKeyCode={null}
        panOnDrag={PAN_BUTTONS}
        panOnScroll
        zoomOnDoubleClick={false}
        minZoom={0.15}
        maxZoom={5}
        proOptions={ATTRIBUTION}
      >
        {scene !== undefined && (
          <>
            <ViewportPortal>
              <Paper id={scene.sheet.id} />
              {!afar && <Wires scene={scene} />}
              <Overlay scene={scene} />
            </ViewportPortal>
            {afar && <Simplified scene={scene} />}
            <Hint />
          </>
        )}
      </ReactFlow>
      {scene?.views.length === 0 && <Empty />}
      <Unplaced />
      <Spoken />
    </section>
  );
}

/**
 * The whole paper shows at first, and whenever another sheet or file is opened; it goes on to show whole when the room
 * for it changes, until the person has panned or zoomed.
 */
function useWholeSheet(flow: ReactFlowInstance, scene: Scene | undefined): () => void {
  const file = useEditor((editor) => editor.fileName);
  const width = useStore((state) => state.width);
  const height = useStore((state) => state.height);
  const own = useRef("");
  const paper = scene === undefined ? "" : JSON.stringify([scene.sheet.id, paperSize(scene.sheet), file]);
  useEffect(() => {
    if (paper === "" || own.current === paper) return;
    own.current = "";
    const frame = requestAnimationFrame(() => showWhole(flow));
    return () => cancelAnimationFrame(frame);
  }, [flow, paper, width, height]);
  return useCallback(() => {
    own.current = paper;
  }, [paper]);
}

/** What was taken from the shelf waits in the middle, where there is room, until pointer or arrow keys move it. */
function useHanging(hand: Hand, scene: Scene | undefined): void {
  const placing = useDrawing((drawing) => drawing.placing);
  useEffect(() => {
    if (placing === null || scene === undefined || hand.drawing.getState().at !== null) return;
    const at = freePlace(hand.store.project, placing, scene, hand.canvas.middle());
    hand.drawing.setState({ at, cursor: null });
    hand.store.set({ hovered: null });
  }, [hand, placing, scene]);
}

const elementOf = (cursor: Cursor): string =>
  cursor.on === "part" ? viewElement(viewKey(cursor.part, cursor.view)) : terminalElement(terminalKey(cursor.end));

function Empty() {
  const open = useDrawing((drawing) => drawing.placing !== null);
  return open ? null : (
    <p className="sheet-empty">An empty sheet. Type the name of a part, or take one from the shelf at the left.</p>
  );
}
