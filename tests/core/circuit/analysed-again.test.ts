/**
 * What solving never reads of a part may change without anything being solved anew; whatever else is stated otherwise
 * is felt. One part of each kind in the demo vehicles, each of its parameters by itself: states and transitions are
 * those of an analysis from nothing. LOOMWRIGHT_LONG=1 follows every one of them in time.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis, SolvedState } from "../../../core/circuit/analysis.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { ParameterSpec } from "../../../core/parts/define.ts";
import { readValues } from "../../../core/parts/values.ts";
import { execute, Refused } from "../../../core/project/commands/define.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import type { Part, Project } from "../../../core/project/document.ts";
import { demos } from "../../demos/demo-files.ts";

const long = process.env["LOOMWRIGHT_LONG"] === "1";
/** Every so many changes one is followed in time. */
const FOLLOWED = long ? 1 : 40;

const FIGURES = [
  "3",
  "7 V",
  "60 V",
  "31 A",
  "2 kA",
  "17 W",
  "47 ohm",
  "3 mF",
  "0.4 s",
  "33 Ah",
  "40 %",
  "2 H",
  "35 C",
  "2:9 s; 6:0.2 s",
];

/** The document with this parameter stated otherwise, in the first way that the field takes. */
function stated(project: Project, part: Part, name: string, spec: ParameterSpec): Project | undefined {
  const kind = KINDS.get(part.kind)!;
  const now = readValues(kind, part.parameters);
  for (const value of "choices" in spec ? spec.choices : FIGURES) {
    if (value === now.text(name)) continue;
    try {
      return execute(project, setParameter, { changes: [{ part: part.id, name, value }] }, KINDS).project;
    } catch (refusal) {
      if (!(refusal instanceof Refused)) throw refusal;
    }
  }
  return undefined;
}

/** One part of each kind, over the demos that have no mistakes. */
const chosen = [
  ...new Map(
    demos.flatMap(({ name, project }) =>
      name.includes("faulty") ? [] : project.parts.map((part) => [part.kind, { name, project, part }] as const),
    ),
  ).values(),
];

const figures = ({ volts, currents }: SolvedState): readonly number[] => [...volts, ...currents];

function sameFigures(one: readonly number[], other: readonly number[], said: string): void {
  expect(one.length, said).toBe(other.length);
  const most = other.reduce((highest, value) => Math.max(highest, Math.abs(value) || 0), 1);
  for (let k = 0; k < one.length; k += 1) {
    expect(Number.isNaN(one[k]), said).toBe(Number.isNaN(other[k]));
    if (Math.abs(one[k]! - other[k]!) > 1e-9 * most) expect(one[k], said).toBe(other[k]);
  }
}

/** Every state, and every transition that has been followed. */
function compare(again: Analysis, cold: Analysis, inTime: boolean, said: string): void {
  expect(
    again.states.map(({ name }) => name),
    said,
  ).toEqual(cold.states.map(({ name }) => name));
  expect(
    again.flipped.map(({ name }) => name),
    said,
  ).toEqual(cold.flipped.map(({ name }) => name));
  const all = ({ states, flipped, parkedAfterDriving, plugged }: Analysis): readonly SolvedState[] => [
    ...states,
    ...flipped,
    ...plugged,
    ...(parkedAfterDriving === undefined ? [] : [parkedAfterDriving]),
  ];
  const [here, there] = [all(again), all(cold)];
  here.forEach((state, k) => {
    const other = there[k]!;
    sameFigures(figures(state), figures(other), `${said}, ${state.name}`);
    expect(
      state.remarks.map(({ part, remark }) => [part.part.id, remark]),
      said,
    ).toEqual(other.remarks.map(({ part, remark }) => [part.part.id, remark]));
  });
  expect(again.transitionNames, said).toEqual(cold.transitionNames);
  for (const name of inTime ? again.transitionNames : []) {
    const [one, other] = [again.transition(name)!, cold.transition(name)!];
    expect(
      one.events.map(({ time, reason }) => [time.toPrecision(6), reason]),
      `${said}, ${name}`,
    ).toEqual(other.events.map(({ time, reason }) => [time.toPrecision(6), reason]));
    expect(one.assumed.map(({ part, parameter }) => [part.part.id, parameter])).toEqual(
      other.assumed.map(({ part, parameter }) => [part.part.id, parameter]),
    );
    const peaks = ({ closings, openings, turnOffs, resistors }: typeof one): readonly number[] => [
      ...closings.map(({ peak }) => peak),
      ...openings.map(({ current }) => current),
      ...turnOffs.map(({ peak }) => peak),
      ...resistors.map(({ energy }) => energy),
    ];
    sameFigures(peaks(one), peaks(other), `${said}, ${name}`);
    sameFigures(figures(one.end), figures(other.end), `${said}, end of ${name}`);
  }
}

describe("a parameter stated otherwise", () => {
  const solvedBefore = new Map<Project, Analysis>();
  const before = (project: Project): Analysis => {
    const known = solvedBefore.get(project) ?? analyse(project);
    if (!solvedBefore.has(project)) {
      for (const name of known.transitionNames) known.transition(name);
      solvedBefore.set(project, known);
    }
    return known;
  };

  it.each(chosen.map((each) => [each.part.kind, each.name, each] as const))(
    "of the %s in %s: solved as if from nothing",
    (kind, _name, { project, part }) => {
      const changes = Object.entries(KINDS.get(kind)!.parameters).flatMap(([name, spec]) => {
        // Covers of terminals are alike on every kind.
        if (!long && name.startsWith("finish")) return [];
        const after = stated(project, part, name, spec);
        return after === undefined ? [] : [{ name, after }];
      });
      expect(changes.length > 0 || kind === "busbar").toBe(true);
      changes.forEach(({ name, after }, k) => {
        const again = analyse(after, undefined, before(project));
        compare(again, analyse(after), (k + kind.length) % FOLLOWED === 0, `${kind} ${name}`);
      });
    },
    120_000,
  );
});
