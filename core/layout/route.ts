/**
 * Wires of a sheet as orthogonal lines on the 2.5 mm grid, around parts and, where possible, their texts. Wires of
 * one net may share a line and part again; different nets only cross. The same project always gives the same lines.
 */
import { containsPoint, inflate, union } from "../geometry/boxes.ts";
import type { Box, Point } from "../geometry/display.ts";
import { GRID, snap } from "../geometry/points.ts";
import { conductorFigures } from "../network/wire-resistance.ts";
import type { Project, Sheet, SheetId, Wire, WireEnd, WireId } from "../project/document.ts";
import { sheetById } from "../project/lookup.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { stubAt, type Leaving, type Stub } from "./crossing-sheets.ts";
import { RouteGrid } from "./grid.ts";
import { labelBox, labelOf } from "./label.ts";
import { frameOf, titleBlockOf, zoneAt } from "./paper.ts";
import { pinNames } from "./pin-name.ts";
import {
  catalogueKinds,
  pinPlaces,
  placedViews,
  terminalKey,
  type KindLookup,
  type PinPlace,
  type PlacedView,
} from "./placed-view.ts";
import { RouteSearch, type Axis } from "./search.ts";
import { keptNodes, keptStub, OUTWARDS, straightened, type Path } from "./lines.ts";
import { clipText, lineBox } from "./text-line.ts";
import { wireNets } from "./wire-nets.ts";

export interface RoutedSheet {
  /** Lines of each wire that shows on the sheet: one, or a stub from each end that leaves it. */
  readonly paths: ReadonlyMap<WireId, readonly Path[]>;
  readonly stubs: readonly Stub[];
  /** Wires for which no clear way was found; they are drawn as well as they can be. */
  readonly notes: readonly { readonly wire: WireId; readonly text: string }[];
  /** Net of each wire: wires of one net may touch. */
  readonly nets: ReadonlyMap<WireId, number>;
  readonly views: readonly PlacedView[];
}

/** Lines by wire; see RoutedSheet. Unknown sheets have none. */
export function routeSheet(
  project: Project,
  sheet: SheetId,
  kinds: KindLookup = catalogueKinds,
): ReadonlyMap<WireId, readonly Path[]> {
  return routedSheet(project, sheet, kinds).paths;
}

/** As routeSheet, with cross-references, notes and nets. */
export const routedSheet = (project: Project, id: SheetId, kinds: KindLookup = catalogueKinds): RoutedSheet =>
  routed(project, id, kinds, undefined);

/**
 * As routedSheet, with lines and stubs left as they were `before` wherever they still fit: what a person moved finds
 * its way at once, and the rest stands still. Equal drawings give equal sheets by routedSheet alone.
 */
export const rerouteWires = (
  project: Project,
  id: SheetId,
  before: RoutedSheet,
  kinds: KindLookup = catalogueKinds,
): RoutedSheet => routed(project, id, kinds, before);

function routed(project: Project, id: SheetId, kinds: KindLookup, before: RoutedSheet | undefined): RoutedSheet {
  const sheet = sheetById(project, id);
  const nets = wireNets(project);
  if (sheet === undefined) return { paths: new Map(), stubs: [], notes: [], nets, views: [] };
  return new Router(project, sheet, kinds, nets).run(before);
}

/** Closeness to a part costs this much a node, a text this much. */
const NEAR_PART = 1.2;
const ON_TEXT = 12;
const MARGINS: readonly Millimetre[] = [50, 1e9];
/** Rounds in which every wire is taken up and laid again among all others; fewer on crowded sheets. */
const roundsFor = (wires: number): number => (wires <= 150 ? 3 : 1);

interface Run {
  readonly wire: Wire;
  readonly net: number;
  readonly from: Exit;
  readonly to: Exit;
  /** Points that the person fixed. */
  readonly through: readonly Point[];
  nodes: readonly number[] | undefined;
}

/** A pin and where its wire comes free of the part. */
interface Exit {
  readonly pin: PinPlace;
  readonly lead: readonly number[];
  readonly axis: Axis;
  /** False where another part stands before the pin. */
  readonly clear: boolean;
}

/** A pin farther than this many grid steps inside is taken as walled in. */
const MOST_LEAD = 12;
const placeKey = ({ x, y }: Point): string => `${String(x)} ${String(y)}`;

/** With more wires that leave a sheet, none looks for a clear place: nobody could read it anyway. */
const MOST_CAREFUL_STUBS = 600;

