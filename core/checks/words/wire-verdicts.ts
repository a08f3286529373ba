/** Collects what a check found out about each wire, so that a wire gets one verdict: fails, not checked, passes or none. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { MissingField, Report } from "../define.ts";

interface Open {
  readonly reason: string;
  readonly missing: readonly MissingField[];
}

export class WireVerdicts {
  readonly #passed = new Set<Conductor>();
  readonly #failed = new Set<Conductor>();
  readonly #open = new Map<Conductor, Open[]>();

  passes(conductor: Conductor): void {
    this.#passed.add(conductor);
  }

  fails(conductor: Conductor): void {
    this.#failed.add(conductor);
  }

  notChecked(conductor: Conductor, reason: string, missing: readonly MissingField[]): void {
    const list = this.#open.get(conductor);
    if (list === undefined) this.#open.set(conductor, [{ reason, missing }]);
    else if (!list.some((known) => known.reason === reason && known.missing === missing))
      list.push({ reason, missing });
  }

  hasFailed(conductor: Conductor): boolean {
    return this.#failed.has(conductor);
  }

  /** Everything but the failures, which the check words itself. */
  report(analysis: Analysis, report: Report): void {
    for (const conductor of analysis.network.conductors) {
      const place = { wire: conductor.wire.id };
      const open = this.#open.get(conductor);
      if (this.#failed.has(conductor)) continue;
      if (open !== undefined) {
        for (const [reason, missing] of byReason(open)) {
          report.notChecked({ where: [place], reason, facts: { wire: { place } }, missing });
        }
      } else if (this.#passed.has(conductor)) report.passes(place);
      else report.doesNotApply(place);
    }
  }
}

function byReason(open: readonly Open[]): ReadonlyMap<string, readonly MissingField[]> {
  const all = new Map<string, MissingField[]>();
  for (const { reason, missing } of open) {
    const list = all.get(reason) ?? [];
    all.set(reason, list);
    for (const field of missing) {
      const text = JSON.stringify(field);
      if (!list.some((known) => JSON.stringify(known) === text)) list.push(field);
    }
  }
  return all;
}
