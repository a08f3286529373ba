import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ADVANCES, ASCENT, CAPITAL_HEIGHT, DESCENT, UNITS_PER_EM } from "../../../core/geometry/advances.ts";
import { hasAllCharacters, textBox, textWidth } from "../../../core/geometry/text-widths.ts";
import { readFont } from "../../harness/font-file.mjs";

describe("widths against the shipped font files", () => {
  it.each(["regular", "bold"])("%s: every advance, and nothing beside them", (weight) => {
    const font = readFont(readFileSync(new URL(`../../../assets/fonts/drawing-${weight}.ttf`, import.meta.url)));
    expect(font.unitsPerEm).toBe(UNITS_PER_EM);
    expect([font.capHeight, font.ascent, font.descent]).toEqual([CAPITAL_HEIGHT, ASCENT, -DESCENT]);
    const table = new Map(
      ADVANCES.flatMap(({ advance, characters }) => [...characters.join("")].map((c) => [c, advance])),
    );
    const file = new Map([...font.advances].map(([code, advance]) => [String.fromCodePoint(code), advance]));
    expect(file.size).toBeGreaterThan(500);
    expect(table).toEqual(file);
  });

  it("the window's files are the same fonts, compressed", () => {
    for (const weight of ["regular", "bold"]) {
      const file = readFileSync(new URL(`../../../assets/fonts/drawing-${weight}.woff2`, import.meta.url));
      expect(file.toString("latin1", 0, 4)).toBe("wOF2");
      const plain = readFileSync(new URL(`../../../assets/fonts/drawing-${weight}.ttf`, import.meta.url));
      // Number of tables and size before compression stand in the header.
      expect(file.readUInt16BE(12)).toBe(plain.readUInt16BE(4));
      expect(Math.abs(file.readUInt32BE(16) / plain.length - 1)).toBeLessThan(0.05);
    }
  });
});

describe("text widths", () => {
  it("all figures are equally wide, so that columns of numbers line up", () => {
    expect(new Set([..."0123456789"].map((figure) => textWidth(figure, 2.5)))).toEqual(new Set([1.5]));
  });

  it("has what the trade writes, in Latin, Greek and Cyrillic", () => {
    expect(hasAllCharacters("2/0 AWG (67.4 mm²) 4.7 µF 5 kΩ 85 °C ±5 % Größe αβγ кабель → ≤ ≥")).toBe(true);
    expect(hasAllCharacters("電")).toBe(false);
  });

  it("adds up, counts an accent once however it is typed, and gives room to what it lacks", () => {
    expect(textWidth("", 2.5)).toBe(0);
    expect(textWidth("W1", 3.5)).toBeCloseTo((0.75 + 0.6) * 3.5, 12);
    expect(textWidth("o\u0308", 2.5)).toBe(textWidth("ö", 2.5));
    expect(textWidth("電", 2.5)).toBe(2.5);
    expect(textWidth("A\nB", 2.5)).toBe(textWidth("AB", 2.5));
  });

  it("a box lies about its anchor", () => {
    expect(textBox("00", 2.5, 10, 20, "middle").x).toBeCloseTo(8.5, 12);
    expect(textBox("00", 2.5, 10, 20, "end").x).toBeCloseTo(7, 12);
    const start = textBox("00", 2.5, 10, 20);
    expect(start.x).toBe(10);
    expect(start.y).toBeLessThan(20);
    expect(start.y + start.height).toBeGreaterThan(20);
  });
});
