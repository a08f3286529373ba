/** The highest voltage between two terminals, and how far it is known where a battery's chemistry is not stated. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { highestBetween } from "../../studies/words/highest.ts";
import type { MissingField } from "../define.ts";
import { chemistryRange } from "./chemistry-range.ts";

export interface VoltageRange {
  readonly volts: Volt;
  readonly least: Volt;
  readonly most: Volt;
  readonly states: readonly string[];
  /** Fields that would narrow it. */
  readonly missing: readonly MissingField[];
}

export function voltageRange(analysis: Analysis, a: NodeIndex, b: NodeIndex): VoltageRange {
  const { volts, states, packs } = highestBetween(analysis, a, b);
  const { least, most, missing } = chemistryRange(packs);
  const assumed = packs.reduce((highest, pack) => Math.max(highest, pack.highest), 0);
  if (assumed === 0 || missing.length === 0) return { volts, least: volts, most: volts, states, missing: [] };
  return { volts, least: (volts * least) / assumed, most: (volts * most) / assumed, states, missing };
}
