/**
 * Every remedy that is offered on drawings with troubles, held to its promise. A fixed sample for every day; with
 * LOOMWRIGHT_LONG all reported troubles, all demos, and every kind of mistake in demos and generated vehicles.
 */
import { describe, expect, test } from "vitest";
import { breaches, checked } from "./contract.ts";
import type { Checked } from "./contract.ts";
import { mistaken, reported, vehiclesAsTheyAre } from "./drawings.ts";
import type { Troubled } from "./drawings.ts";

const isLong = process.env["LOOMWRIGHT_LONG"] === "1";

/** What a remedy breaks and why that is right: the drawing, the check and the line as it is told. */
const EXPLAINED: readonly (readonly [drawing: string, check: string, told: string, why: string])[] = [
  [
    "03-outputs-undefined-at-start",
    "inertia-switch-missing",
    "brings WARNING makes-on-inrush (over) at Q1",
    "both contactors are closed at one moment by outputs that start up: which of them meets the inrush hangs on the wires of their coils, and the trouble is told at the other one before",
  ],
];

const soundOnes = new WeakMap<object, Checked>();

function ownKeys({ sound }: Troubled): ReadonlySet<string> {
  if (sound === undefined) return new Set();
  let known = soundOnes.get(sound);
  if (known === undefined) soundOnes.set(sound, (known = checked(sound)));
  return new Set(known.all.map(({ key }) => key));
}

/** The vehicle's own findings are left aside where a mistake was put into it: they are looked at once, without it. */
function tried(drawing: Troubled): { readonly remedies: number; readonly broken: readonly string[] } {
  const before = checked(drawing.project);
  const own = ownKeys(drawing);
  const broken: string[] = [];
  let remedies = 0;
  for (const finding of before.told) {
    if (own.has(finding.key)) continue;
    const offered = finding.failure.remedies ?? [];
    expect(new Set(offered.map(({ id }) => id)).size, `${finding.title}: each remedy has an id of its own`).toBe(
      offered.length,
    );
    for (const remedy of offered) {
      remedies += 1;
      const told = breaches(before, finding, remedy).filter(
        (line) =>
          !EXPLAINED.some(
            ([name, check, explained]) => name === drawing.name && check === finding.check.id && explained === line,
          ),
      );
      broken.push(...told.map((line) => `${finding.check.id}: "${remedy.label}" ${line}`));
    }
  }
  return { remedies, broken };
}

/** Of each way in which remedies edit one or two: swapped wires, new parts beside and in wires, other figures, taken off. */
const SAMPLE: readonly string[] = [
  "18-lithium-block-reversed",
  "68-no-disconnect",
  "64-no-emergency-stop",
  "76-heater-branch-on-main-fuse",
  "81b-coil-diode-turned-round",
  "01-contactor-without-precharge",
  "33-hull-as-return",
  "84-charger-plug-on-main-fuse",
];

describe.skipIf(isLong)("remedies of a sample of reported troubles", () => {
  test.each(SAMPLE.map((name) => [name] as const))(
    "%s",
    (name) => {
      const drawing = reported.find((each) => each.name === name);
      if (drawing === undefined) throw new Error(`no drawing ${name}`);
      const { remedies, broken } = tried(drawing);
      expect(remedies, "remedies offered").toBeGreaterThan(0);
      expect(broken).toEqual([]);
    },
    30_000,
  );
});

describe.runIf(isLong)("remedies of all drawings", () => {
  const VEHICLES = 30;
  const all = isLong ? [...reported, ...vehiclesAsTheyAre(8), ...mistaken(VEHICLES, 1)] : [];
  test.each(all.map((drawing) => [drawing.name, drawing] as const))(
    "%s",
    (_, drawing) => {
      expect(tried(drawing).broken).toEqual([]);
    },
    120_000,
  );
});
