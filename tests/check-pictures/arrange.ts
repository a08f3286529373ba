/** Both drawings of a pair laid out as one, so that what is the same stands at the same place, and drawn together. */
import { union as unionBox } from "../../core/geometry/boxes.ts";
import { labelBox, labelOf } from "../../core/layout/label.ts";
import { placedViews, viewsOf } from "../../core/layout/placed-view.ts";
import { placeParts } from "../../core/layout/place.ts";
import type { Part, Project, ViewPlacement, Wire } from "../../core/project/document.ts";
import { CompactKinds, shownWires } from "./compact.ts";
import type { Keyed } from "./differences.ts";

const SHEET = { id: "s1", name: "Picture", paper: "A3", orientation: "landscape" } as const;
/** Laid out on narrow paper: a picture is read beside its text. */
const NARROW = { ...SHEET, paper: "A4", orientation: "portrait" } as const;
/** Gaps between symbols are drawn together to this, mm. */
const GAP = { x: 15, y: 10 } as const;
/** Where the picture begins on the paper: room for what leads away to the left and above. */
const BEGIN = { x: 60, y: 50 } as const;

/** Both drawings with places, kinds to draw them by, and only what is shown. */
export interface Arranged {
  readonly wrong: Project;
  readonly right: Project;
  readonly kinds: CompactKinds;
}

/** `pointed`: ids of wires and terminals of the wrong drawing where the pen points; they are shown in any case. */
export function arrange(
  wrong: Keyed,
  right: Keyed,
  shown: ReadonlySet<string>,
  pointed: ReadonlySet<string>,
  everyView: boolean,
): Arranged {
  const sides = [wrong, right].map((of) => ({
    of,
    wires: shownWires(of, shown, of === wrong ? pointed : alike(wrong, of, pointed)),
  }));
  const wired = new Map<string, Set<string>>();
  const within = new Map<string, Set<string>>();
  const note = (terminals: Map<string, Set<string>>, key: string, terminal: string): void => {
    terminals.set(key, (terminals.get(key) ?? new Set()).add(terminal));
  };
  for (const { of, wires } of sides)
    for (const { ends } of wires) {
      const inside = ends.every((end) => end !== null && shown.has(of.partKeys.get(end[0]) ?? ""));
      for (const end of ends) {
        if (end === null) continue;
        const key = of.partKeys.get(end[0]) ?? "";
        note(wired, key, end[1]);
        if (inside || everyView) note(within, key, end[1]);
      }
    }
  for (const at of pointed) {
    const [id = "", terminal] = at.split(":");
    if (terminal === undefined) continue;
    note(wired, wrong.partKeys.get(id) ?? "", terminal);
    note(within, wrong.partKeys.get(id) ?? "", terminal);
  }
  const kinds = new CompactKinds([wrong, right], shown, wired, within);
  const placed = tighten(placeParts(together(sides, shown, kinds), kinds.lookup), kinds);
  const places = new Map(placed.parts.map((part) => [part.id, part.views]));
  const [a, b] = sides.map(({ of, wires }) => onOneSheet(of, wires, places, kinds));
  if (a === undefined || b === undefined) throw new Error("there are two sides");
  return { wrong: a, right: b, kinds };
}

/** The same places in the other drawing. */
function alike(from: Keyed, to: Keyed, places: ReadonlySet<string>): ReadonlySet<string> {
  return new Set(
    [...places].flatMap((at) => {
      const wire = from.wireKeys.get(at);
      if (wire !== undefined) return to.wires.get(wire)?.id ?? [];
      const [id = "", terminal] = at.split(":");
      const part = to.parts.get(from.partKeys.get(id) ?? "")?.id;
      return part === undefined ? [] : terminal === undefined ? part : `${part}:${terminal}`;
    }),
  );
}

interface Shown {
  readonly of: Keyed;
  readonly wires: readonly Wire[];
}