/** Conductors above this size are laid first, so that the traction circuit is drawn straight: 10 mm2. */
const HEAVY = 10e-6;

const isMain = ({ wire, from, to, through }: Run): boolean =>
  through.length > 0 ||
  (conductorFigures(wire).area ?? 0) > HEAVY ||
  (from.axis === 0 && to.axis === 0 && from.pin.y === to.pin.y);

function inOrder(runs: readonly Run[]): readonly Run[] {
  const span = ({ from, to }: Run): number => Math.abs(from.pin.x - to.pin.x) + Math.abs(from.pin.y - to.pin.y);
  return runs
    .map((run, index) => ({ run, index, fixed: run.through.length > 0 ? 0 : 1, span: span(run) }))
    .sort((p, q) => p.fixed - q.fixed || p.span - q.span || p.index - q.index)
    .map(({ run }) => run);
}

class Router {
  readonly #project: Project;
  readonly #sheet: Sheet;
  readonly #nets: ReadonlyMap<WireId, number>;
  readonly #views: readonly PlacedView[];
  readonly #pins: ReadonlyMap<string, PinPlace>;
  readonly #texts: Box[] = [];
  readonly #area: Box;
  readonly #grid: RouteGrid;
  readonly #search: RouteSearch;
  readonly #notes: { wire: WireId; text: string }[] = [];
  /** Pins that have a lead kept for their net. */
  readonly #busy = new Set<string>();

