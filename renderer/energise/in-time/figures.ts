/** Figures of a transition: how they are written and how far the scales of volts and amperes go. */
import { printQuantity } from "../../../core/quantity/print.ts";
import type { Curve } from "../../window/analysis/protocol.ts";

/** Less is noise of the calculation: no meter shows it. */
const LEAST = 1e-3;

/** A scale of less would make noise look like something. */
const LEAST_SCALE = 1;

export function figureText(value: number | null | undefined, unit: Curve["unit"]): string {
  if (value === null || value === undefined) return "-";
  const shown = Math.abs(value) < LEAST ? 0 : Number(value.toPrecision(3));
  return printQuantity(shown, unit === "V" ? "voltage" : "current");
}

export type Span = readonly [least: number, most: number];

/**
 * From where to where each scale goes. Zero volts and zero amperes lie at one height: else two lines of nothing look
 * like something.
 */
export function scaleSpans(curves: readonly Curve[]): Readonly<Record<Curve["unit"], Span>> {
  const ends = (unit: Curve["unit"]): Span => {
    const values = curves
      .flatMap((curve) => (curve.unit === unit ? curve.values : []))
      .filter((value) => value !== null);
    return [Math.min(0, ...values), Math.max(0, ...values)];
  };
  const spans = { V: ends("V"), A: ends("A") };
  const below = Math.max(...Object.values(spans).map(([least, most]) => (most > least ? -least / (most - least) : 0)));
  const room = ([least, most]: Span): Span => {
    const whole = Math.max(below < 1 ? most / (1 - below) : 0, below > 0 ? -least / below : 0, LEAST_SCALE);
    return [-below * whole * 1.04, (1 - below) * whole * 1.04];
  };
  return { V: room(spans.V), A: room(spans.A) };
}
