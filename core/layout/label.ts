/**
 * What is written beside a placed view: its designation and its principal values. Layout needs the room it takes,
 * the sheet writes it. Text always stands upright, whichever way the symbol is turned.
 */
import type { Box } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { union } from "../geometry/boxes.ts";
import { placePoint, type Side } from "../geometry/placements.ts";
import type { PlacedView } from "./placed-view.ts";
import { clipText, DESIGNATION_SIZE, lineBox, VALUE_SIZE, type TextLine } from "./text-line.ts";

/**
 * Parameters that a reader looks for first, in the order of importance; a view shows the first two that are stated.
 * A kind that has none of them shows its designation alone.
 */
const PRINCIPAL: readonly string[] = [
  "rating",
  "currentContinuous",
  "voltageDc",
  "contactVoltage",
  "capacity",
  "blocks",
  "cells",
  "resistance",
  "power",
  "nominalMax",
  "currentMax",
  "outputVoltage",
  "outputVoltageMax",
  "outputCurrentMax",
  "capacitance",
  "ratedCurrent",
  "ratedDrop",
  "contactCurrent",
  "voltage",
  "voltageMax",
  "current",
  "delay",
  "resistanceFull",
  "pinCurrent",
  "actuator",
];
const COUNTED: Readonly<Record<string, string>> = { cells: "cells", blocks: "blocks" };
/** A coil that is drawn apart from its contacts is known by it alone; small contacts by the designation alone. */
const COIL_VALUES: readonly string[] = ["coilVoltage"];
const VALUES_SHOWN = 2;
const LONGEST: Millimetre = 45;

function principalValues(placed: PlacedView): string {
  const { part, kind, view, values } = placed;
  const coils = kind.coils?.(values) ?? [];
  const holdsCoil = ({ pins }: typeof view): boolean =>
    coils.some((coil) => pins.some((pin) => pin.terminal === coil.plus));
  const views = kind.views(values);
  const main = views.find((other) => !holdsCoil(other)) ?? views[0];
  const names = main?.id === view.id ? [...PRINCIPAL, ...COIL_VALUES] : holdsCoil(view) ? COIL_VALUES : [];
  const texts = names.flatMap((name) => {
    const typed = part.parameters[name];
    if (typeof typed !== "string" || typed === "" || !(name in kind.parameters)) return [];
    const unit = COUNTED[name];
    return [unit === undefined || Number.isNaN(Number(typed)) ? typed : `${typed} ${unit}`];
  });
  return texts.slice(0, VALUES_SHOWN).join("  ");
}

/** Texts from top to bottom: designation, then values where there are some. */
function texts(placed: PlacedView): readonly Omit<TextLine, "x" | "y" | "anchor">[] {
  const values = principalValues(placed);
  return [
    { text: clipText(placed.part.designation, DESIGNATION_SIZE, LONGEST), size: DESIGNATION_SIZE },
    ...(values === "" ? [] : [{ text: clipText(values, VALUE_SIZE, LONGEST), size: VALUE_SIZE } as const]),
  ];
}

/** Base line to base line of two lines, mm. */
const PITCH: Millimetre = 3.4;

function stack(
  lines: readonly Omit<TextLine, "x" | "y" | "anchor">[],
  x: Millimetre,
  lowest: Millimetre,
  anchor: TextLine["anchor"],
): readonly TextLine[] {
  return lines.map((line, index) => ({ ...line, x, y: lowest - (lines.length - 1 - index) * PITCH, anchor }));
}

/** A name may stand on the lead of a pin: the base line of a label is this much above the lead, mm. */
const ABOVE_NAME: Millimetre = 3;
const sideways = (side: Side): boolean => side === "left" || side === "right";

/** The lines beside a view, where the kind wants them (unturned) or on the first side that no wire leaves. */
export function labelOf(placed: PlacedView): readonly TextLine[] {
  const { place, view, box } = placed;
  const lines = texts(placed);
  const busy = new Set<Side>(placed.pins.map((pin) => pin.side));
  const at = placePoint(view.label, place);
  const anchor = view.label.anchor;
  const inner = 1.2;
  if (place.turn === 0) {
    const swapped = anchor === "start" ? "end" : anchor === "end" ? "start" : "middle";
    const lowest = Math.min(at.y, ...placed.pins.map((pin) => (sideways(pin.side) ? pin.y - ABOVE_NAME : at.y)));
    return stack(lines, at.x, lowest, place.mirrored ? swapped : anchor);
  }
  const middle = box.x + box.width / 2;
  const tall = (lines.length - 1) * PITCH;
  const beside = box.y + box.height / 2 + (tall + 1.8) / 2;
  const sides: readonly (readonly [Side, readonly TextLine[]])[] = [
    ["up", stack(lines, middle, box.y + 1.5, "middle")],
    ["right", stack(lines, box.x + box.width - inner, beside, "start")],
    ["left", stack(lines, box.x + inner, beside, "end")],
    ["down", stack(lines, middle, box.y + box.height + 1.5 + tall, "middle")],
  ];
  const upright = place.turn === 180 ? sides : [...sides.slice(1, 3), ...sides];
  return (upright.find(([side]) => !busy.has(side)) ?? sides[0])?.[1] ?? [];
}

/** The room of a view's texts; undefined where nothing is written. */
export const labelBox = (lines: readonly TextLine[]): Box | undefined => union(lines.map(lineBox));
