/** Whatever someone draws is solved without throwing: every kind, wired at random, half finished. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";

describe("any drawing", () => {
  it("is solved, and every question about it answered", () => {
    fc.assert(
      fc.property(anyDrawing(), (project) => {
        const analysis = analyse(project);
        const states = [...analysis.states, ...analysis.plugged, analysis.parkedAfterDriving];
        for (const state of states) {
          expect(
            state?.remarks.filter(({ remark }) => remark.includes("elements in") || remark.includes(": ")),
          ).toEqual([]);
          expect([...(state?.volts ?? [])].every((volts) => Number.isFinite(volts) || Number.isNaN(volts))).toBe(true);
          expect([...(state?.currents ?? [])].every(Number.isFinite)).toBe(true);
        }
        for (const net of analysis.network.nets) analysis.belonging(net.index);
        const [first] = analysis.states;
        if (first !== undefined) {
          const last = analysis.network.nodeCount - 1;
          expect(analysis.solveChanged(first, { shorts: [[0, last]] }).shortCurrents).toHaveLength(1);
          analysis.settledCapacitors(first);
        }
      }),
      { numRuns: 150, seed: 20261125 },
    );
  }, 60_000);
});
