/**
 * The face of a kind whose terminals stand in a plain row: nobody's real part, so distances on it are not checked
 * until the part's own face is stated.
 */
import type { Millimetre } from "../quantity/kinds.ts";
import type { Face, TerminalSpec } from "./define.ts";

const PITCH: Readonly<Record<TerminalSpec["form"], Millimetre>> = { stud: 30, tab: 8, pin: 5, lead: 10 };

/** One row of terminals, in their order, pitch by form; pins additionally form one plug. Height 40 mm. */
export function plainFace(terminals: readonly TerminalSpec[]): Face {
  const places: Record<string, { x: Millimetre; y: Millimetre; stud?: string }> = {};
  let x = 0;
  for (const terminal of terminals) {
    const step = PITCH[terminal.form];
    places[terminal.id] = { x: x + step / 2, y: 20, ...(terminal.form === "stud" ? { stud: "M8" } : {}) };
    x += step;
  }
  const pins = terminals.filter((terminal) => terminal.form === "pin").map((terminal) => terminal.id);
  const first = pins[0] === undefined ? undefined : places[pins[0]];
  return {
    width: Math.max(x, 20),
    height: 40,
    terminals: places,
    plugs:
      first === undefined
        ? []
        : [
            {
              id: "plug",
              box: { x: first.x - 2.5, y: 15, width: pins.length * PITCH.pin, height: 10 },
              pitch: PITCH.pin,
              pins,
            },
          ],
    byDefault: true,
  };
}

/** A terminal in few words. */
export const terminal = (
  id: string,
  form: TerminalSpec["form"],
  required: boolean,
  title: string,
  row?: string,
): TerminalSpec => ({ id, form, required, title, ...(row === undefined ? {} : { row }) });
