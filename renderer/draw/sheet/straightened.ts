/** Lines for the time until a large sheet is routed: as they were where both ends stayed, else straight. */
import { terminalKey } from "../../../core/layout/placed-view.ts";
import type { PlacedView } from "../../../core/layout/placed-view.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { RoutedSheet } from "../../../core/layout/route.ts";
import type { WireText } from "../../../core/drawing/wire-text.ts";
import type { Wire, WireId } from "../../../core/project/document.ts";
import { wireNets } from "../../../core/layout/wire-nets.ts";
import type { Project } from "../../../core/project/document.ts";

interface Before {
  readonly routed: RoutedSheet;
  readonly texts?: readonly WireText[];
}

export function straightened(
  project: Project,
  views: readonly PlacedView[],
  wires: readonly Wire[],
  before: Before | undefined,
): { readonly routed: RoutedSheet; readonly texts: readonly WireText[] } {
  const pins = new Map(
    views.flatMap(({ part, pins: own }) => own.map((pin) => [terminalKey([part.id, pin.terminal]), pin] as const)),
  );
  const kept = new Set<WireId>();
  const paths = new Map<WireId, readonly Path[]>();
  for (const { id, ends } of wires) {
    const here = ends.flatMap((end) => {
      const pin = end === null ? undefined : pins.get(terminalKey(end));
      return pin === undefined ? [] : [pin];
    });
    const old = before?.routed.paths.get(id);
    const tips = (old ?? []).flatMap((line) => [line[0], line.at(-1)]);
    if (old !== undefined && here.every(({ x, y }) => tips.some((tip) => tip?.[0] === x && tip[1] === y))) {
      kept.add(id);
      paths.set(id, old);
    } else if (here.length > 1) paths.set(id, [here.map(({ x, y }) => [x, y] as const)]);
  }
  return {
    routed: {
      paths,
      stubs: (before?.routed.stubs ?? []).filter(({ texts }) => texts.every(({ wire }) => kept.has(wire))),
      nets: wireNets(project),
      notes: [],
      views,
    },
    texts: (before?.texts ?? []).filter(({ wire }) => kept.has(wire)),
  };
}
