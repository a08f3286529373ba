import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { resistanceRange } from "../../../core/standards/battery-resistance.ts";
import { cellOf, CHEMISTRIES } from "../../../core/standards/cells.ts";
import { clearance } from "../../../core/standards/clearance.ts";
import { FUSE_AMBIENT_SOURCE, FUSE_CLASSES } from "../../../core/standards/fuse-classes.ts";
import { CURVE_SOURCE, fuseTimeSource } from "../../../core/standards/fuse-times.ts";
import type { Source } from "../../../core/standards/source.ts";
import { TORQUES } from "../../../core/standards/torque.ts";
import { AMBIENT_SOURCE, AMPACITY_SOURCE, BUNDLE_SOURCE } from "../../../core/standards/ampacity.ts";
import { BENDING_SOURCE } from "../../../core/standards/bending.ts";
import { CLASS_LETTER_SOURCE } from "../../../core/standards/class-letters.ts";
import { IMPULSE_SOURCE } from "../../../core/standards/clearance.ts";
import {
  TWELVE_VOLT_SOURCE,
  LOWEST_AUXILIARY_SOURCE,
  DIODE_RELEASE_SOURCE,
  SLOW_RELEASE_SOURCE,
  SUPPRESSION_SOURCE,
} from "../../../core/standards/coils.ts";
import { COLOUR_SOURCE } from "../../../core/standards/colours.ts";
import {
  COPPER_SOURCE,
  GAUGE_SOURCE,
  TEMPERATURE_SOURCE,
  IEC_60228_SOURCE,
} from "../../../core/standards/conductors.ts";
import {
  PROBE_SOURCE,
  BOND_SOURCE,
  ORANGE_SOURCE,
  MARK_SOURCE,
  ENERGY_SOURCE,
  DISCHARGED_SOURCE,
  DISCHARGE_AIM_SOURCE,
} from "../../../core/standards/contact-protection.ts";
import { CREEPAGE_SOURCE } from "../../../core/standards/creepage.ts";
import { ISOLATION_SOURCE, METHOD_SOURCE } from "../../../core/standards/isolation.ts";
import {
  POSITION_SOURCE,
  BATTERY_POSITION_SOURCE,
  RATING_SOURCE,
  STANDARD_RATINGS_SOURCE,
  CONTINUOUS_SOURCE,
  VOLTAGE_RATING_SOURCE,
  INTERRUPTING_SOURCE,
} from "../../../core/standards/overcurrent.ts";
import {
  PRECHARGE_TARGET_SOURCE,
  PRECHARGE_LEAST_SOURCE,
  INRUSH_SOURCE,
  PRECHARGE_SOURCE,
  PRECHARGE_ENERGY_SOURCE,
  PRECHARGE_TIMEOUT_SOURCE,
} from "../../../core/standards/precharge.ts";
import { PROTECTIVE_SOURCE } from "../../../core/standards/protective-conductor.ts";
import { E12_SOURCE } from "../../../core/standards/resistor-series.ts";
import { usableShare } from "../../../core/standards/usable-charge.ts";
import { SHEET_SOURCE } from "../../../core/standards/sheet-format.ts";
import { K_SOURCE, MELTING_SOURCE } from "../../../core/standards/short-circuit.ts";
import { SMALL_CONDUCTOR_SOURCE } from "../../../core/standards/small-conductors.ts";
import { STUD_SIZE_SOURCE } from "../../../core/standards/stud-sizes.ts";
import { SIGNAL_BAND_SOURCE, HALL_SOURCE, LOOP_SOURCE, SPAN_SOURCE } from "../../../core/standards/throttle-bands.ts";
import { TITLE_BLOCK_SOURCE } from "../../../core/standards/title-block.ts";
import { CLASS_B_SOURCE } from "../../../core/standards/voltage-class.ts";
import { VOLTAGE_DROP_SOURCE, CIRCULAR_MIL_SOURCE } from "../../../core/standards/voltage-drop.ts";
import { PRACTICE_SOURCE } from "../../../core/standards/working-distances.ts";

