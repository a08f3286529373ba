/** Whatever someone draws is looked at without a check breaking, its words all filled in, and in bounded time. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { runCheck } from "../../../core/checks/run.ts";
import { fill, Names } from "../../../core/checks/text.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { readValues } from "../../../core/parts/values.ts";
import { drawing } from "../../harness/drawing.ts";

const kinds = [...KINDS.values()];
/** Sources, coils, diodes and contacts are drawn more often than all else, so that loops and feeds come about. */
const frequent = ["battery-block", "battery-block", "contactor", "relay", "diode", "key-switch", "dc-controller"];
const CHECKED = ["polarity", "shorts"];
const BESIDES = ["held-by-backfeed", "relay-chatter", "coil-voltage-wrong"];

test("no drawing breaks a check", () => {
  const checks = CHECKS.filter(({ id, group }) => CHECKED.includes(group) || BESIDES.includes(id));
  expect(checks.length).toBeGreaterThanOrEqual(10);
  const part = fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom(...frequent) },
    { weight: 1, arbitrary: fc.constantFrom(...kinds.map(({ kind }) => kind)) },
  );
  const wire = fc.record({ from: fc.nat(999), to: fc.nat(999), end: fc.nat(999), other: fc.nat(999) });
  const found = new Set<string>();
  fc.assert(
    fc.property(
      fc.array(part, { minLength: 3, maxLength: 10 }),
      fc.array(wire, { minLength: 6, maxLength: 30 }),
      (parts, wires) => {
        const sketch = drawing();
        const terminals = parts.map((name, index) => {
          const kind = KINDS.get(name);
          if (kind === undefined) throw new Error(`no kind ${name}`);
          const parameters = "coilVoltage" in kind.parameters ? { coilVoltage: "12 V" } : {};
          sketch.part(`X${index + 1}`, name, parameters);
          return kind.terminals(readValues(kind, parameters)).map(({ id }) => `X${index + 1}:${id}`);
        });
        const at = (part: number, end: number): string | null => {
          const of = terminals[part % terminals.length] ?? [];
          return of[end % of.length] ?? null;
        };
        for (const { from, to, end, other } of wires)
          sketch.wire(at(from, end), to % 29 === 0 ? null : at(to, other), { size: "2.5 mm2", length: "1 m" });
        const project = sketch.build();
        const analysis = analyse(project);
        const names = new Names(project);
        for (const check of checks) {
          const outcome = runCheck(check, analysis);
          expect(outcome.broke).toBeNull();
          for (const { message, facts } of outcome.failures) {
            found.add(`${check.id} ${message}`);
            const { title, why, mend } = check.messages[message] ?? { title: "{}", why: "", mend: "" };
            for (const text of [title, why, mend])
              expect(fill(text, facts, names)).not.toMatch(/[{}]|undefined|NaN|Infinity/);
          }
          for (const { reason, facts } of outcome.notChecked)
            expect(fill(check.reasons[reason] ?? "{}", facts ?? {}, names)).toMatch(/^[^{}]+\.$/);
        }
      },
    ),
    { numRuns: 200, seed: 20261125 },
  );
  // Chance finds most of what there is to find, so that the drawings are no empty exercise.
  expect(found.size).toBeGreaterThan(6);
}, 120_000);
