/**
 * The display list: what a symbol or a sheet looks like, in millimetres, y down. Canvas, SVG and PDF read the
 * same list, so the drawing on the screen, the export and the print cannot differ.
 */
import type { Millimetre } from "../quantity/kinds.ts";

export interface Point {
  readonly x: Millimetre;
  readonly y: Millimetre;
}
export interface Box {
  readonly x: Millimetre;
  readonly y: Millimetre;
  readonly width: Millimetre;
  readonly height: Millimetre;
}

type LinePoints = readonly (readonly [Millimetre, Millimetre])[];

/** How a line that is the blade of a contact stands, in its symbol's own millimetres. Placing a symbol leaves it out. */
export interface Blade {
  /** With no contact closed. */
  readonly open: LinePoints;
  /** For each contact: the pins that it joins, and the line while it is closed. */
  readonly throws: readonly {
    readonly between: readonly [a: readonly [Millimetre, Millimetre], b: readonly [Millimetre, Millimetre]];
    readonly points: LinePoints;
  }[];
}

/** Ink names, not colours: the back-end maps them to a palette (light, dark, grey print). */
export type Ink = "ink" | "faint" | "traction" | "auxiliary" | "protective" | "paper" | "none";
/** Line widths by role: symbol 0.35 mm, traction 0.7 mm, control 0.25 mm, frame 0.5 mm, hair 0.13 mm. */
export type Pen = "hair" | "control" | "symbol" | "frame" | "traction";
export type Dash = "solid" | "dashed" | "dotted" | "dash-dot";

interface Stroke {
  readonly pen?: Pen;
  readonly ink?: Ink;
  readonly dash?: Dash;
}

export type Primitive =
  | ({
      readonly draw: "line";
      readonly points: readonly (readonly [Millimetre, Millimetre])[];
      readonly closed?: boolean;
      readonly fill?: Ink;
      readonly blade?: Blade;
    } & Stroke)
  | ({
      readonly draw: "circle";
      readonly x: Millimetre;
      readonly y: Millimetre;
      readonly r: Millimetre;
      readonly fill?: Ink;
    } & Stroke)
  /** Circular arc, degrees clockwise from the positive x axis. */
  | ({
      readonly draw: "arc";
      readonly x: Millimetre;
      readonly y: Millimetre;
      readonly r: Millimetre;
      readonly from: number;
      readonly to: number;
    } & Stroke)
  | {
      readonly draw: "text";
      readonly x: Millimetre;
      readonly y: Millimetre;
      readonly text: string;
      readonly size: 1.8 | 2.5 | 3.5 | 5;
      readonly anchor?: "start" | "middle" | "end";
      readonly turn?: 0 | 90 | 180 | 270;
      readonly weight?: "regular" | "bold";
      readonly ink?: Ink;
    };

export type DisplayList = readonly Primitive[];