/** Sources that a file exports by name. */
const NAMED: Readonly<Record<string, Readonly<Record<string, Source>>>> = {
  ampacity: { AMBIENT_SOURCE, AMPACITY_SOURCE, BUNDLE_SOURCE },
  bending: { BENDING_SOURCE },
  "class-letters": { CLASS_LETTER_SOURCE },
  clearance: { IMPULSE_SOURCE },
  coils: {
    TWELVE_VOLT_SOURCE,
    LOWEST_AUXILIARY_SOURCE,
    DIODE_RELEASE_SOURCE,
    SLOW_RELEASE_SOURCE,
    SUPPRESSION_SOURCE,
  },
  colours: { COLOUR_SOURCE },
  conductors: { COPPER_SOURCE, GAUGE_SOURCE, TEMPERATURE_SOURCE, IEC_60228_SOURCE },
  "contact-protection": {
    PROBE_SOURCE,
    BOND_SOURCE,
    ORANGE_SOURCE,
    MARK_SOURCE,
    ENERGY_SOURCE,
    DISCHARGED_SOURCE,
    DISCHARGE_AIM_SOURCE,
  },
  creepage: { CREEPAGE_SOURCE },
  "fuse-classes": { FUSE_AMBIENT_SOURCE },
  "fuse-times": { CURVE_SOURCE },
  isolation: { ISOLATION_SOURCE, METHOD_SOURCE },
  overcurrent: {
    POSITION_SOURCE,
    BATTERY_POSITION_SOURCE,
    RATING_SOURCE,
    STANDARD_RATINGS_SOURCE,
    CONTINUOUS_SOURCE,
    VOLTAGE_RATING_SOURCE,
    INTERRUPTING_SOURCE,
  },
  precharge: {
    PRECHARGE_TARGET_SOURCE,
    PRECHARGE_LEAST_SOURCE,
    INRUSH_SOURCE,
    PRECHARGE_SOURCE,
    PRECHARGE_ENERGY_SOURCE,
    PRECHARGE_TIMEOUT_SOURCE,
  },
  "protective-conductor": { PROTECTIVE_SOURCE },
  "resistor-series": { E12_SOURCE },
  "sheet-format": { SHEET_SOURCE },
  "short-circuit": { K_SOURCE, MELTING_SOURCE },
  "small-conductors": { SMALL_CONDUCTOR_SOURCE },
  "stud-sizes": { STUD_SIZE_SOURCE },
  "throttle-bands": { SIGNAL_BAND_SOURCE, HALL_SOURCE, LOOP_SOURCE, SPAN_SOURCE },
  "title-block": { TITLE_BLOCK_SOURCE },
  "voltage-class": { CLASS_B_SOURCE },
  "voltage-drop": { VOLTAGE_DROP_SOURCE, CIRCULAR_MIL_SOURCE },
  "working-distances": { PRACTICE_SOURCE },
};

/** Sources that hang on the rows of a table. */
const OF_ROWS: Readonly<Record<string, readonly Source[]>> = {
  "battery-resistance": CHEMISTRIES.map((chemistry) => resistanceRange(chemistry, 6, 360000).source),
  cells: CHEMISTRIES.flatMap((chemistry) => {
    const cell = cellOf(chemistry);
    return [cell.source, cell.restSource, cell.chargeSource];
  }),
  clearance: [500, 1500, 2500, 8000].flatMap((impulse) => clearance(impulse, 2)?.source ?? []),
  "fuse-times": (["blade", "bolted-strip", "traction-gR", "semiconductor-aR", "glass"] as const).map(fuseTimeSource),
  "fuse-classes": FUSE_CLASSES.map(({ source }) => source),
  "usable-charge": CHEMISTRIES.map((chemistry) => usableShare(chemistry).source),
  torque: TORQUES.map((torque) => torque.source),
};

/** The form of a source and the reading between rows: no figures. */
const WITHOUT_FIGURES = ["interpolate", "source"];

const FOLDER = new URL("../../../core/standards/", import.meta.url);
const FILES = readdirSync(FOLDER).flatMap((name) => (name.endsWith(".ts") ? [name.slice(0, -3)] : []));

describe("every table names its source", () => {
  it.each(FILES.filter((name) => !WITHOUT_FIGURES.includes(name)))("%s", (file) => {
    const text = readFileSync(new URL(`${file}.ts`, FOLDER), "utf8");
    const written = [...text.matchAll(/^export const (\w+_SOURCE)\b/gm)].map((match) => match[1]);
    expect(Object.keys(NAMED[file] ?? {}).sort()).toEqual(written.sort());
    const sources = [...Object.values(NAMED[file] ?? {}), ...(OF_ROWS[file] ?? [])];
    expect(sources.length).toBeGreaterThan(0);
    for (const source of sources) {
      expect(source.text.length).toBeGreaterThan(5);
      expect(["seen", "memory", "calc", "none"]).toContain(source.known);
      expect(source.known === "none").toBe(source.text === "Common practice, no source");
    }
  });
});