/** One project of the parts shown and the wires between them, with keys for ids. */
function together(sides: readonly Shown[], shown: ReadonlySet<string>, kinds: CompactKinds): Project {
  const parts = new Map<string, Part>();
  const wires = new Map<string, Wire>();
  const views = (part: Part): number => viewsOf(part, kinds.lookup)?.views.length ?? 0;
  const counts = sides.map(({ of }) => [...of.parts.keys()].filter((key) => shown.has(key)).length);
  const most = Math.max(...counts);
  const fullest = counts.every((count) => count === most) ? undefined : sides[counts.indexOf(most)]?.of;
  for (const { of, wires: kept } of sides) {
    for (const [key, whole] of of.parts) {
      if (!shown.has(key)) continue;
      const part = { ...whole, id: key, kind: kinds.name(key, whole), views: [] };
      const known = parts.get(key);
      if (known === undefined || views(part) > views(known)) parts.set(key, part);
    }
    // The fuller drawing decides how things stand; what the other one has besides finds its way among them.
    if (fullest !== undefined && of !== fullest) continue;
    for (const wire of kept) {
      const [a, b] = wire.ends.map((end) => (end === null ? null : ([of.partKeys.get(end[0]) ?? "", end[1]] as const)));
      if (a === undefined || b === undefined || a === null || b === null) continue;
      if (!shown.has(a[0]) || !shown.has(b[0])) continue;
      const key = of.wireKeys.get(wire.id) ?? wire.id;
      wires.set(key, { ...wire, id: key, ends: [a, b] });
    }
  }
  const [first] = sides;
  if (first === undefined) throw new Error("there are two sides");
  return {
    ...first.of.project,
    sheets: [NARROW],
    parts: [...parts.values()],
    wires: [...wires.values()],
    states: [],
    netNames: [],
    accepted: [],
  };
}

/** Draws rows and columns together, and moves all of it to where the picture begins. */
function tighten(project: Project, kinds: CompactKinds): Project {
  // Whatever found no room on the first sheet stands below it.
  const height = 300;
  const onOne = project.parts.map((part) => ({
    ...part,
    views: part.views.map((view) => {
      const index = Math.max(
        0,
        project.sheets.findIndex(({ id }) => id === view.sheet),
      );
      return { ...view, sheet: SHEET.id, y: view.y + index * height };
    }),
  }));
  const views = placedViews({ ...project, sheets: [SHEET], parts: onOne }, SHEET.id, kinds.lookup);
  const boxes = views.map((view) => unionBox([view.box, labelBox(labelOf(view)) ?? view.box]) ?? view.box);
  const x = drawnTogether(
    boxes.map((box) => [box.x, box.x + box.width]),
    GAP.x,
    BEGIN.x,
  );
  const y = drawnTogether(
    boxes.map((box) => [box.y, box.y + box.height]),
    GAP.y,
    BEGIN.y,
  );
  const moved = new Map(views.map((view, index) => [`${view.part.id} ${view.view.id}`, boxes[index]] as const));
  const parts = onOne.map((part) => ({
    ...part,
    views: part.views.map((place) => {
      const box = moved.get(`${part.id} ${place.view}`);
      return box === undefined ? place : { ...place, x: place.x + x(box.x), y: place.y + y(box.y) };
    }),
  }));
  return { ...project, sheets: [SHEET], parts };
}

type Span = readonly [from: number, to: number];

/** How far what begins at a coordinate is moved, in steps of the grid. */
function drawnTogether(spans: readonly Span[], gap: number, begin: number): (from: number) => number {
  const sorted = spans.toSorted(([a], [b]) => a - b);
  const steps: [from: number, by: number][] = [];
  let by = snapDown(begin - (sorted[0]?.[0] ?? begin));
  let reach = sorted[0]?.[0] ?? 0;
  for (const [from, to] of sorted) {
    if (from - reach > gap) by -= snapDown(from - reach - gap);
    steps.push([from, by]);
    reach = Math.max(reach, to);
  }
  return (from) => steps.findLast(([at]) => at <= from)?.[1] ?? 0;
}

const snapDown = (value: number): number => Math.floor(value / 2.5) * 2.5;

/** The drawing with only the parts shown on its one sheet; wires that lead to others end there as stubs. */
function onOneSheet(
  of: Keyed,
  wires: readonly Wire[],
  places: ReadonlyMap<string, readonly ViewPlacement[]>,
  kinds: CompactKinds,
): Project {
  const parts = of.project.parts.map((whole): Part => {
    const key = of.partKeys.get(whole.id) ?? "";
    const placed = places.get(key);
    if (placed === undefined) return { ...whole, views: [] };
    const part = { ...whole, kind: kinds.name(key, whole) };
    const known = viewsOf(part, kinds.lookup)?.views.map(({ id }) => id) ?? [];
    // A view that stands on no sheet of the drawing stands on none of the picture.
    const stands = (view: string): boolean => whole.views.some((place) => place.view === view);
    return { ...part, views: placed.filter(({ view }) => known.includes(view) && stands(view)) };
  });
  const drawn = wires.map(({ routes: _routes, ...wire }) => ({
    ...wire,
    number: wire.number === "" ? "no number" : wire.number,
  }));
  return { ...of.project, sheets: [SHEET], parts, wires: drawn };
}

export const PICTURE_SHEET: string = SHEET.id;
