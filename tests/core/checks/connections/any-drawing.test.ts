/** Whatever someone draws, these checks give their verdict in words, and forgetting a figure never makes a thing pass. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { connectorMismatch } from "../../../../core/checks/connections/connector-mismatch.ts";
import { designationDuplicate } from "../../../../core/checks/connections/designation-duplicate.ts";
import { lugMisfit } from "../../../../core/checks/connections/lug-misfit.ts";
import { noReturnPath } from "../../../../core/checks/connections/no-return-path.ts";
import { stateUnreachable } from "../../../../core/checks/connections/state-unreachable.ts";
import { studCrowded } from "../../../../core/checks/connections/stud-crowded.ts";
import { terminalUnconnected } from "../../../../core/checks/connections/terminal-unconnected.ts";
import { wireLooseEnd } from "../../../../core/checks/connections/wire-loose-end.ts";
import { throttleMismatch } from "../../../../core/checks/controls/throttle-mismatch.ts";
import { dataMissing } from "../../../../core/checks/drawing/data-missing.ts";
import { limitsUnstated } from "../../../../core/checks/drawing/limits-unstated.ts";
import { placeId } from "../../../../core/checks/finding.ts";
import { runCheck, runChecks } from "../../../../core/checks/run.ts";
import { KINDS } from "../../../../core/parts/catalogue.ts";
import { readValues } from "../../../../core/parts/values.ts";
import type { Project } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const CHECKS = [
  terminalUnconnected,
  wireLooseEnd,
  noReturnPath,
  stateUnreachable,
  designationDuplicate,
  studCrowded,
  lugMisfit,
  connectorMismatch,
  throttleMismatch,
  dataMissing,
  limitsUnstated,
];

const kinds = [...KINDS.values()];

test("parts of every kind, wired at random", () => {
  const part = fc.record({ kind: fc.nat(kinds.length - 1), pick: fc.nat(5) });
  const wire = fc.tuple(fc.nat(999), fc.nat(999), fc.nat(999), fc.nat(999));
  fc.assert(
    fc.property(fc.array(part, { minLength: 2, maxLength: 12 }), fc.array(wire, { maxLength: 30 }), (parts, wires) => {
      const sketch = drawing();
      const terminals = parts.map(({ kind, pick }, index) => {
        const found = kinds[kind] ?? kinds[0]!;
        const choices = Object.entries(found.parameters).flatMap(([name, spec], place): [string, string][] =>
          "choices" in spec && pick > 1 ? [[name, spec.choices[(pick + place) % spec.choices.length] ?? ""]] : [],
        );
        const parameters = Object.fromEntries(choices);
        sketch.part(`X${index + 1}`, found.kind, parameters);
        return found.terminals(readValues(found, parameters)).map(({ id }) => `X${index + 1}:${id}`);
      });
      const at = (place: number, end: number): string | null => {
        const of = terminals[place % terminals.length] ?? [];
        return of[end % of.length] ?? null;
      };
      for (const [from, end, to, other] of wires) sketch.wire(at(from, end), to % 17 === 0 ? null : at(to, other));
      const run = runChecks(analyse(sketch.build()), CHECKS);
      expect(run.notChecked.filter(({ where }) => where.length === 0).map(({ why }) => why)).toEqual([]);
      for (const { title, why, mend } of run.findings) {
        expect(`${title} ${why} ${mend}`).not.toMatch(/[{}]|undefined|NaN|Infinity/);
      }
    }),
    { numRuns: 80, seed: 20261125 },
  );
}, 60_000);

/** The same drawing with one stated field gone. */
function* forgetting(project: Project): Generator<readonly [what: string, Project]> {
  for (const part of project.parts) {
    for (const name of Object.keys(part.parameters)) {
      const { [name]: _gone, ...parameters } = part.parameters;
      const parts = project.parts.map((each) => (each === part ? { ...part, parameters } : each));
      yield [`${part.designation}.${name}`, { ...project, parts }];
    }
  }
  for (const wire of project.wires) {
    const { size: _size, length: _length, ...rest } = wire;
    yield [`${wire.number}.size`, { ...project, wires: project.wires.map((each) => (each === wire ? rest : each)) }];
  }
}

test("forgetting a stated figure makes nothing pass that did not pass before", () => {
  const passes = (project: Project): ReadonlySet<string> => {
    const analysis = analyse(project);
    return new Set(
      CHECKS.flatMap((check) => runCheck(check, analysis).passed.map((place) => `${check.id} ${placeId(place)}`)),
    );
  };
  const before = passes(tug());
  const gained: string[] = [];
  for (const [what, project] of forgetting(tug())) {
    for (const passed of passes(project)) if (!before.has(passed)) gained.push(`without ${what}: ${passed}`);
  }
  expect(gained).toEqual([]);
}, 60_000);
