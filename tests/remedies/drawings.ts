/** Drawings with findings: the reported troubles, the demos, and vehicles with a mistake put into them. */
import { readdirSync, readFileSync } from "node:fs";
import * as path from "node:path";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";
import { demos, isFaulty } from "../demos/demo-files.ts";
import { seeded } from "../harness/electrical-networks.ts";
import { MISTAKES } from "../injection/measure.ts";
import { generated } from "../injection/vehicles.ts";
import type { Vehicle } from "../injection/vehicles.ts";

const CASES = path.resolve(import.meta.dirname, "../cases");

export interface Troubled {
  readonly name: string;
  readonly project: Project;
  /** The vehicle before the mistake: its own findings are looked at once, with it. */
  readonly sound?: Project;
}

function open(file: string): Project {
  const read = readProject(readFileSync(path.join(CASES, file), "utf8"));
  if (!read.ok) throw new Error(`${file}: ${read.problems.join(" ")}`);
  return read.project;
}

export const reported: readonly Troubled[] = readdirSync(CASES)
  .filter((name) => name.endsWith(".loomwright"))
  .map((name) => ({ name: path.parse(name).name, project: open(name) }));

const soundDemos: readonly Vehicle[] = demos.filter((demo) => !isFaulty(demo));

/**
 * Every kind of mistake at `places` seeded places of each sound demo, and at one of each of as many generated
 * vehicles, the mistakes going round among the `vehicles`.
 */
export function* mistaken(vehicles: number, places: number): Generator<Troubled> {
  const random = seeded(4711);
  const made = new Map<number, Vehicle>();
  const vehicle = (number: number): Vehicle => {
    const known = made.get(number) ?? generated(number);
    made.set(number, known);
    return known;
  };
  for (const [index, mistake] of MISTAKES.entries()) {
    const generatedOnes = Array.from({ length: vehicles > 0 ? places : 0 }, (_, n) =>
      vehicle(1 + ((index * places + n) % vehicles)),
    );
    for (const { name, project } of [...soundDemos, ...generatedOnes]) {
      const sites = mistake.sites(project);
      const site = sites[Math.floor(random() * sites.length)];
      if (site !== undefined) yield { name: `${name}, ${mistake.what}`, project: site.make(), sound: project };
    }
  }
}

export const vehiclesAsTheyAre = (vehicles: number): readonly Troubled[] => [
  ...demos,
  ...Array.from({ length: vehicles }, (_, index) => generated(index + 1)),
];
