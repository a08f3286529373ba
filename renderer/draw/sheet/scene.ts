/**
 * A sheet made ready for the canvas: views placed, wires routed, texts found. Routing is the dear part, so a scene is
 * kept for as long as what the sheet shows keeps its identity; an edit elsewhere, or of a field that draws nothing,
 * costs no routing. After an edit only the wires that it touched are routed at once; the whole sheet follows in a
 * worker, so that the screen ends with the lines that the export has.
 */
import { union } from "../../../core/geometry/boxes.ts";
import type { Box, DisplayList, Point } from "../../../core/geometry/display.ts";
import { junctionDots } from "../../../core/drawing/junctions.ts";
import { wireTexts } from "../../../core/drawing/sheet.ts";
import { drawView } from "../../../core/drawing/view-drawing.ts";
import type { WireText } from "../../../core/drawing/wire-text.ts";
import { labelBox, labelOf } from "../../../core/layout/label.ts";
import { pinNames } from "../../../core/layout/pin-name.ts";
import { pinPlaces, placedViews, terminalKey } from "../../../core/layout/placed-view.ts";
import type { PlacedPin, PlacedView } from "../../../core/layout/placed-view.ts";
import { rerouteWires, routedSheet } from "../../../core/layout/route.ts";
import type { RoutedSheet } from "../../../core/layout/route.ts";
import { lineBox } from "../../../core/layout/text-line.ts";
import { wireNets } from "../../../core/layout/wire-nets.ts";
import type { Part, Project, Sheet, WireEnd, WireId } from "../../../core/project/document.ts";
import { partById, sheetById } from "../../../core/project/lookup.ts";
import { viewKey } from "./drawing-state.ts";
import type { RouteBeside } from "./route-beside.ts";
import type { RouteAnswer } from "./route-protocol.ts";
import { straightened } from "./straightened.ts";

export interface SceneView extends PlacedView {
  readonly key: string;
  readonly list: DisplayList;
  /** Everything of it that is drawn, texts as well. */
  readonly room: Box;
  /** Room of designation and values. */
  readonly label: Box | undefined;
}

export interface ScenePin extends PlacedPin {
  readonly end: WireEnd;
  readonly view: SceneView;
}

export interface Scene {
  readonly sheet: Sheet;
  readonly views: readonly SceneView[];
  readonly routed: RoutedSheet;
  readonly texts: readonly WireText[];
  readonly dots: readonly Point[];
  readonly pins: readonly ScenePin[];
  readonly pinByKey: ReadonlyMap<string, ScenePin>;
}

/** More wires than this on a sheet are routed beside the window, which goes on meanwhile with straight lines. */
const MOST_AT_ONCE = 150;
/** The whole sheet is routed once the hand has rested so long, ms: by then the findings are on the screen. */
const REST = 250;

interface Routing {
  readonly key: readonly unknown[];
  readonly sheet: string;
  /** Its lines are those of the export. */
  readonly final: boolean;
  readonly routed: RoutedSheet;
  /** Where they came with the lines, and of which drawing; otherwise they are found when the scene is made. */
  readonly texts?: readonly WireText[];
  readonly drawn?: Project;
}

export class SceneKeeper {
  readonly #beside: Pick<RouteBeside, "route"> | undefined;
  #routing: Routing | undefined;
  #scene: { readonly key: readonly unknown[]; readonly project: Project; readonly scene: Scene } | undefined;
  #views = new Map<string, SceneView>();

  /** Without `beside` every sheet is routed at once. */
  constructor(beside?: Pick<RouteBeside, "route">) {
    this.#beside = beside;
  }

  /** undefined for a sheet that the project lacks. */
  /** The lines shown are still to be routed with the whole sheet. */
  get pending(): boolean {
    return this.#routing?.final === false;
  }

