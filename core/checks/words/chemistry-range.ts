/** How far the highest voltage of a pack is known: a block without a stated chemistry may be of any. */
import type { Pack } from "../../circuit/analysis.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { cellOf, CHEMISTRIES } from "../../standards/cells.ts";
import type { MissingField } from "../define.ts";
import { unstatedChemistry } from "../../studies/words/highest.ts";

export interface ChemistryRange {
  readonly least: Volt;
  readonly most: Volt;
  /** Fields that would tell; empty where the voltage is known. */
  readonly missing: readonly MissingField[];
}

/** Of the highest of these packs. A block of unstated chemistry is solved as flooded lead. */
export function chemistryRange(packs: readonly Pack[]): ChemistryRange {
  const cells = CHEMISTRIES.map((chemistry) => cellOf(chemistry).chargeMax);
  const assumed = cellOf("flooded-lead").chargeMax;
  let [least, most] = [0, 0];
  for (const pack of packs) {
    const known = unstatedChemistry([pack]).length === 0;
    least = Math.max(least, known ? pack.highest : (pack.highest * Math.min(...cells)) / assumed);
    most = Math.max(most, known ? pack.highest : (pack.highest * Math.max(...cells)) / assumed);
  }
  return { least, most, missing: unstatedChemistry(packs) };
}
