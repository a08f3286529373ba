/** Traction packs, auxiliary batteries and other supplies: which sources there are, what they are for, what they give. */
import { initialState } from "../network/build.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import { closedIslands, stringsOf } from "../network/strings.ts";
import type { Condition } from "../parts/condition.ts";
import type { Values } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { Volt } from "../quantity/kinds.ts";
import { cellOf, CHEMISTRIES } from "../standards/cells.ts";
import type { Pack } from "./analysis.ts";
import type { Bench } from "./bench.ts";
import { CONDITIONS } from "./conditions.ts";
import type { Duty, SourceEdge } from "./duty.ts";

export interface Packs {
  /** Batteries. */
  readonly packs: readonly Pack[];
  /** Converter outputs and dc sources that stand on no battery: supplies of their own. */
  readonly supplies: readonly Pack[];
}

export function findPacks(bench: Bench): Packs {
  const { edges, duties, chassisIsland } = bench.sources;
  const packs: Pack[] = [];
  const supplies: Pack[] = [];
  for (const duty of ["traction", "auxiliary"] as const) {
    const of = edges.filter((_, index) => duties[index] === duty);
    for (const string of stringsOf(
      of.map(({ plus, minus }) => [minus, plus] as const),
      chassisIsland,
    )) {
      const members = string.flatMap((index) => of[index] ?? []);
      const storage = members.filter((edge) => edge.storage);
      if (storage.length > 0) packs.push(packOf(bench, packs.length, duty, storage));
      else supplies.push(packOf(bench, supplies.length, duty, members));
    }
  }
  return { packs, supplies };
}

const AT = {
  rest: CONDITIONS.parked,
  lowest: CONDITIONS["driving-low"],
  highest: CONDITIONS.charging,
} as const satisfies Record<string, Condition>;

function packOf(bench: Bench, index: number, duty: Duty, found: readonly SourceEdge[]): Pack {
  const members = apart(bench, found);
  const blocks = [...new Set(members.map(({ part }) => part))];
  const rest = potentials(bench, members, AT.rest);
  const [negative, positive] = extremes(rest);
  const at = (condition: Condition): Volt => {
    const volts = potentials(bench, members, condition);
    return (volts.get(positive) ?? 0) - (volts.get(negative) ?? 0);
  };
  const chemistries = new Set(blocks.map(({ values }) => values.choice("chemistry")));
  const chemistry = chemistries.size === 1 ? [...chemistries][0] : undefined;
  const highest = Math.max(at(AT.highest), uprightSum(bench, members));
  return {
    index,
    duty,
    blocks,
    positive,
    negative,
    rest: at(AT.rest),
    lowest: at(AT.lowest),
    highest,
    equalising: equalising(chemistry, highest),
    chemistry,
  };
}

/**
 * What a plain row of blocks gives on charge once every block stands the right way round: ratings are held to the pack
 * as it will be, not to one that a reversed block makes lower. 0 for anything but a plain row.
 */
function uprightSum(bench: Bench, members: readonly SourceEdge[]): Volt {
  const ends = new Map<number, number>();
  for (const { minus, plus } of members) {
    for (const island of [minus, plus]) ends.set(island, (ends.get(island) ?? 0) + 1);
  }
  const isRow = ends.size === members.length + 1 && [...ends.values()].every((count) => count <= 2);
  if (!isRow) return 0;
  return members.reduce((sum, { branch, part }) => {
    const element = workedHard(bench, part, AT.highest)[branch.index - part.firstBranch];
    return element?.type === "source" || element?.type === "limited-source" ? sum + Math.abs(element.emf) : sum;
  }, 0);
}

/**
 * Contactors that put the halves of a pack in series or side by side would short them if all were closed at once. Such
 * halves are then taken apart at their contacts; one on top of the other they give the highest voltage there can be.
 */
