/** Designations: natural order and the next free one. */
import type { Project } from "./document.ts";

/** F2 before F10; capital letters before small ones where nothing else differs. The order does not depend on a language. */
export function compareNatural(a: string, b: string): number {
  const left = a.match(/[0-9]+|[^0-9]+/g) ?? [];
  const right = b.match(/[0-9]+|[^0-9]+/g) ?? [];
  for (let at = 0; at < Math.max(left.length, right.length); at += 1) {
    const [one, other] = [left[at], right[at]];
    if (one === undefined) return -1;
    if (other === undefined) return 1;
    if (one === other) continue;
    const [x, y] = [Number(one), Number(other)];
    if (!Number.isNaN(x) && !Number.isNaN(y) && x !== y) return x - y;
    if (one !== other) return one < other ? -1 : 1;
  }
  return 0;
}

/** The lowest free number behind a class letter of IEC 81346-2: F1, F2 in use gives F3; F1, F3 gives F2. */
export function nextDesignation(project: Project, letter: string): string {
  const used = new Set(project.parts.map((part) => part.designation));
  let number = 1;
  while (used.has(`${letter}${number}`)) number += 1;
  return `${letter}${number}`;
}

/** The next free wire number: one above the highest plain number behind the letter W. */
export function nextWireNumber(project: Project): string {
  let highest = 0;
  for (const wire of project.wires) {
    const number = /^W([0-9]{1,6})$/.exec(wire.number)?.[1];
    if (number !== undefined) highest = Math.max(highest, Number(number));
  }
  return `W${highest + 1}`;
}