  constructor(project: Project, sheet: Sheet, kinds: KindLookup, nets: ReadonlyMap<WireId, number>) {
    this.#project = project;
    this.#sheet = sheet;
    this.#nets = nets;
    this.#views = placedViews(project, sheet.id, kinds);
    this.#pins = pinPlaces(project, kinds);
    const frame = frameOf(sheet);
    this.#area = union([inflate(frame, -2.5), ...this.#views.map(({ box }) => inflate(box, 10))]) ?? frame;
    this.#grid = new RouteGrid(frame, this.#area, this.#placesThatMatter());
    for (const { box } of this.#views) this.#grid.avoid(box, 0.01, NEAR_PART);
    for (const view of this.#views) {
      const label = labelBox(labelOf(view));
      for (const room of [...(label === undefined ? [] : [label]), ...pinNames(view).map(lineBox)]) {
        this.#texts.push(room);
        this.#grid.avoid(room, 0.5, ON_TEXT);
      }
    }
    for (const { box } of this.#views) this.#grid.block(box);
    this.#grid.block(inflate(titleBlockOf(sheet), 2.6));
    this.#search = new RouteSearch(this.#grid);
  }

  run(before?: RoutedSheet): RoutedSheet {
    const runs: Run[] = [];
    const leaving = new Map<PinPlace, Leaving[]>();
    const leave = (pin: PinPlace, wire: Wire, end: WireEnd | null): void => {
      const list = leaving.get(pin) ?? [];
      if (list.length === 0) this.#grid.occupy(this.#ahead(pin), this.#nets.get(wire.id) ?? 0);
      list.push({ wire: wire.id, number: clipText(wire.number, 2.5, 30), place: this.#elsewhere(end) });
      leaving.set(pin, list);
    };
    for (const wire of this.#project.wires) {
      const [a, b] = wire.ends.map((end) => this.#pinHere(end));
      if (a !== undefined && b !== undefined) runs.push(this.#runOf(wire, a, b));
      else if (a !== undefined) leave(a, wire, wire.ends[1]);
      else if (b !== undefined) leave(b, wire, wire.ends[0]);
    }
    const fresh = before === undefined ? runs : runs.filter((run) => !this.#keep(run, before));
    const [main, other] = [fresh.filter(isMain), fresh.filter((run) => !isMain(run))];
    this.#lay(main);
    const stubs = this.#stubs(leaving, before?.stubs ?? []);
    this.#lay(other);
    this.#improve(fresh);
    const paths = new Map<WireId, readonly Path[]>();
    for (const stub of stubs)
      for (const { wire } of stub.texts) paths.set(wire, [...(paths.get(wire) ?? []), stub.path]);
    for (const run of runs) paths.set(run.wire.id, [this.#path(run)]);
    return { paths, stubs, notes: this.#notes, nets: this.#nets, views: this.#views };
  }

  /** Leaves the wire where it ran, if it still can. */
  #keep(run: Run, { paths }: RoutedSheet): boolean {
    const { from, to, through, net } = run;
    const [line, ...more] = paths.get(run.wire.id) ?? [];
    if (more.length > 0 || !from.clear || !to.clear) return false;
    run.nodes = keptNodes(this.#grid, { net, through, from: from.lead, to: to.lead }, line);
    if (run.nodes !== undefined) this.#grid.occupy(run.nodes, net);
    return run.nodes !== undefined;
  }

  #placesThatMatter(): readonly Point[] {
    return [
      ...this.#views.flatMap(({ box, pins }) => [
        { x: box.x, y: box.y },
        { x: box.x + box.width, y: box.y + box.height },
        ...pins,
      ]),
      ...this.#project.wires.flatMap((wire) => this.#fixedPoints(wire)),
    ];
  }

  #fixedPoints(wire: Wire): readonly Point[] {
    const points = wire.routes?.find((route) => route.sheet === this.#sheet.id)?.points ?? [];
    return points.map(([x, y]) => snap({ x, y }));
  }

  #pinHere(end: WireEnd | null): PinPlace | undefined {
    const pin = end === null ? undefined : this.#pins.get(terminalKey(end));
    return pin?.sheet === this.#sheet.id ? pin : undefined;
  }

  /** "2/B4", or in words where the other end is drawn nowhere. */
  #elsewhere(end: WireEnd | null): string {
    if (end === null) return "loose";
    const pin = this.#pins.get(terminalKey(end));
    const index = this.#project.sheets.findIndex((sheet) => sheet.id === pin?.sheet);
    const sheet = this.#project.sheets[index];
    if (pin !== undefined && sheet !== undefined) return `${String(index + 1)}/${zoneAt(sheet, pin.x, pin.y)}`;
    const part = this.#project.parts.find((candidate) => candidate.id === end[0]);
    return clipText(`${part?.designation ?? end[0]}:${end[1]}`, 2.5, 40) + " not drawn";
  }

  #stubs(leaving: ReadonlyMap<PinPlace, readonly Leaving[]>, before: readonly Stub[]): readonly Stub[] {
    const boxes = this.#views.map((view) => view.box);
    const careful = leaving.size <= MOST_CAREFUL_STUBS;
    return [...leaving].map(([pin, wires]) => {
      const net = this.#nets.get(wires[0]?.wire ?? "") ?? 0;
      const key = placeKey(pin);
      this.#grid.occupy(this.#ahead(pin), net, -1);
      const others = boxes.filter((box) => !containsPoint(box, pin));
      const own = boxes.filter((box) => containsPoint(box, pin)).map((box) => inflate(box, -2));
      const kept = keptStub(this.#grid, before, pin, wires);
      const stub =
        kept ??
        stubAt(pin, wires, this.#busy.has(key), {
          area: this.#area,
          obstacles: careful ? [...others, ...own, ...this.#texts, titleBlockOf(this.#sheet)] : [],
          taken: (x, y) => {
            const node = this.#grid.node(x, y);
            return node === undefined || this.#grid.blocked[node] === 1 || this.#grid.isForeign(node, net);
          },
          crossed: (box) => this.#grid.isCrossed(box),
        });
      this.#busy.add(key);
      for (const room of stub.rooms) {
        this.#texts.push(room);
        this.#grid.avoid(room, 0.6, ON_TEXT * 2);
      }
      this.#grid.occupy(
        stub.path.flatMap(([x, y]) => this.#grid.node(x, y) ?? []),
        net,
      );
      return stub;
    });
  }

  /** Where a stub would go straight out: kept for it while the main wires are laid. */
  #ahead(pin: PinPlace): readonly number[] {
    const [dx, dy] = OUTWARDS[pin.side];
    return [0, 2.5, 5, 7.5].flatMap((far) => this.#grid.node(pin.x + dx * far, pin.y + dy * far) ?? []);
  }

  #runOf(wire: Wire, a: PinPlace, b: PinPlace): Run {
    const net = this.#nets.get(wire.id) ?? 0;
    return {
      wire,
      net,
      from: this.#exit(a, net),
      to: this.#exit(b, net),
      through: this.#fixedPoints(wire),
      nodes: undefined,
    };
  }

  /** Straight out of the part to the first free node, kept for this net from now on. */
  #exit(pin: PinPlace, net: number): Exit {
    const [dx, dy] = OUTWARDS[pin.side];
    const lead: number[] = [];
    let clear = true;
    for (let index = 0; index < MOST_LEAD; index += 1) {
      const [x, y] = [pin.x + dx * index * GRID, pin.y + dy * index * GRID];
      const node = this.#grid.node(x, y);
      if (node === undefined) break;
      lead.push(node);
      if (index > 0 && this.#grid.blocked[node] === 0) break;
      // Beyond its own part's room it crosses another's.
      if (!containsPoint(inflate(pin.box, -0.01), { x, y })) clear = false;
    }
    const key = placeKey(pin);
    if (!this.#busy.has(key)) {
      this.#busy.add(key);
      this.#grid.occupy(lead, net);
    }
    return { pin, lead, axis: dx === 0 ? 1 : 0, clear };
  }

  /** From short to long, fixed routes before all. */
  #lay(runs: readonly Run[]): void {
    for (const run of inOrder(runs)) this.#route(run);
  }

  /** Every wire is taken up and laid again among all others, until nothing changes. */
  #improve(runs: readonly Run[]): void {
    const order = inOrder(runs);
    for (let round = 1; round < roundsFor(runs.length); round += 1) {
      let changed = false;
      for (const run of order) {
        const before = run.nodes;
        if (before !== undefined) this.#grid.occupy(before, run.net, -1);
        this.#route(run);
        changed ||= before?.join() !== run.nodes?.join();
      }
      if (!changed) break;
    }
    for (const run of order)
      if (run.nodes === undefined || !run.from.clear || !run.to.clear)
        this.#notes.push({
          wire: run.wire.id,
          text: `Wire ${run.wire.number} finds no clear way between its terminals; it is drawn across what stands there.`,
        });
  }

