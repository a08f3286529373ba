/**
 * Lays a wire list out on sheets: the traction circuit along the top of the first one, read from left to right, pack
 * left and motor right; what it feeds, control and 12 V below and on further sheets. Parts that have a place keep it.
 */
import { inflate } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import { buildNetwork } from "../network/build.ts";
import type { Part, Project, Sheet, ViewPlacement } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { cellsOf, lay, placementOf, roomOf, up, withEarth, type Cell, type SetCell } from "./cell.ts";
import { Flow, type Pull } from "./flow.ts";
import { growForest, type Tree } from "./forest.ts";
import { keysOf, splitRoots, withEarths, wiringOf } from "./near-power.ts";
import { frameOf, titleBlockOf } from "./paper.ts";
import { catalogueKinds, type KindLookup } from "./placed-view.ts";
import { findPowerLoop } from "./power-loop.ts";
import { powerSections, sectionKeys } from "./power-section.ts";

const MARGIN = 12.5;
/** The traction circuit takes no more of a sheet than this. */
const MOST_OF_HEIGHT = 0.75;

/** The project with every view of every part that had none on a sheet. Same project, same places. */
export function placeParts(project: Project, kinds: KindLookup = catalogueKinds): Project {
  const loose = project.parts.filter((part) => part.views.length === 0);
  const cells = cellsOf(loose, kinds);
  if (cells.length === 0) return project;
  const allLoose = loose.length === project.parts.length;
  const template: Pick<Sheet, "paper" | "orientation"> = (allLoose ? project.sheets[0] : undefined) ?? {
    paper: "A3",
    orientation: "landscape",
  };
  const { places, first: names } = arrange(project, cells, template, kinds);
  const { sheets, lastIds } = sheetsFor(project, allLoose, template, places, names);
  const first = allLoose ? 0 : project.sheets.length;
  const byPart = new Map<string, ViewPlacement[]>();
  for (const { cell, sheet } of places) {
    const id = sheets[first + sheet]?.id ?? "";
    const list = byPart.get(cell.laid.cell.part.id) ?? [];
    list.push(placementOf(cell.laid, id, cell.x, cell.y));
    byPart.set(cell.laid.cell.part.id, list);
  }
  const parts = project.parts.map((part): Part => {
    const views = byPart.get(part.id);
    return views === undefined ? part : { ...part, views };
  });
  return { ...project, sheets, lastIds, parts };
}

/** A point where this many wires meet wants room for them. */
const MANY_WIRES = 5;

interface Place {
  readonly cell: SetCell;
  readonly sheet: number;
}

const count = (places: readonly Place[]): number => 1 + Math.max(0, ...places.map(({ sheet }) => sheet));

