/**
 * Lays a wire list out on sheets: the traction circuit along the top of the first one, read from left to right, pack
 * left and motor right; what it feeds, control and 12 V below and on further sheets. Parts that have a place keep it.
 */
import { inflate } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import { buildNetwork } from "../network/build.ts";
import type { Part, Project, Sheet, ViewPlacement } from "../project/document.ts";
import { cellsOf, lay, placementOf, roomOf, up, type Cell, type SetCell } from "./cell.ts";
import { Flow } from "./flow.ts";
import { growForest } from "./forest.ts";
import { frameOf, titleBlockOf } from "./paper.ts";
import { catalogueKinds, type KindLookup } from "./placed-view.ts";
import { findPowerLoop } from "./power-loop.ts";
import { powerSection, sectionKeys } from "./power-section.ts";

const MARGIN = 12.5;

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
  const places = arrange(project, cells, template, kinds);
  const { sheets, lastIds } = sheetsFor(project, allLoose, template, places);
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

interface Place {
  readonly cell: SetCell;
  readonly sheet: number;
}

const count = (places: readonly Place[]): number => 1 + Math.max(0, ...places.map(({ sheet }) => sheet));

function arrange(
  project: Project,
  cells: readonly Cell[],
  paper: Pick<Sheet, "paper" | "orientation">,
  kinds: KindLookup,
): readonly Place[] {
  const network = buildNetwork(project, kinds);
  const frame = frameOf(paper);
  const inner = inflate(frame, -MARGIN);
  const area: Box = { x: up(inner.x), y: up(inner.y), width: inner.width - 2.5, height: inner.height - 2.5 };
  const found = findPowerLoop(network, cells);
  const section = found === undefined ? undefined : powerSection(found, area.width, area.height * 0.75);
  const loop = section === undefined ? undefined : found;
  const power = (section?.cells ?? []).map((cell) => ({ ...cell, x: cell.x + area.x, y: cell.y + area.y }));
  const forest = growForest(network, cells, loop === undefined ? new Set() : sectionKeys(loop), loop);
  const flow = new Flow(area, titleBlockOf(paper), power.map(roomOf));
  const feeding = power.flatMap((cell) =>
    cell.laid.pins.map((pin) => {
      const node = network.partById.get(cell.laid.cell.part.id)?.nodes.get(pin.terminal);
      return { net: node === undefined ? -1 : network.netOfNode[node], x: cell.x + pin.x };
    }),
  );
  for (const tree of forest.roots) {
    const from = feeding.filter(({ net }) => net === tree.net).map(({ x }) => x);
    flow.add(tree, from.length === 0 ? undefined : Math.min(...from));
  }
  for (const cell of forest.grounds) flow.addGround(lay(cell));
  return [...power.map((cell) => ({ cell, sheet: 0 })), ...flow.placed.map((cell) => ({ cell, sheet: cell.sheet }))];
}

/** Empty sheets of the project are used first, in their order; then new ones are added. */
function sheetsFor(
  project: Project,
  allLoose: boolean,
  paper: Pick<Sheet, "paper" | "orientation">,
  places: readonly Place[],
): { readonly sheets: readonly Sheet[]; readonly lastIds: Project["lastIds"] } {
  const needed = count(places);
  const kept = project.sheets;
  const missing = allLoose ? Math.max(0, needed - kept.length) : needed;
  const last = project.lastIds["s"] ?? 0;
  const added = Array.from({ length: missing }, (_, index): Sheet => {
    const number = kept.length + index + 1;
    const traction = allLoose && number === 1;
    const name = traction
      ? "Traction circuit"
      : missing > 2
        ? `Control and 12 V, ${String(number - 1)}`
        : "Control and 12 V";
    return { id: `s${String(last + index + 1)}`, name, ...paper };
  });
  return { sheets: [...kept, ...added], lastIds: { ...project.lastIds, s: last + missing } };
}
