/** A sheet of the project as a display list: frame, title block, parts, wires, their texts. */
import { inflate } from "../geometry/boxes.ts";
import type { Box, DisplayList, Pen, Primitive } from "../geometry/display.ts";
import { labelBox, labelOf } from "../layout/label.ts";
import { pinNames } from "../layout/pin-name.ts";
import { frameOf, paperSize, titleBlockOf } from "../layout/paper.ts";
import {
  catalogueKinds,
  pinPlaces,
  terminalKey,
  viewsOf,
  type KindLookup,
  type PlacedView,
} from "../layout/placed-view.ts";
import { routedSheet, type RoutedSheet } from "../layout/route.ts";
import { clipText, lineBox, type TextLine } from "../layout/text-line.ts";
import type { Project, Sheet, SheetId, WireId } from "../project/document.ts";
import { sheetById } from "../project/lookup.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { drawFrame, drawTitleBlock } from "./frame.ts";
import { junctionDots } from "./junctions.ts";
import { drawView, textPrimitive } from "./view-drawing.ts";
import { placeWireTexts, type WireText } from "./wire-text.ts";

interface SheetOptions {
  /** Which wires carry the traction circuit, from the analysis. Without it every wire has the width of the symbols. */
  readonly traction?: (wire: WireId) => boolean;
  readonly kinds?: KindLookup;
  /** Lines that were routed before. */
  readonly routed?: RoutedSheet;
}

/** A run of the display list that is one part's view or one wire. */
export interface Mark {
  readonly first: number;
  /** One past the last. */
  readonly end: number;
  readonly what: "part" | "wire";
  readonly id: string;
  readonly name: string;
}

export interface DrawnSheet {
  readonly width: Millimetre;
  readonly height: Millimetre;
  readonly list: DisplayList;
  readonly marks: readonly Mark[];
  readonly title: string;
  readonly description: string;
}

/** Draws one sheet, mm, y down. An unknown sheet is a mistake of the caller's and throws. */
export function drawSheet(project: Project, id: SheetId, options: SheetOptions = {}): DrawnSheet {
  const sheet = sheetById(project, id);
  if (sheet === undefined) throw new RangeError(`There is no sheet ${id} to draw.`);
  const kinds = options.kinds ?? catalogueKinds;
  const routed = options.routed ?? routedSheet(project, id, kinds);
  const page = new Page();
  page.add(drawFrame(sheet));
  drawWires(page, project, routed, options);
  for (const view of routed.views)
    page.mark("part", view.part.id, `${view.part.designation} ${view.view.title}`, drawView(view));
  for (const text of wireTexts(project, sheet, routed))
    page.mark("wire", text.wire, text.line.text, drawWireText(text));
  for (const stub of routed.stubs)
    for (const text of stub.texts)
      page.mark("wire", text.wire, text.text, [textPrimitive(text, stub.numbered ? "ink" : "faint")]);
  const index = project.sheets.indexOf(sheet);
  page.add(drawTitleBlock(sheet, index + 1, project.sheets.length, project.title));
  if (index === 0) page.add(notDrawn(project, sheet, kinds));
  const { width, height } = paperSize(sheet);
  const name = project.title.title ?? project.title.vehicle ?? "Circuit diagram";
  return {
    width,
    height,
    list: page.list,
    marks: page.marks,
    title: `${cut(name)}, sheet ${String(index + 1)} of ${String(project.sheets.length)}: ${cut(sheet.name)}`,
    description: `Circuit diagram with ${String(new Set(routed.views.map((view) => view.part.id)).size)} parts and ${String(routed.paths.size)} wires.`,
  };
}

/** Names in titles and marks are cut at this length, mm of 2.5 mm text. */
const LONGEST_NAME: Millimetre = 120;

const cut = (name: string): string => clipText(name, 2.5, LONGEST_NAME);

class Page {
  readonly list: Primitive[] = [];
  readonly marks: Mark[] = [];

  add(items: DisplayList): void {
    this.list.push(...items);
  }

  mark(what: Mark["what"], id: string, name: string, items: DisplayList): void {
    const first = this.list.length;
    this.list.push(...items);
    this.marks.push({ first, end: this.list.length, what, id, name: cut(name) });
  }
}

