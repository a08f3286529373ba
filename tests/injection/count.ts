/** The part of the count that one process takes: loaded by run.mjs as a bundle. */
import { demos, isFaulty } from "../demos/demo-files.ts";
import { falseAlarms, inject, MISTAKES, Tallies } from "./measure.ts";
import { generated } from "./vehicles.ts";

export interface Count {
  /** By mistake. */
  readonly rows: readonly (readonly [string, { made: number; found: number; elsewhere: number; missed: string[] }])[];
  readonly alarms: readonly string[];
  readonly vehicles: number;
}

/**
 * Demos (every place of every kind) and generated vehicles number `share`, `share + shares` ... of `vehicles`; one seeded
 * place a kind on each of these, or every place.
 * @public loaded by run.mjs as a bundle
 */
export function count(share: number, shares: number, vehicles: number, every: boolean): Count {
  const tallies = new Tallies();
  const alarms: string[] = [];
  const sound = demos.filter((demo) => !isFaulty(demo));
  sound.forEach((demo, index) => {
    if (index % shares !== share) return;
    inject(demo, true, 1, (mistake, verdict, site) => tallies.add(mistake.id, verdict, `${demo.name} site ${site}`));
    alarms.push(...falseAlarms(demo).map(({ check, title }) => `${demo.name}: ${check}: ${title}`));
  });
  for (let seed = 1 + share; seed <= vehicles; seed += shares) {
    const vehicle = generated(seed);
    inject(vehicle, every, seed, (mistake, verdict, site) =>
      tallies.add(mistake.id, verdict, `seed ${seed} site ${site}`),
    );
    alarms.push(...falseAlarms(vehicle).map(({ check, title }) => `${vehicle.name}: ${check}: ${title}`));
  }
  return { rows: tallies.rows(), alarms, vehicles: sound.length };
}

/** @public loaded by run.mjs as a bundle */
export const expects: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  MISTAKES.map(({ id, expects: checks }) => [id, checks]),
);
