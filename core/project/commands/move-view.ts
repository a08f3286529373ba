import type { Part, Project, ViewPlacement } from "../document.ts";
import { GRID, LIMITS } from "../limits.ts";
import { knownPart } from "../lookup.ts";
import type { Kinds } from "../lookup.ts";
import { choiceOf } from "../nearest.ts";
import { defineCommand, draftPart, indexOf, Refused } from "./define.ts";
import { requireReference } from "./references.ts";

/** Throws Refused unless the view is one of the part's and its place lies on a sheet and on the grid. */
export function requirePlacement(project: Project, part: Part, placement: ViewPlacement, kinds: Kinds): void {
  requireReference(project, "s", placement.sheet);
  const views =
    knownPart(part, kinds)
      ?.views()
      .map((view) => view.id) ?? [];
  if (!views.includes(placement.view)) {
    throw new Refused(`${part.designation} has no view called "${placement.view}". ${choiceOf(placement.view, views)}`);
  }
  for (const value of [placement.x, placement.y]) {
    if (!Number.isInteger(value / GRID) || Math.abs(value) > LIMITS.millimetres) {
      throw new Refused(`${part.designation}: ${value} mm is off the grid. Choose a multiple of ${GRID} mm.`);
    }
  }
}

export interface MoveView {
  readonly moves: readonly {
    readonly part: string;
    readonly view: string;
    /** Left out: the sheet it is on. */
    readonly sheet?: string;
    readonly x: number;
    readonly y: number;
  }[];
}

/** Moves views on their sheet or to another one; a view that is on no sheet yet is placed. */
export const moveView = defineCommand<MoveView>({
  id: "move-view",
  label: ({ moves }, before) => {
    const [first] = moves;
    const name = before.parts.find(({ id }) => id === first?.part)?.designation ?? "";
    return moves.length === 1 ? `Move ${name}` : `Move ${moves.length} symbols`;
  },
  change(draft, { moves }, { before, kinds }) {
    for (const { part: id, view, sheet, x, y } of moves) {
      indexOf(before, "p", id);
      const part = draftPart(draft, id, before);
      const there = part.views.find((placement) => placement.view === view);
      const target = sheet ?? there?.sheet ?? before.sheets[0]?.id;
      if (target === undefined) throw new Refused("There is no sheet to place it on. Add a sheet first.");
      const known = before.parts[indexOf(before, "p", id)];
      const placement = { turn: 0 as const, mirrored: false, ...there, view, sheet: target, x: x + 0, y: y + 0 };
      if (known !== undefined) requirePlacement(before, known, placement, kinds);
      if (there === undefined) part.views.push(placement);
      else Object.assign(there, { sheet: target, x: placement.x, y: placement.y });
    }
  },
});
