/** A part's view on the paper: its symbol placed, its designation and values, the names of its pins. */
import type { DisplayList, Primitive } from "../geometry/display.ts";
import { place } from "../geometry/placements.ts";
import { pinNames } from "../layout/pin-name.ts";
import type { PlacedView } from "../layout/placed-view.ts";
import { labelOf } from "../layout/label.ts";
import type { TextLine } from "../layout/text-line.ts";

type Text = Extract<Primitive, { readonly draw: "text" }>;

export const textPrimitive = (line: TextLine, ink: Text["ink"] = "ink", weight: Text["weight"] = "regular"): Text => ({
  draw: "text",
  x: line.x,
  y: line.y,
  text: line.text,
  size: line.size,
  anchor: line.anchor,
  ...(line.turn === 270 ? { turn: 270 as const } : {}),
  ...(weight === "bold" ? { weight } : {}),
  ink,
});

/** Symbol, designation and values, pin names. */
export function drawView(placed: PlacedView): DisplayList {
  return [
    ...place(placed.view.symbol, placed.place),
    ...labelOf(placed).map((line) => textPrimitive(line)),
    ...pinNames(placed).map((line) => textPrimitive(line, "faint")),
  ];
}
