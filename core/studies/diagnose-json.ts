/** The document of `diagnose --json`. The shape is a contract (DEVELOPERS.md, "Shapes of the command line's JSON"). */
import type { Analysis } from "../circuit/analysis.ts";
import type { FaultKind } from "../circuit/faults.ts";
import type { Explanation } from "./diagnose.ts";
import { placeJson } from "./single-faults-json.ts";
import type { FaultPlace } from "./single-faults-json.ts";
import { faultPlaces, faultWords } from "./single-faults-words.ts";

export const AS_DRAWN = "Nothing is wrong: as drawn";

export interface DiagnoseDocument {
  readonly format: "loomwright-diagnose";
  readonly version: 1;
  readonly readings: number;
  /** Best first. Those of one rank are told apart by none of the readings. */
  readonly faults: readonly {
    readonly rank: number;
    readonly kind: FaultKind | "none";
    readonly key: string;
    readonly what: string;
    readonly where: readonly FaultPlace[];
    readonly fit: number;
    /** Places in the list of readings, from 0, that lie more than three tolerances off. */
    readonly against: readonly number[];
  }[];
}

export function explanationWords({ network }: Analysis, { fault }: Explanation): string {
  return fault === undefined ? AS_DRAWN : faultWords(network, fault);
}

export function diagnoseJson(analysis: Analysis, readings: number, told: readonly Explanation[]): DiagnoseDocument {
  return {
    format: "loomwright-diagnose",
    version: 1,
    readings,
    faults: told.map((each) => ({
      rank: each.rank,
      kind: each.fault?.kind ?? "none",
      key: each.fault?.key ?? "none",
      what: explanationWords(analysis, each),
      where:
        each.fault === undefined ? [] : faultPlaces(each.fault).flatMap((place) => placeJson(analysis.network, place)),
      fit: Number(each.fit.toFixed(6)),
      against: each.against,
    })),
  };
}
