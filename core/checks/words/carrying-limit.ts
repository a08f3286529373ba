/** What a branch may carry for good, by its own statement: ampacity of a wire, rating of a fuse, contact, shunt, battery. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Conductor } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import type { MissingField } from "../define.ts";
import { devices } from "../../studies/words/devices.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";

/** The greatest figure of 33 CFR 183.425 table 5 (seen): 4/0 AWG at 200 C, with its area. */
export const LARGEST_LISTED: { readonly amperes: Ampere; readonly area: number } = { amperes: 510, area: 107.219e-6 };

export interface CarryingLimit {
  /** Undefined where the drawing does not say; `missing` then names the field. */
  readonly limit: Ampere | undefined;
  readonly missing: readonly MissingField[];
}

/** Undefined for what has no rating of its own: a busbar, a splice, a tie inside a part. */
export function carryingLimit(analysis: Analysis, branch: Branch): CarryingLimit | undefined {
  const { conductor, part } = branch;
  if (conductor !== undefined) return wireLimit(analysis, conductor);
  if (part === undefined) return undefined;
  const { kind, values } = part;
  const of = (limit: Ampere | undefined, parameter: string): CarryingLimit =>
    limit === undefined ? { limit: undefined, missing: [{ part: part.part.id, parameter }] } : { limit, missing: [] };
  const device = devices(analysis).get(branch.index);
  if (device !== undefined)
    return { limit: device.rating, missing: device.rating === undefined ? [device.ratingField] : [] };
  const contact = kind.contacts?.(values).find(({ element }) => element === branch.name);
  if (contact !== undefined) return of(contact.continuous, contact.continuousParameter);
  const rated = kind
    .limits(values)
    .find(({ kind: what, element }) => what === "current-through" && element === branch.name);
  return rated === undefined ? undefined : of(values.number(rated.parameter), rated.parameter);
}

/**
 * The upper end of a wire's ampacity, so that only what surely is too much counts. Thicker than the table's last row:
 * that row raised with the area, which is more than any such wire carries.
 */
function wireLimit(analysis: Analysis, conductor: Conductor): CarryingLimit | undefined {
  const own = wireAmpacity(analysis, conductor);
  if (!own.known) return own.missing.length === 0 ? undefined : { limit: undefined, missing: own.missing };
  if (own.high !== Infinity) return { limit: own.high, missing: [] };
  const { amperes, area } = LARGEST_LISTED;
  return { limit: (amperes * (conductor.area ?? area)) / area, missing: [] };
}

/** The branch of the lowest limit, and what would have to be known of the others. */
export function weakest(
  analysis: Analysis,
  branches: readonly Branch[],
): {
  readonly branch: Branch | undefined;
  readonly limit: Ampere;
  readonly missing: readonly MissingField[];
} {
  let least: Branch | undefined;
  let limit: Ampere = Infinity;
  const missing: MissingField[] = [];
  for (const branch of branches) {
    const own = carryingLimit(analysis, branch);
    if (own === undefined) continue;
    missing.push(...own.missing);
    if (own.limit === undefined || own.limit >= limit) continue;
    limit = own.limit;
    least = branch;
  }
  return { branch: least, limit, missing };
}