  #route(run: Run): void {
    run.nodes = this.#way(run);
    if (run.nodes !== undefined) this.#grid.occupy(run.nodes, run.net);
  }

  /** All nodes from pin to pin. */
  #way({ from, to, through, net }: Run): readonly number[] | undefined {
    const first = from.lead.at(-1);
    const last = to.lead.at(-1);
    if (first === undefined || last === undefined) return undefined;
    const stops = through.flatMap((point) => this.#grid.node(point.x, point.y) ?? []);
    const nodes = [...from.lead];
    let start: { node: number; axis: Axis | undefined; came: number } = {
      node: first,
      axis: from.axis,
      came: from.lead.at(-2) ?? -1,
    };
    for (const [index, stop] of [...stops, last].entries()) {
      const goal = { node: stop, axis: index === stops.length ? to.axis : undefined };
      const leg = (stops.length > 0 ? this.#straight(start.node, stop) : undefined) ?? this.#leg(start, goal, net);
      if (leg === undefined) return undefined;
      nodes.push(...leg.slice(1));
      const before = nodes.at(-2) ?? -1;
      const level = Math.abs(before - stop) === 1;
      start = { node: stop, axis: before < 0 || before === stop ? undefined : level ? 0 : 1, came: before };
      if (index < stops.length && leg.length < 2) start.axis = undefined;
    }
    nodes.push(...to.lead.slice(0, -1).reverse());
    return nodes;
  }

  #leg(
    start: { node: number; axis: Axis | undefined; came: number },
    goal: { node: number; axis: Axis | undefined },
    net: number,
  ): readonly number[] | undefined {
    for (const margin of MARGINS) {
      const found = this.#search.find(start, goal, net, margin);
      if (found !== undefined) return found.nodes;
    }
    return undefined;
  }

  /** Two fixed points in line are joined as the person drew them, unless a part stands there now. */
  #straight(a: number, b: number): readonly number[] | undefined {
    const { columns, blocked } = this.#grid;
    const level = Math.floor(a / columns) === Math.floor(b / columns);
    if (!level && a % columns !== b % columns) return undefined;
    const step = Math.sign(b - a) * (level ? 1 : columns);
    const nodes = [a];
    for (let node = a; node !== b; ) {
      node += step;
      if (blocked[node] === 1) return undefined;
      nodes.push(node);
    }
    return nodes;
  }

  #path(run: Run): Path {
    const { from, to } = run;
    if (run.nodes !== undefined)
      return straightened(run.nodes.map((node) => [this.#grid.x(node), this.#grid.y(node)] as const));
    const middle = Math.round((from.pin.x + to.pin.x) / 5) * 2.5;
    return straightened([
      [from.pin.x, from.pin.y],
      [middle, from.pin.y],
      [middle, to.pin.y],
      [to.pin.x, to.pin.y],
    ]);
  }
}
