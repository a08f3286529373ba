/** The views that stand on a sheet, in the sheet's own millimetres. */
import type { Box } from "../geometry/display.ts";
import { placeBox, placePoint, placeSide, type Side } from "../geometry/placements.ts";
import type { PartKind, Values, View } from "../parts/define.ts";
import { kindOf } from "../parts/catalogue.ts";
import { readValues } from "../parts/values.ts";
import type { Part, Project, SheetId, ViewPlacement, WireEnd } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** What a kind's name stands for. Tests hand in kinds of their own. */
export type KindLookup = (name: string) => PartKind | undefined;
export const catalogueKinds: KindLookup = kindOf;

export interface PlacedPin {
  readonly terminal: string;
  readonly x: Millimetre;
  readonly y: Millimetre;
  readonly side: Side;
}

export interface PlacedView {
  readonly part: Part;
  readonly kind: PartKind;
  readonly values: Values;
  readonly view: View;
  readonly place: ViewPlacement;
  readonly box: Box;
  readonly pins: readonly PlacedPin[];
}

const keptViews = new WeakMap<
  Part,
  { readonly kind: PartKind; readonly values: Values; readonly views: readonly View[] }
>();

/** A part's kind, values and views; undefined for a kind that the catalogue lacks. */
export function viewsOf(
  part: Part,
  kinds: KindLookup,
): { readonly kind: PartKind; readonly values: Values; readonly views: readonly View[] } | undefined {
  const kind = kinds(part.kind);
  if (kind === undefined) return undefined;
  const kept = keptViews.get(part);
  if (kept?.kind === kind) return kept;
  const values = readValues(kind, part.parameters);
  const made = { kind, values, views: kind.views(values) };
  keptViews.set(part, made);
  return made;
}

/** One view where a placement puts it. */
export function placedView(
  part: Part,
  known: { readonly kind: PartKind; readonly values: Values },
  view: View,
  place: ViewPlacement,
): PlacedView {
  return {
    part,
    kind: known.kind,
    values: known.values,
    view,
    place,
    box: placeBox(view.box, place),
    pins: view.pins.map((pin) => ({
      terminal: pin.terminal,
      ...placePoint(pin, place),
      side: placeSide(pin.side, place),
    })),
  };
}

/** Every view on this sheet, in the order of the document. A view placed twice or unknown to its kind is left out. */
export function placedViews(project: Project, sheet: SheetId, kinds: KindLookup = catalogueKinds): PlacedView[] {
  return project.parts.flatMap((part) => {
    const here = part.views.filter((place) => place.sheet === sheet);
    const known = here.length === 0 ? undefined : viewsOf(part, kinds);
    if (known === undefined) return [];
    return known.views.flatMap((view) => {
      const place = here.find((candidate) => candidate.view === view.id);
      return place === undefined ? [] : [placedView(part, known, view, place)];
    });
  });
}

export interface PinPlace extends PlacedPin {
  readonly sheet: SheetId;
  /** Keep-out box of its view. */
  readonly box: Box;
}

export const terminalKey = (end: WireEnd): string => `${end[0]}:${end[1]}`;

const keptPins = new WeakMap<Project, { readonly kinds: KindLookup; readonly pins: ReadonlyMap<string, PinPlace> }>();

/** Where each terminal of the project is drawn. Terminals of unplaced views are absent. */
export function pinPlaces(project: Project, kinds: KindLookup = catalogueKinds): ReadonlyMap<string, PinPlace> {
  const kept = keptPins.get(project);
  if (kept?.kinds === kinds) return kept.pins;
  const pins = findPins(project, kinds);
  keptPins.set(project, { kinds, pins });
  return pins;
}

function findPins(project: Project, kinds: KindLookup): ReadonlyMap<string, PinPlace> {
  const places = new Map<string, PinPlace>();
  for (const part of project.parts) {
    if (part.views.length === 0) continue;
    const known = viewsOf(part, kinds);
    for (const view of known?.views ?? []) {
      const place = part.views.find((candidate) => candidate.view === view.id);
      if (place === undefined || known === undefined) continue;
      const { pins, box } = placedView(part, known, view, place);
      for (const pin of pins) places.set(terminalKey([part.id, pin.terminal]), { ...pin, box, sheet: place.sheet });
    }
  }
  return places;
}
