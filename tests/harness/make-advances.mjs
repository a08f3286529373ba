/** Writes core/geometry/advances.ts from the shipped font files. Run it after replacing a font. */
import { readFileSync, writeFileSync } from "node:fs";
import { readFont } from "./font-file.mjs";

const root = new URL("../../", import.meta.url);
const regular = readFont(readFileSync(new URL("assets/fonts/drawing-regular.ttf", root)));
const bold = readFont(readFileSync(new URL("assets/fonts/drawing-bold.ttf", root)));
for (const [character, advance] of regular.advances) {
  if (bold.advances.get(character) !== advance) {
    throw new Error(`regular and bold differ in the width of "${String.fromCodePoint(character)}": keep two tables`);
  }
}
/** @type {Map<number, string[]>} */
const classes = new Map();
for (const [character, advance] of [...regular.advances].sort(([a], [b]) => a - b)) {
  classes.set(advance, [...(classes.get(advance) ?? []), String.fromCodePoint(character)]);
}
/** @param {string[]} letters */
const lines = (letters) => {
  const parts = [];
  for (let i = 0; i < letters.length; i += 64) parts.push(JSON.stringify(letters.slice(i, i + 64).join("")));
  return parts.map((part) => `      ${part},`).join("\n");
};
const rows = [...classes].sort(([a], [b]) => a - b);
writeFileSync(
  new URL("core/geometry/advances.ts", root),
  `/**
 * Measured from the shipped typeface by tests/harness/make-advances.mjs; a test compares it with the font files.
 * Lengths in units of the font, UNITS_PER_EM to the font size. Regular and bold have the same advances.
 */
export const UNITS_PER_EM = ${regular.unitsPerEm};
export const CAPITAL_HEIGHT = ${regular.capHeight};
export const ASCENT = ${regular.ascent};
export const DESCENT = ${-regular.descent};

/** Advance width and the characters that have it. */
export const ADVANCES: readonly { readonly advance: number; readonly characters: readonly string[] }[] = [
${rows.map(([advance, letters]) => `  {\n    advance: ${advance},\n    characters: [\n${lines(letters)}\n    ],\n  },`).join("\n")}
];
`,
);
