import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Source } from "../../../core/standards/source.ts";
import * as ampacity from "../../../core/standards/ampacity.ts";
import * as cells from "../../../core/standards/cells.ts";
import * as classLetters from "../../../core/standards/class-letters.ts";
import * as clearance from "../../../core/standards/clearance.ts";
import * as coils from "../../../core/standards/coils.ts";
import * as colours from "../../../core/standards/colours.ts";
import * as conductors from "../../../core/standards/conductors.ts";
import * as contactProtection from "../../../core/standards/contact-protection.ts";
import * as creepage from "../../../core/standards/creepage.ts";
import * as isolation from "../../../core/standards/isolation.ts";
import * as overcurrent from "../../../core/standards/overcurrent.ts";
import * as precharge from "../../../core/standards/precharge.ts";
import * as sheetFormat from "../../../core/standards/sheet-format.ts";
import * as shortCircuit from "../../../core/standards/short-circuit.ts";
import * as smallConductors from "../../../core/standards/small-conductors.ts";
import * as throttleBands from "../../../core/standards/throttle-bands.ts";
import * as titleBlock from "../../../core/standards/title-block.ts";
import * as voltageClass from "../../../core/standards/voltage-class.ts";
import * as voltageDrop from "../../../core/standards/voltage-drop.ts";
import * as workingDistances from "../../../core/standards/working-distances.ts";
import { resistanceRange } from "../../../core/standards/battery-resistance.ts";
import { fuseTimeSource } from "../../../core/standards/fuse-times.ts";
import { TORQUES } from "../../../core/standards/torque.ts";

const TABLES: Readonly<Record<string, readonly Source[]>> = {
  ...Object.fromEntries(
    Object.entries({
      ampacity,
      "class-letters": classLetters,
      clearance,
      coils,
      colours,
      conductors,
      "contact-protection": contactProtection,
      creepage,
      isolation,
      overcurrent,
      precharge,
      "sheet-format": sheetFormat,
      "short-circuit": shortCircuit,
      "small-conductors": smallConductors,
      "throttle-bands": throttleBands,
      "title-block": titleBlock,
      "voltage-class": voltageClass,
      "voltage-drop": voltageDrop,
      "working-distances": workingDistances,
    }).map(([file, exported]) => [file, Object.values(exported).filter(isSource)]),
  ),
  "battery-resistance": cells.CHEMISTRIES.map((chemistry) => resistanceRange(chemistry, 6, 360000).source),
  cells: cells.CHEMISTRIES.flatMap((chemistry) => {
    const cell = cells.cellOf(chemistry);
    return [cell.source, cell.restSource, cell.chargeSource];
  }),
  "fuse-times": (["blade", "bolted-strip", "traction-gR", "semiconductor-aR", "glass"] as const).map(fuseTimeSource),
  torque: TORQUES.map((torque) => torque.source),
};

function isSource(value: unknown): value is Source {
  return typeof value === "object" && value !== null && "text" in value && "known" in value;
}

describe("every table names its source", () => {
  it("no file of the folder is left out", () => {
    const files = readdirSync(new URL("../../../core/standards/", import.meta.url))
      .filter((name) => name.endsWith(".ts"))
      .map((name) => name.replace(/\.ts$/, ""));
    // The form of a source and the reading between rows hold no figures.
    expect(Object.keys(TABLES).sort()).toEqual(
      files.filter((name) => name !== "source" && name !== "interpolate").sort(),
    );
  });

  it.each(Object.entries(TABLES))("%s", (_, sources) => {
    expect(sources.length).toBeGreaterThan(0);
    for (const { text, known } of sources) {
      expect(text.length).toBeGreaterThan(5);
      expect(["seen", "memory", "calc", "none"]).toContain(known);
      expect(known === "none").toBe(text === "common practice, no source");
    }
  });
});
