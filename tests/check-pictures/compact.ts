/** Parts as small pictures need them: without views that nothing is wired to, boxes full of pins with the wired ones only. */
import type { PartKind, View } from "../../core/parts/define.ts";
import { kindOf } from "../../core/parts/catalogue.ts";
import { labelledBox, type BoxPin } from "../../core/parts/symbol.ts";
import { readValues } from "../../core/parts/values.ts";
import type { KindLookup } from "../../core/layout/placed-view.ts";
import type { Part, Wire } from "../../core/project/document.ts";
import type { Keyed } from "./differences.ts";

/** A part with more terminals than these is a box full of pins. */
const MANY_TERMINALS = 6;

export function manyTerminals(part: Part): boolean {
  const kind = kindOf(part.kind);
  return kind !== undefined && kind.terminals(readValues(kind, part.parameters)).length > MANY_TERMINALS;
}

/**
 * The wires of a drawing that are shown: those between parts shown, and of those that lead on the ones at a part with
 * few terminals, or where the pen points. What leaves an earth point or a box full of pins is left out.
 */
export function shownWires(of: Keyed, shown: ReadonlySet<string>, pointed: ReadonlySet<string>): readonly Wire[] {
  return of.project.wires.filter(({ id, ends }) => {
    const here = ends.filter((end) => end !== null && shown.has(of.partKeys.get(end[0]) ?? ""));
    if (here.length === 2 || pointed.has(id)) return true;
    return here.some((end) => {
      const part = of.project.parts.find((each) => each.id === end?.[0]);
      if (part === undefined || end === null) return false;
      if (pointed.has(`${end[0]}:${end[1]}`) || ends.includes(null)) return true;
      return kindOf(part.kind)?.traits.chassisPoint !== true && !manyTerminals(part);
    });
  });
}

/** Names of kinds that stand for one part of the picture, and what they look like. */
export class CompactKinds {
  readonly #kinds = new Map<string, PartKind>();

  /** Terminals by the part's key, in either drawing: those with a wire, and those wired to another part of the picture. */
  constructor(
    sides: readonly Keyed[],
    shown: ReadonlySet<string>,
    wired: ReadonlyMap<string, ReadonlySet<string>>,
    within: ReadonlyMap<string, ReadonlySet<string>>,
  ) {
    for (const { parts } of sides)
      for (const [key, part] of parts) {
        const kind = kindOf(part.kind);
        if (kind === undefined || !shown.has(key)) continue;
        const terminals = wired.get(key) ?? new Set<string>();
        const inside = within.get(key) ?? new Set<string>();
        this.#kinds.set(this.name(key, part), {
          ...kind,
          views: (values) => compactViews(kind.views(values), terminals, inside),
        });
      }
  }

  name(key: string, part: Part): string {
    return `${part.kind} of ${key}`;
  }

  readonly lookup: KindLookup = (name) => this.#kinds.get(name) ?? kindOf(name);
}

/** The views that have to do with the rest of the picture; without such those that are wired at all. */
function compactViews(
  views: readonly View[],
  wired: ReadonlySet<string>,
  within: ReadonlySet<string>,
): readonly View[] {
  const having = (terminals: ReadonlySet<string>): readonly View[] =>
    views.filter(({ pins }) => pins.some(({ terminal }) => terminals.has(terminal)));
  const used = [having(within), having(wired), views.slice(0, 1)].find((found) => found.length > 0) ?? [];
  return used.map((view) => compactView(view, wired));
}

function compactView(view: View, wired: ReadonlySet<string>): View {
  const title = view.symbol.find((item) => item.draw === "text" && item.y === 3.75);
  const sides = view.pins.filter(({ side }) => side === "left" || side === "right");
  if (view.pins.length <= MANY_TERMINALS || title?.draw !== "text" || sides.length < 3) return view;
  const pins = (side: string): readonly BoxPin[] =>
    view.pins
      .filter((pin) => pin.side === side && wired.has(pin.terminal))
      .map(({ terminal, x, y }) => {
        const name = view.symbol.find(
          (item) =>
            item.draw === "text" &&
            item.size === 1.8 &&
            Math.abs(item.y - y - 0.65) < 0.01 &&
            Math.abs(item.x - x) < 10,
        );
        return name?.draw === "text" ? { terminal, name: name.text } : terminal;
      });
  return { ...view, ...labelledBox(pins("left"), pins("right"), title.text, { below: pins("down"), width: 25 }) };
}
