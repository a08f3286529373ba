/** Whatever someone may draw: every kind, wired at random, half finished. */
import fc from "fast-check";
import { KINDS } from "../../core/parts/catalogue.ts";
import { readValues } from "../../core/parts/values.ts";
import type { Project } from "../../core/project/document.ts";
import { drawing } from "./drawing.ts";

const kinds = [...KINDS.values()];

/** One choice of each parameter that has choices, by a number. */
function parametersOf(kind: (typeof kinds)[number], pick: number): Record<string, string> {
  const entries = Object.entries(kind.parameters).flatMap(([name, spec], index) =>
    "choices" in spec && !name.startsWith("finish")
      ? [[name, spec.choices[(pick + index) % spec.choices.length] ?? ""] as const]
      : [],
  );
  return Object.fromEntries(pick % 3 === 0 ? [] : entries);
}

export function anyDrawing(): fc.Arbitrary<Project> {
  const part = fc.record({ kind: fc.nat(kinds.length - 1), pick: fc.nat(11) });
  const wire = fc.record({ from: fc.nat(999), to: fc.nat(999), end: fc.nat(999), other: fc.nat(999) });
  const parts = fc.array(part, { minLength: 2, maxLength: 14 });
  return fc.tuple(parts, fc.array(wire, { maxLength: 40 })).map(([parts, wires]) => {
    const sketch = drawing();
    const terminals = parts.map(({ kind, pick }, index) => {
      const found = kinds[kind] ?? kinds[0]!;
      const parameters = parametersOf(found, pick);
      sketch.part(`X${index + 1}`, found.kind, parameters);
      return found.terminals(readValues(found, parameters)).map(({ id }) => `X${index + 1}:${id}`);
    });
    const at = (part: number, end: number): string | null => {
      const of = terminals[part % terminals.length] ?? [];
      return of[end % of.length] ?? null;
    };
    for (const { from, to, end, other } of wires) sketch.wire(at(from, end), to % 29 === 0 ? null : at(to, other));
    return sketch.build();
  });
}
