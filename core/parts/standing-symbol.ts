/** A view's symbol with its contacts as they stand, for the screen. Prints show every contact unactuated (IEC 61082-1, memory). */
import type { DisplayList } from "../geometry/display.ts";
import type { View } from "./define.ts";

/** Whether any line of the symbol is the blade of a contact. */
export const hasBlades = ({ symbol }: Pick<View, "symbol">): boolean =>
  symbol.some((item) => item.draw === "line" && item.blade !== undefined);

/** `closed`: whether the contact between two terminals is closed. A blade that joins several at once is drawn to each. */
export function standingSymbol(
  { symbol, pins }: Pick<View, "symbol" | "pins">,
  closed: (a: string, b: string) => boolean,
): DisplayList {
  // A symbol in a box has longer leads: the nearest pin is that of the contact.
  const terminalAt = ([x, y]: readonly [number, number]): string => {
    const away = (pin: { readonly x: number; readonly y: number }): number => Math.hypot(pin.x - x, pin.y - y);
    return (
      pins.reduce<(typeof pins)[number] | undefined>(
        (best, pin) => (best === undefined || away(pin) < away(best) ? pin : best),
        undefined,
      )?.terminal ?? ""
    );
  };
  return symbol.flatMap((item) => {
    if (item.draw !== "line" || item.blade === undefined) return [item];
    const { blade, ...line } = item;
    const shut = blade.throws.filter(({ between: [a, b] }) => closed(terminalAt(a), terminalAt(b)));
    return shut.length === 0 ? [{ ...line, points: blade.open }] : shut.map(({ points }) => ({ ...line, points }));
  });
}
