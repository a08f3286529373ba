/** What single faults lead to: the kinds of effect, how bad each is, and how they are ranked. */
import type { Place } from "./place.ts";

export type Severity = "DANGER" | "WARNING" | "CAUTION" | "NOTICE";
export const SEVERITY_ORDER: readonly Severity[] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

/**
 * moves-at-idle          the motor is driven although nobody asks for it       cannot-be-stopped   neither key nor emergency stop ends the drive
 * stop-lost              key or emergency stop no longer ends the drive, the other still does
 * wrong-way              the drive turns against what is asked                 field-lost          a motor loses its field and runs away
 * source-shorted         nothing but metal lies across a source                unprotected-current a wire carries too much and no device ends it
 * device-clears          a fuse or breaker opens and ends it                   overvoltage         a part gets more volts than it stands
 * supply-reversed        a part gets plus and minus swapped                    traction-on-chassis / traction-on-auxiliary  first isolation fault
 * stays-live             a traction consumer stays fed after key-off or emergency stop
 * live-unasked           a traction consumer is fed where it should be dead
 * closes-unasked / does-not-close   a relay or contactor                       runs-unasked / load-unfed   a consumer
 * drive-lost             the motor no longer turns when asked                  does-not-charge     the charger stays off
 * drives-plugged         the drive works with the charging cable in
 * chatters               a relay or controller finds no rest
 */
export type EffectKind =
  | "moves-at-idle"
  | "cannot-be-stopped"
  | "stop-lost"
  | "wrong-way"
  | "field-lost"
  | "source-shorted"
  | "unprotected-current"
  | "device-clears"
  | "overvoltage"
  | "supply-reversed"
  | "traction-on-chassis"
  | "traction-on-auxiliary"
  | "stays-live"
  | "live-unasked"
  | "closes-unasked"
  | "does-not-close"
  | "runs-unasked"
  | "load-unfed"
  | "drive-lost"
  | "does-not-charge"
  | "drives-plugged"
  | "chatters";

/** Worst first within one severity. */
export const EFFECT_ORDER: readonly EffectKind[] = [
  "cannot-be-stopped",
  "moves-at-idle",
  "wrong-way",
  "field-lost",
  "source-shorted",
  "unprotected-current",
  "overvoltage",
  "supply-reversed",
  "traction-on-auxiliary",
  "traction-on-chassis",
  "stop-lost",
  "drives-plugged",
  "stays-live",
  "live-unasked",
  "closes-unasked",
  "chatters",
  "device-clears",
  "drive-lost",
  "does-not-charge",
  "does-not-close",
  "load-unfed",
  "runs-unasked",
];

/** A first isolation fault changes nothing that moves, lights or sounds; a burning wire is not counted on to be noticed. */
const SILENT: ReadonlySet<EffectKind> = new Set<EffectKind>([
  "traction-on-chassis",
  "traction-on-auxiliary",
  "unprotected-current",
  "source-shorted",
  "overvoltage",
  "supply-reversed",
]);

export interface Effect {
  readonly kind: EffectKind;
  readonly severity: Severity;
  /** States of the drawing in which it shows, and those that follow from driving: idle, braking, plugged-in, key-off, emergency-stop. */
  readonly states: readonly string[];
  /** Parts and wires that it is about. */
  readonly places: readonly Place[];
  /** The worst figure and what it is held to, SI. */
  readonly value: number | undefined;
  readonly limit: number | undefined;
  readonly unit: "V" | "A" | undefined;
}

/** Does somebody who drives, looks and listens notice it? */
export const isBehaviour = ({ kind }: Effect): boolean => !SILENT.has(kind);

const rank = ({ severity, kind }: Pick<Effect, "severity" | "kind">): number =>
  SEVERITY_ORDER.indexOf(severity) * EFFECT_ORDER.length + EFFECT_ORDER.indexOf(kind);

export const byRank = (one: Effect, other: Effect): number => rank(one) - rank(other);

/** Lower is worse; what has no effect comes last. */
export function rankOf(effects: readonly Effect[]): number {
  return Math.min(Infinity, ...effects.map(rank));
}

/** Collects what is seen state by state: one effect for each kind and severity, with all its states and places. */
export class Effects {
  readonly #found = new Map<string, { -readonly [K in keyof Effect]: Effect[K] }>();

  add(
    kind: EffectKind,
    severity: Severity,
    state: string | undefined,
    places: readonly Place[],
    figure?: { readonly value: number; readonly limit?: number; readonly unit: "V" | "A" },
  ): void {
    const key = `${severity} ${kind}`;
    const there = this.#found.get(key);
    if (there === undefined) {
      this.#found.set(key, {
        kind,
        severity,
        states: state === undefined ? [] : [state],
        places,
        value: figure?.value,
        limit: figure?.limit,
        unit: figure?.unit,
      });
      return;
    }
    if (state !== undefined && !there.states.includes(state)) there.states = [...there.states, state];
    const known = new Set(there.places.map((place) => JSON.stringify(place)));
    there.places = [...there.places, ...places.filter((place) => !known.has(JSON.stringify(place)))];
    if (figure !== undefined && figure.value > (there.value ?? 0)) {
      there.value = figure.value;
      there.limit = figure.limit;
      there.unit = figure.unit;
    }
  }

  list(): readonly Effect[] {
    return [...this.#found.values()].sort(byRank);
  }
}
