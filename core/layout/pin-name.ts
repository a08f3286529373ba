/** Names at the pins of a placed view, where its symbol does not name them itself. */
import { inflate } from "../geometry/boxes.ts";
import type { Box, Primitive } from "../geometry/display.ts";
import { place } from "../geometry/placements.ts";
import { textWidth } from "../geometry/text-widths.ts";
import type { PlacedPin, PlacedView } from "./placed-view.ts";
import { lineBox, type TextLine } from "./text-line.ts";

const SIZE = 1.8;
const GAP = 0.6;

export function pinNames(placed: PlacedView): readonly TextLine[] {
  const { view, kind } = placed;
  const written = new Set(view.symbol.flatMap((item) => (item.draw === "text" ? [item.text] : [])));
  if (kind.traits.battery === true || kind.traits.chassisPoint === true) return [];
  const symbol = place(view.symbol, placed.place);
  return placed.pins.flatMap((pin) => {
    const name = shortName(pin.terminal, view.id);
    if (written.has(name) || [...written].some((text) => text.length > 1 && pin.terminal.startsWith(text))) return [];
    const ways = candidates(pin, name);
    return [
      ways.find((line) => !symbol.some((item) => touches(item, inflate(lineBox(line), 0.15)))) ?? outside(pin, name),
    ];
  });
}

/** A coil's pins are "+" and "-" on the coil itself. */
function shortName(terminal: string, view: string): string {
  return terminal.startsWith(view) && terminal.length > view.length
    ? terminal.slice(view.length).replace(/^-(?=.)/, "")
    : terminal;
}

/** Beside the lead inside the symbol, above or below it. */
function candidates(pin: PlacedPin, name: string): readonly TextLine[] {
  const line = (x: number, y: number, anchor: TextLine["anchor"]): TextLine => ({
    text: name,
    size: SIZE,
    x,
    y,
    anchor,
  });
  switch (pin.side) {
    case "left":
      return [line(pin.x, pin.y - GAP, "start"), line(pin.x, pin.y + 2, "start")];
    case "right":
      return [line(pin.x, pin.y - GAP, "end"), line(pin.x, pin.y + 2, "end")];
    case "up":
      return [line(pin.x + GAP, pin.y + 2, "start"), line(pin.x - GAP, pin.y + 2, "end")];
    case "down":
      return [line(pin.x + GAP, pin.y - GAP, "start"), line(pin.x - GAP, pin.y - GAP, "end")];
  }
}

/** Beside the wire that comes to the pin. */
function outside(pin: PlacedPin, name: string): TextLine {
  const wide = textWidth(name, SIZE);
  switch (pin.side) {
    case "left":
      return { text: name, size: SIZE, x: pin.x - GAP, y: pin.y - GAP, anchor: "end" };
    case "right":
      return { text: name, size: SIZE, x: pin.x + GAP, y: pin.y - GAP, anchor: "start" };
    case "up":
      return { text: name, size: SIZE, x: pin.x - GAP, y: pin.y - GAP, anchor: "start", turn: 270 };
    case "down":
      return { text: name, size: SIZE, x: pin.x - GAP, y: pin.y + GAP + wide, anchor: "start", turn: 270 };
  }
}

/** Whether a stroke of the symbol runs through the box. */
function touches(item: Primitive, box: Box): boolean {
  switch (item.draw) {
    case "text":
      return false;
    case "line": {
      const points = item.closed === true ? [...item.points, ...item.points.slice(0, 1)] : item.points;
      return points.slice(1).some((end, index) => crosses(points[index] ?? end, end, box));
    }
    case "circle":
    case "arc": {
      const [from, to] = item.draw === "arc" ? [item.from, item.to] : [0, 360];
      const steps = Math.min(400, Math.max(8, Math.ceil((Math.abs(to - from) / 57) * item.r * 2)));
      return Array.from(
        { length: steps + 1 },
        (_, index) => ((from + ((to - from) * index) / steps) * Math.PI) / 180,
      ).some((angle) => within([item.x + item.r * Math.cos(angle), item.y + item.r * Math.sin(angle)], box));
    }
  }
}

type XY = readonly [number, number];
const within = ([x, y]: XY, box: Box): boolean =>
  x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height;

/** Samples every half millimetre: symbols are small and their strokes longer than that. */
function crosses(a: XY, b: XY, box: Box): boolean {
  const steps = Math.min(200, Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 0.5)));
  return Array.from({ length: steps + 1 }, (_, index) => index / steps).some((share) =>
    within([a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share], box),
  );
}