  sceneOf(project: Project, id: string): Scene | undefined {
    const sheet = sheetById(project, id);
    if (sheet === undefined) return undefined;
    const key = routingKey(project, sheet);
    if (this.#routing === undefined || !equal(this.#routing.key, key)) this.#routing = this.#route(project, sheet, key);
    const { routed, texts } = this.#routing;
    const sceneKey = [routed, texts, ...project.wires.filter((wire) => routed.paths.has(wire.id)).flatMap(written)];
    if (this.#scene === undefined || !equal(this.#scene.key, sceneKey))
      this.#scene = { key: sceneKey, project, scene: this.#make(project, sheet, this.#routing) };
    return this.#scene.scene;
  }

  #route(project: Project, sheet: Sheet, key: readonly unknown[]): Routing {
    const beside = this.#beside;
    const views = placedViews(project, sheet.id);
    const here = new Set(views.map(({ part }) => part.id));
    const wires = project.wires.filter(({ ends }) => ends.some((end) => end !== null && here.has(end[0])));
    const before = this.#routing?.sheet === sheet.id ? this.#routing : undefined;
    const few = wires.length <= MOST_AT_ONCE;
    const about = { key, sheet: sheet.id };
    if (beside === undefined || (few && before === undefined))
      return { ...about, final: true, routed: routedSheet(project, sheet.id) };
    const take = ({ paths, stubs, nets, texts }: RouteAnswer): boolean => {
      const shown = this.#routing;
      if (shown?.key !== key) return false;
      const routed = { paths: withKnown(paths, shown.routed.paths), stubs, nets, notes: [], views: shown.routed.views };
      this.#routing = { ...about, final: true, routed, texts, drawn: project };
      return true;
    };
    beside.route(project, sheet.id, take, few ? REST : 0);
    if (few && before !== undefined) {
      const routed = rerouteWires(project, sheet.id, before.routed);
      return { ...about, final: false, routed: { ...routed, paths: withKnown(routed.paths, before.routed.paths) } };
    }
    return { ...about, final: false, drawn: project, ...straightened(project, views, wires, before) };
  }

  /** Texts that came with the lines, or were there before, stay as long as what they say is still so. */
  #textsOf(project: Project, sheet: Sheet, { routed, texts, drawn: drawnOf, final }: Routing): readonly WireText[] {
    const before = this.#scene;
    const known = texts ?? (final ? undefined : before?.scene.texts);
    const source = texts === undefined ? before?.project : drawnOf;
    if (known === undefined || source === undefined) return wireTexts(project, sheet, routed);
    const paths = texts === undefined ? before?.scene.routed.paths : routed.paths;
    const old = new Map(source.wires.map((wire) => [wire.id, wire]));
    const now = new Map(project.wires.map((wire) => [wire.id, wire]));
    const kept = known.filter(({ wire: id }) => {
      const [was, is] = [old.get(id), now.get(id)];
      const said = was !== undefined && is !== undefined && equal(written(was), written(is));
      return said && paths?.get(id) === routed.paths.get(id);
    });
    // Straight lines until a large sheet is routed bear only what they had.
    if (texts !== undefined && (!final || kept.length === known.length)) return kept;
    return wireTexts(project, sheet, routed, final ? [] : kept);
  }

  #make(project: Project, sheet: Sheet, routing: Routing): Scene {
    const { routed } = routing;
    const views = routed.views.map((placed) => this.#view(placed));
    this.#views = new Map(views.map((view) => [view.key, view]));
    const pins = views.flatMap((view) =>
      view.pins.map((pin): ScenePin => ({ ...pin, view, end: [view.part.id, pin.terminal] })),
    );
    return {
      sheet,
      views,
      routed,
      texts: this.#textsOf(project, sheet, routing),
      dots: junctionDots(routed.paths, routed.nets),
      pins,
      pinByKey: new Map(pins.map((pin) => [terminalKey(pin.end), pin])),
    };
  }

  /** The view as it was where nothing about it has changed, so that its node is not drawn again. */
  #view(placed: PlacedView): SceneView {
    const key = viewKey(placed.part.id, placed.view.id);
    const before = this.#views.get(key);
    if (before !== undefined && before.part === placed.part && before.place === placed.place) return before;
    const label = labelBox(labelOf(placed));
    const room = union([placed.box, ...(label === undefined ? [] : [label]), ...pinNames(placed).map(lineBox)]);
    return { ...placed, key, list: drawView(placed), room: room ?? placed.box, label };
  }
}

/** Lines that came out as they were are the very lines that they were: they are not drawn again. */
function withKnown(paths: RoutedSheet["paths"], known: RoutedSheet["paths"]): RoutedSheet["paths"] {
  return new Map(
    [...paths].map(([wire, lines]) => {
      const before = known.get(wire);
      return [wire, before !== undefined && JSON.stringify(before) === JSON.stringify(lines) ? before : lines];
    }),
  );
}

const equal = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((value, index) => value === b[index]);

/** What of a part is drawn. */
const drawn = (part: Part): readonly unknown[] => [part.id, part.kind, part.designation, part.parameters, part.views];

/** What of a wire is written. */
const written = ({ id, number, size, colour }: Project["wires"][number]): readonly unknown[] => [
  id,
  number,
  size,
  colour,
];

/** Everything on which the lines of the sheet depend. */
function routingKey(project: Project, sheet: Sheet): readonly unknown[] {
  const pins = pinPlaces(project);
  const here = project.parts.filter(({ views }) => views.some((place) => place.sheet === sheet.id));
  const onSheet = (end: WireEnd | null): boolean => end !== null && pins.get(terminalKey(end))?.sheet === sheet.id;
  const wires = project.wires.filter(({ ends }) => ends.some(onSheet));
  const elsewhere = wires.flatMap(({ ends }) => ends.filter((end) => end !== null && !onSheet(end)));
  const far = [...new Set(elsewhere.map((end) => (end === null ? "" : end[0])))].flatMap((id) => {
    const part = partById(project, id);
    return part === undefined ? [] : [part];
  });
  const nets = wireNets(project);
  const first = new Map<number, WireId>();
  const netNames = wires.map(({ id }) => {
    const net = nets.get(id) ?? 0;
    const name = first.get(net) ?? id;
    first.set(net, name);
    return name;
  });
  return [
    sheet,
    project.sheets,
    ...here.flatMap(drawn),
    ...wires.flatMap((wire) => [wire.id, wire.number, wire.ends, wire.size, wire.routes]),
    ...far.flatMap(drawn),
    ...netNames,
  ];
}
