/**
 * The pen on the sheet: a note's number at each of its places, and a thin line from the open note to the first. Drawn
 * over the window and moved without React, because the sheet pans and zooms under it.
 */
import { useEffect, useMemo, useRef } from "react";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { MOST_NUMBERS, notesOf, numbersByPlace, placeKey } from "../../core/documents/numbering.ts";
import type { Note } from "../../core/documents/numbering.ts";
import { everyFrame, sheetWindow, within } from "../controls/on-screen.ts";
import type { ScreenPoint } from "../controls/on-screen.ts";
import type { EditorStore } from "../window/editor-store.ts";
import { onScreen, paperLie, placesOn } from "../window/paper-places.ts";
import type { PaperLie } from "../window/paper-places.ts";
import { openFinding } from "./places.ts";
import "./leaders.css";

/** Frames between two looks while the sheet stands still. */
const REST = 6;

export function Leaders() {
  const { store } = useSurroundings();
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const finding = useEditor((editor) => editor.finding);
  const notes = useMemo(() => notesOf(checked), [checked]);
  const numbers = useMemo(() => numbersByPlace(notes, finding), [notes, finding]);
  const root = useRef<HTMLDivElement>(null);
  const open = notes.find((note) => note.finding.id === finding);
  const first = open?.finding.where[0];
  const target = first === undefined ? null : placeKey(first);
  useEffect(() => {
    const layer = root.current;
    if (layer === null) return undefined;
    const pen = new Pen(layer, store);
    let still = REST;
    let seen = "";
    return everyFrame(() => {
      const paper = document.querySelector<HTMLElement>(".react-flow__viewport");
      const margin = document.querySelector(".frame-margin");
      const now = `${paper?.style.transform ?? ""} ${String(margin?.scrollTop ?? 0)}`;
      still = now === seen ? still + 1 : 0;
      seen = now;
      if (still === 0) pen.follow(target);
      else if (still % REST === 0) pen.settle(target);
    });
  }, [numbers, target, store]);
  return (
    <div ref={root} className="leaders" aria-hidden>
      <svg className="leader">
        <path className="leader-ground" />
        <path className="leader-line" />
      </svg>
      <div className="pen-clip">
        <div className="pen-room">
          {numbers.map(({ key, notes: at }) => (
            <div key={key} className="pen-numbers" data-place={key}>
              {inSight(at, finding).map(({ number, finding: each }) => (
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
              {at.length > MOST_NUMBERS && (
                <span className="pen-more" title={at.map(({ finding: { title } }) => title).join("\n")}>
                  +{at.length - MOST_NUMBERS}
                </span>
              )}
            </div>
          ))}
        </div>
      </div>
    </div>
  );
}

/** The worst of a place, and the one that is open. */
function inSight(notes: readonly Note[], open: string | null): readonly Note[] {
  const first = notes.slice(0, MOST_NUMBERS);
  const opened = notes.slice(MOST_NUMBERS).filter(({ finding }) => finding.id === open);
  return opened.length === 0 ? first : [...first.slice(0, MOST_NUMBERS - 1), ...opened];
}

/** Numbers and leader on the screen. */
class Pen {
  readonly #layer: HTMLElement;
  readonly #room: HTMLElement | null;
  readonly #numbers: readonly HTMLElement[];
  readonly #store: EditorStore;
  /** How the paper lay when the numbers were last put in their places. */
  #lie: PaperLie | undefined;

  constructor(layer: HTMLElement, store: EditorStore) {
    this.#layer = layer;
    this.#store = store;
    this.#room = layer.querySelector(".pen-room");
    this.#numbers = [...layer.querySelectorAll<HTMLElement>(".pen-numbers")];
  }

  /** While the paper moves: a shift takes all numbers along at once, another scale puts each in its place. */
  follow(target: string | null): void {
    const now = paperLie();
    const before = this.#lie;
    if (now !== undefined && before !== undefined && isShift(before, now) && this.#room !== null)
      this.#room.style.transform = `translate(${String(now.left - before.left)}px, ${String(now.top - before.top)}px)`;
    else this.#place(now);
    this.#lead(target, now);
  }

  settle(target: string | null): void {
    const now = paperLie();
    this.#place(now);
    this.#lead(target, now);
  }

  #place(lie: PaperLie | undefined): void {
    this.#lie = lie;
    const paper = sheetWindow();
    const origin = this.#layer.getBoundingClientRect();
    const places = placesOn(this.#store);
    const scene = lie === undefined || paper === undefined ? undefined : { lie, near: around(paper) };
    if (this.#room !== null && paper !== undefined) {
      const [top, left] = [paper.top - origin.top, paper.left - origin.left];
      this.#layer.style.setProperty(
        "--pen-clip",
        `${String(top)}px ${String(origin.right - paper.right)}px ${String(origin.bottom - paper.bottom)}px ${String(left)}px`,
      );
      this.#room.style.transform = "";
    }
    const taken: Stand[] = [];
    for (const element of this.#numbers) {
      const anchor = scene === undefined ? undefined : places(element.dataset["place"] ?? "");
      const at = scene === undefined || anchor === undefined ? undefined : onScreen(anchor, scene.lie);
      const shown = at !== undefined && scene !== undefined && within(at, scene.near);
      const visibility = shown ? "visible" : "hidden";
      if (element.style.visibility !== visibility) element.style.visibility = visibility;
      if (!shown) continue;
      const x = besideOthers({ x: at.x, y: at.y, width: NUMBER * element.childElementCount }, taken);
      const transform = `translate(${(x - origin.left).toFixed(1)}px, ${(at.y - origin.top).toFixed(1)}px)`;
      if (element.style.transform !== transform) element.style.transform = transform;
    }
  }

  #lead(target: string | null, lie: PaperLie | undefined): void {
    const anchor = target === null ? undefined : placesOn(this.#store)(target);
    const ends = anchor === undefined || lie === undefined ? undefined : leaderEnds(onScreen(anchor, lie));
    const origin = this.#layer.getBoundingClientRect();
    const data = ends === undefined ? "" : pathOf(ends, origin);
    for (const path of this.#layer.querySelectorAll(".leader path"))
      if (path.getAttribute("d") !== data) path.setAttribute("d", data);
  }
}

/** About the width and height of one number, px. */
const NUMBER = 20;

interface Stand {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** Numbers of neighbouring places stand side by side instead of over one another. */
function besideOthers(wanted: Stand, taken: Stand[]): number {
  let { x } = wanted;
  // From left to right, so that each step leads past the one it met.
  for (const other of taken.filter(({ y }) => Math.abs(y - wanted.y) < NUMBER - 3).sort((a, b) => a.x - b.x))
    if (x < other.x + other.width && other.x < x + wanted.width) x = other.x + other.width;
  taken.push({ ...wanted, x });
  return x;
}

/** The same scale, and so near that every number that now shows is in its place. */
const isShift = (before: PaperLie, now: PaperLie): boolean =>
  now.scale === before.scale && Math.max(Math.abs(now.left - before.left), Math.abs(now.top - before.top)) < AROUND;

/** Numbers this far outside the room are in place already when the paper is shifted. */
const AROUND = 400;

const around = ({ left, top, width, height }: DOMRect): DOMRect =>
  new DOMRect(left - AROUND, top - AROUND, width + 2 * AROUND, height + 2 * AROUND);

interface Ends {
  readonly from: ScreenPoint;
  readonly to: ScreenPoint;
}

function leaderEnds(place: ScreenPoint): Ends | undefined {
  const note = document.querySelector(".note-number[data-note='open']");
  const margin = note?.closest(".frame-margin")?.getBoundingClientRect();
  const paper = sheetWindow();
  if (note == null || margin === undefined || paper === undefined) return undefined;
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
