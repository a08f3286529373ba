/** Puts mistakes into vehicles and looks whether their checks find them, at their place. */
import { CHECKS } from "../../core/checks/catalogue.ts";
import type { Failure, Place } from "../../core/checks/define.ts";
import { findingKey } from "../../core/checks/finding.ts";
import { runCheck, runChecks } from "../../core/checks/run.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Analysis } from "../../core/circuit/analysis.ts";
import type { Project } from "../../core/project/document.ts";
import { seeded } from "../harness/electrical-networks.ts";
import { ofKind } from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import { MISTAKES_AT_HAND } from "./mistakes-at-hand.ts";
import { CIRCUIT_MISTAKES } from "./mistakes-circuit.ts";
import { CONDUCTOR_MISTAKES } from "./mistakes-conductors.ts";
import { CONTROL_MISTAKES } from "./mistakes-control.ts";
import { POWER_MISTAKES } from "./mistakes-power.ts";
import { RATING_MISTAKES } from "./mistakes-ratings.ts";
import { touched } from "./touched.ts";
import type { Vehicle } from "./vehicles.ts";

export const MISTAKES: readonly Mistake[] = [
  ...POWER_MISTAKES,
  ...CONDUCTOR_MISTAKES,
  ...CONTROL_MISTAKES,
  ...MISTAKES_AT_HAND,
  ...CIRCUIT_MISTAKES,
  ...RATING_MISTAKES,
];

export interface Tally {
  made: number;
  /** By its check, at its place. */
  found: number;
  /** By its check, elsewhere. */
  elsewhere: number;
  /** Not found: on which vehicles, at which sites. */
  readonly missed: string[];
}

const idOf = (place: Place): string => ("part" in place ? place.part : "wire" in place ? place.wire : place.sheet);

const byId = new Map(CHECKS.map((check) => [check.id, check]));

/** A check's findings by key and severity: what a drawing had before is not what a mistake brought. */
function failuresOf(id: string, analysis: Analysis): ReadonlyMap<string, Failure> {
  const check = byId.get(id);
  if (check === undefined) throw new Error(`${id} is no check`);
  return new Map(
    runCheck(check, analysis).failures.map((failure) => [`${failure.severity} ${findingKey(id, failure)}`, failure]),
  );
}

/** The findings that a sound drawing has by itself, by check: asked for each mistake, looked at once. */
const before = new WeakMap<
  Project,
  { readonly analysis: Analysis; readonly found: Map<string, ReadonlySet<string>> }
>();

function soundOf(sound: Project) {
  let known = before.get(sound);
  if (known === undefined) before.set(sound, (known = { analysis: analyse(sound), found: new Map() }));
  return known;
}

function foundBefore(sound: Project, check: string): ReadonlySet<string> {
  const known = soundOf(sound);
  let keys = known.found.get(check);
  if (keys === undefined) known.found.set(check, (keys = new Set(failuresOf(check, known.analysis).keys())));
  return keys;
}

export type Verdict = "found" | "elsewhere" | "missed";

/**
 * Looks at a drawing with a mistake in it with the checks that are meant for it. Found = a finding that the sound drawing
 * does not have and that names what was touched, or a part of a kind at which this mistake is said to show.
 */
export function judge(sound: Project, mistake: Mistake, site: Site): Verdict {
  const mistaken = site.make();
  const analysis = analyse(mistaken, undefined, soundOf(sound).analysis);
  const places = new Set([
    ...touched(sound, mistaken),
    ...ofKind(mistaken, ...(mistake.showsAt ?? [])).map(({ id }) => id),
  ]);
  let verdict: Verdict = "missed";
  for (const id of mistake.expects) {
    for (const [key, { where }] of failuresOf(id, analysis)) {
      if (foundBefore(sound, id).has(key)) continue;
      if (where.some((place) => places.has(idOf(place)))) return "found";
      verdict = "elsewhere";
    }
  }
  return verdict;
}

/** One seeded site of each kind of mistake on a vehicle, or every site. */
export function inject(
  vehicle: Vehicle,
  every: boolean,
  seed: number,
  tell: (mistake: Mistake, verdict: Verdict, site: number) => void,
): void {
  const random = seeded(seed);
  for (const mistake of MISTAKES) {
    const sites = mistake.sites(vehicle.project);
    const chosen = every ? [...sites.keys()] : sites.length === 0 ? [] : [Math.floor(random() * sites.length)];
    for (const index of chosen) {
      const site = sites[index];
      if (site !== undefined) tell(mistake, judge(vehicle.project, mistake, site), index);
    }
  }
}

/** Findings above NOTICE on a vehicle without a mistake: each is a false alarm. */
export function falseAlarms({ project }: Vehicle): readonly { readonly check: string; readonly title: string }[] {
  return runChecks(analyse(project))
    .findings.filter(({ severity }) => severity !== "NOTICE")
    .map(({ check, title }) => ({ check: check.id, title }));
}

export class Tallies {
  readonly #by = new Map<string, Tally>();

  add(key: string, verdict: Verdict, where: string): void {
    let tally = this.#by.get(key);
    if (tally === undefined) this.#by.set(key, (tally = { made: 0, found: 0, elsewhere: 0, missed: [] }));
    tally.made += 1;
    if (verdict === "found") tally.found += 1;
    else tally.missed.push(where);
    if (verdict === "elsewhere") tally.elsewhere += 1;
  }

  rows(): readonly (readonly [string, Tally])[] {
    return [...this.#by].sort(([one], [other]) => (one < other ? -1 : 1));
  }
}
