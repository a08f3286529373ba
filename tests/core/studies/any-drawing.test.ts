/** Whatever someone draws, finished or not, every study answers, and what it proposes satisfies what it asked for. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { auxiliaryBudget } from "../../../core/studies/auxiliary-budget.ts";
import { fallsShortOf } from "../../../core/studies/cable-size.ts";
import { fuseSizes } from "../../../core/studies/fuse-sizes.ts";
import { meterReadings, packIsolations } from "../../../core/studies/isolation.ts";
import { prechargeStudies } from "../../../core/studies/precharge.ts";
import { currentsAtPoles, prospectiveFaults, selectivity } from "../../../core/studies/prospective-current.ts";
import { reachStudy } from "../../../core/studies/reach.ts";
import { wireSizes } from "../../../core/studies/wire-sizes.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";

test("no drawing breaks a study, and no proposal falls short of its own question", () => {
  let proposals = 0;
  fc.assert(
    fc.property(anyDrawing(), (project) => {
      const analysis = analyse(project);
      for (const { metric, gauge, question, current } of wireSizes(analysis)) {
        for (const proposed of [metric, gauge]) {
          if (proposed === undefined) continue;
          proposals += 1;
          expect(fallsShortOf(proposed.size, question)).toEqual([]);
          expect(proposed.ampacity).toBeGreaterThanOrEqual((current ?? 0) - 1e-9);
        }
      }
      for (const { study, question } of fuseSizes(analysis)) {
        const { rating } = study.answer;
        // NEC 210.20: the load is at most 80 % of the device.
        if (rating !== undefined) expect(question.continuous).toBeLessThanOrEqual(0.8 * rating + 1e-9);
      }
      for (const { current, cleared } of prospectiveFaults(analysis)) {
        expect(current.least).toBeLessThanOrEqual(current.most);
        if (cleared !== undefined) expect(cleared.least).toBeLessThanOrEqual(cleared.most);
      }
      for (const { systems, standing } of [auxiliaryBudget(analysis)]) {
        for (const { states } of systems) for (const { demand } of states) expect(demand).toBeGreaterThanOrEqual(0);
        for (const { current } of standing) expect(current).toBeGreaterThanOrEqual(0);
      }
      for (const { pack } of packIsolations(analysis)) {
        for (const state of analysis.states) {
          const made = meterReadings(analysis, pack, state);
          if (made !== undefined) expect(made.negative + made.positive).toBeGreaterThanOrEqual(0);
        }
      }
      currentsAtPoles(analysis);
      selectivity(analysis);
      prechargeStudies(analysis);
      reachStudy(analysis);
    }),
    { numRuns: 80, seed: 11 },
  );
  expect(proposals).toBeGreaterThan(200);
}, 60_000);
