/** Names at the pins of a placed view, where its symbol does not name them itself. */
import { textWidth } from "../geometry/text-widths.ts";
import type { PlacedPin, PlacedView } from "./placed-view.ts";
import type { TextLine } from "./text-line.ts";

/** Names at the pins, where the symbol does not name them itself. */
export function pinNames(placed: PlacedView): readonly TextLine[] {
  const written = new Set(placed.view.symbol.flatMap((item) => (item.draw === "text" ? [item.text] : [])));
  if (placed.kind.traits.battery === true || placed.kind.traits.chassisPoint === true) return [];
  return placed.pins.flatMap((pin) => {
    const name = shortName(pin.terminal, placed.view.id);
    if (written.has(name) || written.has(pin.terminal)) return [];
    return [pinName(pin, name)];
  });
}

/** A coil's pins are "+" and "-" on the coil itself. */
function shortName(terminal: string, view: string): string {
  return terminal.startsWith(view) && terminal.length > view.length
    ? terminal.slice(view.length).replace(/^-(?=.)/, "")
    : terminal;
}

/** Inside the symbol, beside the lead, where it is short; else outside, above the wire. */
function pinName(pin: PlacedPin, name: string): TextLine {
  const size = 1.8;
  const inside = textWidth(name, size) <= 4.6;
  const gap = 0.6;
  switch (pin.side) {
    case "left":
      return { text: name, size, x: pin.x + (inside ? 0 : -gap), y: pin.y - gap, anchor: inside ? "start" : "end" };
    case "right":
      return { text: name, size, x: pin.x + (inside ? 0 : gap), y: pin.y - gap, anchor: inside ? "end" : "start" };
    case "up":
      return { text: name, size, x: pin.x + gap, y: pin.y + 2, anchor: "start" };
    case "down":
      return { text: name, size, x: pin.x + gap, y: pin.y - 0.7, anchor: "start" };
  }
}
