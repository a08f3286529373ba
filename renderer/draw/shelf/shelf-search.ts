/** Finding a kind of part by its title or by any other name that the trade gives it. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import type { Project } from "../../../core/project/document.ts";

export interface ShelfRow {
  readonly kind: PartKind;
  /** The name that was met, where it is not the title: "kill switch". */
  readonly met: string | undefined;
}

export interface ShelfGroup {
  readonly name: string;
  readonly rows: readonly ShelfRow[];
}

const GROUPS: Readonly<Record<PartKind["group"], string>> = {
  sources: "Sources",
  protection: "Protection",
  switching: "Switching",
  drive: "Drive",
  passive: "Resistors, capacitors, diodes",
  sensors: "Sensors and instruments",
  loads: "Loads",
  connecting: "Connecting",
};

/** Kinds that a drawing uses most stand before the others, this many of them. */
const MOST_USED = 6;

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[-_/]+/g, " ")
    .trim();

/** How well a name meets what was typed: 0 is the very name; undefined if it does not. */
function rank(name: string, typed: string): number | undefined {
  const text = plain(name);
  if (text === typed) return 0;
  if (text.startsWith(typed)) return 1;
  if (text.includes(` ${typed}`)) return 2;
  const words = typed.split(" ");
  if (words.length > 1 && words.every((word) => ` ${text}`.includes(` ${word}`))) return 3;
  return typed.length > 2 && text.includes(typed) ? 4 : undefined;
}

/** Best first; a kind's own title goes before its other names. */
export function findKinds(typed: string): readonly ShelfRow[] {
  const wanted = plain(typed);
  const found = [...KINDS.values()].flatMap((kind) => {
    const names = [kind.title, ...kind.words, kind.kind];
    let best: { readonly rank: number; readonly name: string } | undefined;
    names.forEach((name, index) => {
      const ranked = rank(name, wanted);
      const weighed = ranked === undefined ? undefined : ranked + (index === 0 ? 0 : 0.5);
      if (weighed !== undefined && (best === undefined || weighed < best.rank)) best = { rank: weighed, name };
    });
    if (best === undefined) return [];
    const met = best.name === kind.title || plain(best.name) === plain(kind.title) ? undefined : best.name;
    return [{ rank: best.rank, row: { kind, met } }];
  });
  return found
    .sort((a, b) => a.rank - b.rank || a.row.kind.title.localeCompare(b.row.kind.title))
    .map(({ row }) => row);
}

/** What the shelf shows: with nothing typed everything by group, what the drawing uses most before it. */
export function shelfGroups(typed: string, parts: Project["parts"]): readonly ShelfGroup[] {
  if (plain(typed) !== "") return [{ name: "Found", rows: findKinds(typed) }];
  const uses = new Map<string, number>();
  for (const { kind } of parts) uses.set(kind, (uses.get(kind) ?? 0) + 1);
  const used = [...uses]
    .sort((a, b) => b[1] - a[1])
    .slice(0, MOST_USED)
    .flatMap(([name]) => KINDS.get(name) ?? []);
  const groups = Object.entries(GROUPS).map(([group, name]) => ({
    name,
    kinds: [...KINDS.values()].filter((kind) => kind.group === group),
  }));
  return [{ name: "Used most here", kinds: used }, ...groups]
    .filter(({ kinds }) => kinds.length > 0)
    .map(({ name, kinds }) => ({ name, rows: kinds.map((kind) => ({ kind, met: undefined })) }));
}
