/**
 * Fuses and breakers whose own time-current curve is stated, in time: what part of its time a device has used up.
 * Without a stated curve a device stays closed: the published limits of its class are too wide to tell a moment.
 */
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { parseCurve } from "../../parts/curve.ts";
import type { Ampere, Ratio, Second } from "../../quantity/kinds.ts";
import type { Bench } from "../bench.ts";
import type { Figures } from "../reduced.ts";

export interface Link {
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  readonly rating: Ampere;
  readonly points: readonly { readonly multiple: Ratio; readonly time: Second }[];
  /** Part of its time that is used up: at 1 it opens. It does not cool down, which is on the safe side for what it protects. */
  used: number;
}

export class Melting {
  readonly #links: readonly Link[];

  constructor({ network }: Bench) {
    this.#links = network.branches.flatMap(({ index, part, role }): Link[] => {
      const text = part?.values.text("curvePoints");
      const rating = part?.values.number("rating");
      if (part === undefined || role !== "protection" || text === undefined || rating === undefined) return [];
      const curve = parseCurve(text);
      return curve.ok && rating > 0 ? [{ branch: index, part, rating, points: curve.points, used: 0 }] : [];
    });
  }

  /** Is some device using up its time? */
  isUnderWay(now: Figures): boolean {
    return this.#links.some((link) => link.used < 1 && pace(link, now.currentAt(link.branch)) > 0);
  }

  /** Part of a step, 0 to 1, at which the first device's time is over; 1 where none is. */
  until(now: Figures, length: Second, end: Figures): Ratio {
    let part = 1;
    for (const link of this.#links) {
      const more = length * mean(link, now, end);
      if (link.used < 1 && link.used + more >= 1) part = Math.min(part, (1 - link.used) / more);
    }
    return part;
  }

  /** Counts a step. Returns the devices whose time is over with it. */
  add(now: Figures, length: Second, end: Figures): readonly Link[] {
    return this.#links.filter((link) => {
      if (link.used >= 1) return false;
      link.used += length * mean(link, now, end);
      // What is cut to the moment can fall short of it by rounding.
      if (link.used > 1 - 1e-6) link.used = 1;
      return link.used >= 1;
    });
  }
}

function mean(link: Link, from: Figures, to: Figures): number {
  return (pace(link, from.currentAt(link.branch)) + pace(link, to.currentAt(link.branch))) / 2;
}

/**
 * Part of its time that a device uses up per second: between the points of the curve straight on double logarithmic
 * paper, on which makers print it; beyond the last one by constant I2t; below the first one nothing.
 */
function pace({ points, rating }: Link, current: Ampere): number {
  const multiple = Math.abs(current) / rating;
  const above = points.findIndex((point) => point.multiple >= multiple);
  const last = points.at(-1)!;
  if (above < 0) return (multiple / last.multiple) ** 2 / last.time;
  const [from, to] = [points[above - 1], points[above]!];
  if (from === undefined) return multiple === to.multiple ? 1 / to.time : 0;
  const part = Math.log(multiple / from.multiple) / Math.log(to.multiple / from.multiple);
  return 1 / (from.time * (to.time / from.time) ** part);
}