function apart(bench: Bench, members: readonly SourceEdge[]): readonly SourceEdge[] {
  if (members.every(({ minus, plus }) => minus !== plus)) return members;
  const { nodeCount, branches } = bench.network;
  const islands = closedIslands(
    nodeCount,
    branches.filter(({ role }) => role !== "contact"),
  );
  return members.map((edge) => ({
    ...edge,
    minus: islands[edge.branch.b] ?? edge.branch.b,
    plus: islands[edge.branch.a] ?? edge.branch.a,
  }));
}

/** Volts of every block terminal by the EMFs alone, from 0 up; strings that nothing joins stand one on the other. */
function potentials(bench: Bench, members: readonly SourceEdge[], condition: Condition): ReadonlyMap<NodeIndex, Volt> {
  const beside = new Map<number, { readonly to: number; readonly rise: Volt }[]>();
  const link = (from: number, to: number, rise: Volt): void => {
    const list = beside.get(from);
    if (list === undefined) beside.set(from, [{ to, rise }]);
    else list.push({ to, rise });
  };
  for (const { branch, part, plus, minus } of members) {
    const element = workedHard(bench, part, condition)[branch.index - part.firstBranch];
    if (element?.type !== "source" && element?.type !== "limited-source") continue;
    link(minus, plus, element.emf);
    link(plus, minus, -element.emf);
  }
  const islandVolts = new Map<number, Volt>();
  let top = 0;
  for (const { minus } of members) {
    if (islandVolts.has(minus)) continue;
    const string = stringFrom(minus, beside);
    const least = Math.min(...string.values());
    for (const [island, height] of string) islandVolts.set(island, top + height - least);
    top += Math.max(...string.values()) - least;
  }
  const volts = new Map<NodeIndex, Volt>();
  for (const { minus, plus, minusNode, plusNode } of members) {
    volts.set(minusNode, islandVolts.get(minus) ?? 0);
    volts.set(plusNode, islandVolts.get(plus) ?? 0);
  }
  return volts;
}

/** Heights of the islands that EMFs join to this one, which is at 0. */
function stringFrom(
  start: number,
  beside: ReadonlyMap<number, readonly { readonly to: number; readonly rise: Volt }[]>,
): ReadonlyMap<number, Volt> {
  const heights = new Map([[start, 0]]);
  const queue = [start];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const here = heights.get(at) ?? 0;
    for (const { to, rise } of beside.get(at) ?? []) {
      if (heights.has(to)) continue;
      heights.set(to, here + rise);
      queue.push(to);
    }
  }
  return heights;
}

/**
 * A part's elements in a condition, a battery's as if it drove the vehicle: an auxiliary one rests in every state, but
 * its lowest and highest voltages are those of the same discharge and charge.
 */
function workedHard(bench: Bench, part: NetworkPart, condition: Condition): readonly Element[] {
  const { values } = part;
  const driving: Values = {
    number: (name) => values.number(name),
    choice: (name) => (name === "duty" ? "traction" : values.choice(name)),
    text: (name) => values.text(name),
    stated: (name) => values.stated(name),
  };
  const context = bench.context(part, condition, initialState(part.kind, values));
  const wired = (terminal: string): boolean => bench.network.wiresAt([part.part.id, terminal]).length > 0;
  return part.kind.circuit({ ...context, duty: "traction", values: driving, wired });
}

/** The nodes of the lowest and highest voltage; of equals the first. */
function extremes(volts: ReadonlyMap<NodeIndex, Volt>): readonly [lowest: NodeIndex, highest: NodeIndex] {
  const entries = [...volts];
  let [low, high] = [entries[0], entries[0]];
  for (const entry of entries) {
    if (low === undefined || entry[1] < low[1]) low = entry;
    if (high === undefined || entry[1] > high[1]) high = entry;
  }
  return [low?.[0] ?? 0, high?.[0] ?? 0];
}

/** Blocks of one chemistry rise together from the highest of ordinary charging to that of equalising, if they have it. */
function equalising(chemistry: string | undefined, highest: Volt): Volt | undefined {
  const known = CHEMISTRIES.find((each) => each === chemistry);
  if (known === undefined) return undefined;
  const { chargeMax, equaliseMax } = cellOf(known);
  return equaliseMax === undefined ? undefined : (highest * equaliseMax) / chargeMax;
}