function drawWires(page: Page, project: Project, routed: RoutedSheet, options: SheetOptions): void {
  const { traction } = options;
  const pen = (wire: WireId): Pen => (traction === undefined ? "symbol" : traction(wire) ? "traction" : "control");
  for (const wire of project.wires) {
    const lines = routed.paths.get(wire.id);
    if (lines === undefined) continue;
    const items = lines.map((points): Primitive => ({ draw: "line", points, pen: pen(wire.id) }));
    page.mark("wire", wire.id, wire.number, items);
  }
  page.add(
    junctionDots(routed.paths, routed.nets).map(({ x, y }) => ({
      draw: "circle",
      x,
      y,
      r: 0.75,
      pen: "hair",
      fill: "ink",
    })),
  );
}

/** The text of a wire, with the paper behind it where it interrupts the line. */
export function drawWireText({ line, onLine }: WireText): DisplayList {
  const text = textPrimitive(line);
  if (!onLine) return [text];
  const { x, y, width, height } = inflate(lineBox(line), 0.3);
  const behind: Primitive = {
    draw: "line",
    points: [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    closed: true,
    ink: "none",
    fill: "paper",
  };
  return [behind, text];
}

/**
 * Where number, size and colour of each wire of a routed sheet are written. Texts of `kept` stay where they are, and the
 * others find their places among them; a sheet on its own is always written without any.
 */
export function wireTexts(
  project: Project,
  sheet: Sheet,
  routed: RoutedSheet,
  kept: readonly WireText[] = [],
): readonly WireText[] {
  const labels = routed.views.flatMap((view) => {
    const label = labelBox(labelOf(view));
    return [...(label === undefined ? [] : [label]), ...pinNames(view).map(lineBox)];
  });
  const listed = new Set(routed.stubs.flatMap((stub) => (stub.numbered ? stub.texts.map(({ wire }) => wire) : [])));
  const staying = new Set(kept.map(({ wire }) => wire));
  const wires = project.wires.filter((wire) => !listed.has(wire.id) && !staying.has(wire.id));
  const placed = placeWireTexts(wires, {
    paths: routed.paths,
    parts: routed.views.map(bodyOf),
    texts: [
      ...labels,
      ...routed.stubs.flatMap((stub) => stub.texts.map(lineBox)),
      ...kept.map(({ line }) => lineBox(line)),
      titleBlockOf(sheet),
    ],
    area: frameOf(sheet),
  });
  return [...kept, ...placed];
}

/** A keep-out box has one module of clearance around what is drawn; a text may use some of it. */
function bodyOf(view: PlacedView): Box {
  const shrink = Math.min(1.6, view.box.width / 4, view.box.height / 4);
  const { x, y, width, height } = view.box;
  return { x: x + shrink, y: y + shrink, width: width - 2 * shrink, height: height - 2 * shrink };
}

/** Views that stand on no sheet, and wires none of whose ends do, by name, at the foot of the first one. */
function notDrawn(project: Project, sheet: Sheet, kinds: KindLookup): DisplayList {
  const names = project.parts.flatMap((part) => {
    const known = viewsOf(part, kinds);
    if (known === undefined) return [`${part.designation} (unknown kind ${part.kind})`];
    const missing = known.views.filter((view) => !part.views.some((place) => place.view === view.id));
    if (missing.length === 0) return [];
    if (missing.length === known.views.length) return [part.designation];
    return missing.map((view) => `${part.designation} ${view.title.toLowerCase()}`);
  });
  const pins = pinPlaces(project, kinds);
  for (const wire of project.wires)
    if (!wire.ends.some((end) => end !== null && pins.has(terminalKey(end)))) names.push(`wire ${wire.number}`);
  if (names.length === 0) return [];
  const frame = frameOf(sheet);
  const block = titleBlockOf(sheet);
  const beside = block.x - frame.x > 60;
  const line: TextLine = {
    text: clipText(`Not drawn: ${names.join(", ")}`, 2.5, (beside ? block.x - frame.x : frame.width) - 6),
    x: frame.x + 3,
    y: (beside ? frame.y + frame.height : block.y) - 2,
    size: 2.5,
    anchor: "start",
  };
  return [textPrimitive(line)];
}
