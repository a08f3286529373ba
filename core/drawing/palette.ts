/** Ink names to colours. Every palette is dark on white, so that each prints; meaning is never in the colour alone. */
import type { Ink, Pen } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";

export type Palette = Readonly<Record<Ink, string>>;
export type PaletteName = "colour" | "grey";

export const PALETTES: Readonly<Record<PaletteName, Palette>> = {
  colour: {
    ink: "#16181a",
    faint: "#5c6166",
    // Orange for traction live parts: UN ECE R100 (memory), darkened to hold 4.5:1 on white.
    traction: "#b34700",
    // Blue for DC control circuits: IEC 60204-1 (memory).
    auxiliary: "#1f4fa3",
    // Green-yellow for protective conductors: IEC 60445 (memory); the dashes carry it in grey.
    protective: "#4c7a00",
    paper: "#ffffff",
    none: "none",
  },
  grey: {
    ink: "#000000",
    faint: "#595959",
    traction: "#000000",
    auxiliary: "#333333",
    protective: "#333333",
    paper: "#ffffff",
    none: "none",
  },
};

/** Line widths, mm, from the series 0.13 - 2 mm of ISO 128 and ISO 3098 (memory). */
export const PEN_WIDTH: Readonly<Record<Pen, Millimetre>> = {
  hair: 0.13,
  control: 0.25,
  symbol: 0.35,
  frame: 0.5,
  traction: 0.7,
};
