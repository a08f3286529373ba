/**
 * The pen on the sheet: a note's number at each of its places, and a thin line from the open note to the first. Drawn
 * over the window and moved without React, because the sheet pans and zooms under it.
 */
import { useEffect, useMemo, useRef } from "react";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { notesOf, numbersByPlace } from "./numbering.ts";
import { everyFrame, besidePlace, sheetWindow, within } from "../controls/on-screen.ts";
import type { ScreenPoint } from "../controls/on-screen.ts";
import { openFinding, placeKey } from "./places.ts";
import "./leaders.css";

/** Frames between two looks while the sheet stands still. */
const REST = 6;

export function Leaders() {
  const { store } = useSurroundings();
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const finding = useEditor((editor) => editor.finding);
  const project = useEditor((editor) => editor.history.present);
  const notes = useMemo(() => notesOf(checked), [checked]);
  const numbers = useMemo(() => numbersByPlace(notes), [notes]);
  const root = useRef<HTMLDivElement>(null);
  const open = notes.find((note) => note.finding.id === finding);
  const first = open?.finding.where[0];
  const target = first === undefined ? null : placeKey(first);
  useEffect(() => {
    const layer = root.current;
    if (layer === null) return undefined;
    let still = REST;
    let seen = "";
    return everyFrame(() => {
      const paper = document.querySelector<HTMLElement>(".react-flow__viewport");
      const margin = document.querySelector(".frame-margin");
      const now = `${paper?.style.transform ?? ""} ${String(margin?.scrollTop ?? 0)}`;
      still = now === seen ? still + 1 : REST;
      seen = now;
      if (still < REST) return;
      still = 0;
      moveNumbers(layer);
      moveLeader(layer, target);
    });
  }, [numbers, target, project]);
  return (
    <div ref={root} className="leaders" aria-hidden>
      <svg className="leader">
        <path className="leader-ground" />
        <path className="leader-line" />
      </svg>
      {numbers.map(({ key, notes: at }) => (
        <div key={key} className="pen-numbers" data-place={key}>
          {at.map(({ number, finding: each }) => (
            <button
              key={each.id}
              type="button"
              tabIndex={-1}
              className="pen-number"
              data-open={each.id === finding}
              title={each.title}
              onClick={() => openFinding(store, each)}
            >
              {number}
            </button>
          ))}
        </div>
      ))}
    </div>
  );
}

/** Reads all places first and writes afterwards, so that the browser lays out once. */
function moveNumbers(layer: HTMLElement): void {
  const paper = sheetWindow();
  const origin = layer.getBoundingClientRect();
  const moves = [...layer.querySelectorAll<HTMLElement>(".pen-numbers")].map((element) => {
    const place = besidePlace(element.dataset["place"] ?? "");
    const shown = place !== undefined && paper !== undefined && within(place, paper);
    return { element, at: shown ? place : undefined };
  });
  for (const { element, at } of moves) {
    element.style.visibility = at === undefined ? "hidden" : "visible";
    if (at !== undefined)
      element.style.transform = `translate(${(at.x - origin.left).toFixed(1)}px, ${(at.y - origin.top).toFixed(1)}px)`;
  }
}

function moveLeader(layer: HTMLElement, target: string | null): void {
  const ends = target === null ? undefined : leaderEnds(target);
  const origin = layer.getBoundingClientRect();
  const data = ends === undefined ? "" : pathOf(ends, origin);
  for (const path of layer.querySelectorAll(".leader path")) path.setAttribute("d", data);
}

interface Ends {
  readonly from: ScreenPoint;
  readonly to: ScreenPoint;
}

function leaderEnds(target: string): Ends | undefined {
  const note = document.querySelector(".note-number[data-note='open']");
  const margin = note?.closest(".frame-margin")?.getBoundingClientRect();
  const paper = sheetWindow();
  const place = besidePlace(target);
  if (note == null || margin === undefined || paper === undefined || place === undefined) return undefined;
  const { left, top, height } = note.getBoundingClientRect();
  const from = { x: left, y: top + height / 2 };
  // A note that was scrolled away has no line: it would point at nothing.
  if (!within(from, margin) || !within(place, paper)) return undefined;
  return { from, to: place };
}

/** Level out of the margin, then straight to the place. */
function pathOf({ from, to }: Ends, { left, top }: DOMRect): string {
  const point = ({ x, y }: ScreenPoint): string => `${(x - left).toFixed(1)} ${(y - top).toFixed(1)}`;
  return `M${point(from)}L${point({ x: from.x - 20, y: from.y })}L${point(to)}`;
}