function arrange(
  project: Project,
  loose: readonly Cell[],
  paper: Pick<Sheet, "paper" | "orientation">,
  kinds: KindLookup,
): { readonly places: readonly Place[]; readonly first: readonly string[] } {
  const network = buildNetwork(project, kinds);
  const cells = withEarths(network, loose);
  const frame = frameOf(paper);
  const inner = inflate(frame, -MARGIN);
  const area: Box = { x: up(inner.x), y: up(inner.y), width: inner.width - 2.5, height: inner.height - 2.5 };
  const title = titleBlockOf(paper);
  const found = findPowerLoop(network, cells);
  const most = Math.max(area.height * MOST_OF_HEIGHT, title.y - 5 - area.y);
  const { loop, sections } = (found && powerSections(found, area.width, most)) ?? { loop: undefined, sections: [] };
  const onPaper = sections.map((section) =>
    section.cells.map((cell) => ({ ...cell, x: cell.x + area.x, y: cell.y + area.y })),
  );
  const power = onPaper.at(-1) ?? [];
  const powerSheet = Math.max(0, sections.length - 1);
  const forest = growForest(network, cells, loop === undefined ? new Set() : sectionKeys(loop), loop);
  const flow = new Flow(area, title, power.map(roomOf));
  const wiring = wiringOf(network, cells);
  const stands = new Map(power.map((cell) => [cell.laid.cell.key, { sheet: 0, x: middleOf(cell) }]));
  const pullOn =
    (keys: readonly string[]) =>
    (sheet: number): Pull => {
      const there = keys.flatMap((key) => wiring.get(key) ?? []).flatMap((key) => stands.get(key) ?? []);
      const xs = there.filter((place) => place.sheet === sheet).map(({ x }) => x);
      xs.sort((p, q) => p - q);
      return { wires: xs.length, x: xs[Math.floor(xs.length / 2)] };
    };
  const note = (since: number): void => {
    for (const cell of flow.placed.slice(since))
      stands.set(cell.laid.cell.key, { sheet: cell.sheet, x: middleOf(cell) });
  };
  const { near, far } = splitRoots(forest.roots, wiring, new Set(power.map(({ laid }) => laid.cell.key)));
  // Large ones first: small ones find a gap anywhere.
  const bySize = (trees: readonly Tree[]): readonly Tree[] =>
    [...trees].sort((p, q) => keysOf(q).length - keysOf(p).length).flatMap((tree) => flow.pieces(tree));
  const wires = (cell: Cell): number => wiring.get(cell.key)?.length ?? 0;
  const grounds = [...forest.grounds].sort((p, q) => wires(q) - wires(p));
  const ground = (cell: Cell): void => {
    flow.addGround(lay(cell), pullOn([cell.key]));
    grounds.splice(grounds.indexOf(cell), 1);
  };
  for (const tree of [...bySize(near), ...bySize(far)]) {
    const since = flow.placed.length;
    flow.add(tree, pullOn(keysOf(tree)));
    // A minus bar takes its place as soon as most of what is wired to it stands on one sheet: later there is no room.
    for (const cell of grounds.filter((bar) => wires(bar) >= MANY_WIRES))
      if (pullOn([cell.key])(flow.placed.at(-1)?.sheet ?? 0).wires > wires(cell) / 2) ground(cell);
    note(since);
  }
  for (const cell of [...grounds]) {
    const since = flow.placed.length;
    ground(cell);
    note(since);
  }
  const places = [
    ...onPaper.flatMap((cells, sheet) => cells.flatMap(withEarth).map((cell) => ({ cell, sheet }))),
    ...flow.placed.flatMap((set) => withEarth(set).map((cell) => ({ cell, sheet: powerSheet + set.sheet }))),
  ];
  return { places, first: ["Control and 12 V", "Traction circuit", "Pack"].slice(0, sections.length + 1).reverse() };
}

function middleOf(cell: SetCell): Millimetre {
  const room = roomOf(cell);
  return room.x + room.width / 2;
}

/** The name of a new project's sheet: its number. */
const UNNAMED = /^\d+$/;

/** Empty sheets of the project are used first, in their order; then new ones are added. */
function sheetsFor(
  project: Project,
  allLoose: boolean,
  paper: Pick<Sheet, "paper" | "orientation">,
  places: readonly Place[],
  names: readonly string[],
): { readonly sheets: readonly Sheet[]; readonly lastIds: Project["lastIds"] } {
  const needed = count(places);
  const kept = project.sheets;
  const missing = allLoose ? Math.max(0, needed - kept.length) : needed;
  const last = project.lastIds["s"] ?? 0;
  const before = allLoose ? kept.length : 0;
  const added = Array.from({ length: missing }, (_, index): Sheet => {
    const name = nameOf(before + index, needed, names);
    return { id: `s${String(last + index + 1)}`, name, paper: paper.paper, orientation: paper.orientation };
  });
  // A sheet that nobody has named yet is named after what is now on it.
  const named = kept.map(
    (sheet, index): Sheet =>
      allLoose && index < needed && UNNAMED.test(sheet.name) ? { ...sheet, name: nameOf(index, needed, names) } : sheet,
  );
  return { sheets: [...named, ...added], lastIds: { ...project.lastIds, s: last + missing } };
}

/** The sheets of the traction circuit by their own names, the last name for all that follow. */
function nameOf(index: number, count: number, names: readonly string[]): string {
  const rest = names.at(-1) ?? "";
  const own = names.length - 1;
  if (count === 1 && own === 1) return "Traction and control";
  if (index < own) return names[index] ?? rest;
  return count - own > 1 ? `${rest}, ${String(index - own + 1)}` : rest;
}
