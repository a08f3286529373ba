/** Whatever someone draws is solved without throwing: every kind, wired at random, half finished. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { readValues } from "../../../core/parts/values.ts";
import { drawing } from "../../harness/drawing.ts";

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

describe("any drawing", () => {
  it("is solved, and every question about it answered", () => {
    const part = fc.record({ kind: fc.nat(kinds.length - 1), pick: fc.nat(11) });
    const wire = fc.record({ from: fc.nat(999), to: fc.nat(999), end: fc.nat(999), other: fc.nat(999) });
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 2, maxLength: 14 }),
        fc.array(wire, { maxLength: 40 }),
        (parts, wires) => {
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
          for (const { from, to, end, other } of wires)
            sketch.wire(at(from, end), to % 29 === 0 ? null : at(to, other));
          const analysis = analyse(sketch.build());
          const states = [...analysis.states, ...analysis.plugged, analysis.parkedAfterDriving];
          for (const state of states) {
            expect(
              state?.remarks.filter(({ remark }) => remark.includes("elements in") || remark.includes(": ")),
            ).toEqual([]);
            expect([...(state?.volts ?? [])].every((volts) => Number.isFinite(volts) || Number.isNaN(volts))).toBe(
              true,
            );
            expect([...(state?.currents ?? [])].every(Number.isFinite)).toBe(true);
          }
          for (const net of analysis.network.nets) analysis.belonging(net.index);
          const [first] = analysis.states;
          if (first !== undefined) {
            const last = analysis.network.nodeCount - 1;
            expect(analysis.solveChanged(first, { shorts: [[0, last]] }).shortCurrents).toHaveLength(1);
            analysis.settledCapacitors(first);
          }
        },
      ),
      { numRuns: 150, seed: 20261125 },
    );
  }, 60_000);
});
