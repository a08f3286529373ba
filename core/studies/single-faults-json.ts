/** The document of `faults --json`. The shape is a contract (DEVELOPERS.md, "Shapes of the command line's JSON"). */
import type { Analysis } from "../circuit/analysis.ts";
import type { FaultKind } from "../circuit/faults.ts";
import type { Network } from "../network/network.ts";
import type { Place } from "./place.ts";
import type { Consequence } from "./single-faults.ts";
import { SEVERITY_ORDER } from "./single-faults-effects.ts";
import type { EffectKind, Severity } from "./single-faults-effects.ts";
import { effectWords, faultPlaces, faultWords } from "./single-faults-words.ts";

export type FaultPlace =
  | { readonly part: string; readonly id: string; readonly terminal?: string }
  | { readonly wire: string; readonly id: string };

export interface FaultsDocument {
  readonly format: "loomwright-faults";
  readonly version: 1;
  readonly states: readonly string[];
  readonly counts: Readonly<Record<Severity | "nothing" | "hidden", number>>;
  /** Worst first. */
  readonly faults: readonly {
    readonly kind: FaultKind;
    readonly key: string;
    readonly what: string;
    readonly where: readonly FaultPlace[];
    readonly severity: Severity | null;
    readonly hidden: boolean;
    readonly effects: readonly {
      readonly kind: EffectKind;
      readonly severity: Severity;
      readonly states: readonly string[];
      readonly where: readonly FaultPlace[];
      readonly value: number | null;
      readonly limit: number | null;
      readonly unit: string | null;
      readonly what: string;
      readonly why: string;
    }[];
  }[];
}

/** Designation or number beside the id. */
export function placeJson({ partById, conductorByWire }: Network, place: Place): readonly FaultPlace[] {
  if ("sheet" in place) return [];
  if ("wire" in place) return [{ wire: conductorByWire.get(place.wire)?.wire.number ?? "", id: place.wire }];
  const { part, terminal } = place;
  const designation = partById.get(part)?.part.designation ?? part;
  return [{ part: designation, id: part, ...(terminal === undefined ? {} : { terminal }) }];
}

export function faultCounts(study: readonly Consequence[]): FaultsDocument["counts"] {
  const count = (wanted: Severity): number => study.filter(({ severity }) => severity === wanted).length;
  const [danger, warning, caution, notice] = SEVERITY_ORDER.map(count);
  return {
    DANGER: danger ?? 0,
    WARNING: warning ?? 0,
    CAUTION: caution ?? 0,
    NOTICE: notice ?? 0,
    nothing: study.filter(({ effects }) => effects.length === 0).length,
    hidden: study.filter(({ hidden }) => hidden).length,
  };
}

export function faultsJson({ network, states }: Analysis, study: readonly Consequence[]): FaultsDocument {
  const where = (places: readonly Place[]): readonly FaultPlace[] =>
    places.flatMap((place) => placeJson(network, place));
  return {
    format: "loomwright-faults",
    version: 1,
    states: states.map(({ name }) => name),
    counts: faultCounts(study),
    faults: study.map(({ fault, severity, hidden, effects }) => ({
      kind: fault.kind,
      key: fault.key,
      what: faultWords(network, fault),
      where: where(faultPlaces(fault)),
      severity: severity ?? null,
      hidden,
      effects: effects.map((effect) => ({
        kind: effect.kind,
        severity: effect.severity,
        states: effect.states,
        where: where(effect.places),
        value: effect.value ?? null,
        limit: effect.limit ?? null,
        unit: effect.unit ?? null,
        ...effectWords(network, effect),
      })),
    })),
  };
}
