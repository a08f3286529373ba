/**
 * Cable size: the smallest standard size that carries the current, keeps the voltage, stands the short circuit until
 * it is cleared, is protected by its device, and is not too thin for a vehicle. Numbers only; wire-sizes.ts reads a
 * drawing.
 */
import type { Ampere, Kelvin, Metre, Ratio, SquareMetre, Volt } from "../quantity/kinds.ts";
import { METRIC_SIZES, sizeFromGauge, sizeFromSquareMillimetres } from "../quantity/size.ts";
import type { ConductorSize } from "../quantity/size.ts";
import {
  ambientFactor,
  AMBIENT_SOURCE,
  AMPACITY_SOURCE,
  BUNDLE_SOURCE,
  bundleFactor,
  deratedAmpacity,
  engineSpaceFactor,
  insulationClass,
  TABLE_5_GAUGES,
} from "../standards/ampacity.ts";
import { conductorResistance, IEC_60228, TEMPERATURE_SOURCE } from "../standards/conductors.ts";
import { largestRating, RATING_SOURCE } from "../standards/overcurrent.ts";
import { LEAST_AREA_ALONE, LEAST_AREA_IN_SHEATH, SMALL_CONDUCTOR_SOURCE } from "../standards/small-conductors.ts";
import type { Source } from "../standards/source.ts";
import { CRITICAL_DROP, OTHER_DROP, VOLTAGE_DROP_SOURCE } from "../standards/voltage-drop.ts";
import { kOf } from "./adiabatic.ts";
import { inputOf } from "./study.ts";
import type { Step, Study } from "./study.ts";

export interface ConductorQuestion {
  /** The greatest continuous current. Undefined: unknown. */
  readonly current: Ampere | undefined;
  /** The circuit's nominal voltage: voltage drop and the rule on devices count from it. */
  readonly volts: Volt;
  /** The circuit's highest voltage, for the rule on bundles; unstated: the nominal one. */
  readonly highest?: Volt | undefined;
  /** Length of all wires of the loop, out and back. */
  readonly loop: Metre | undefined;
  /** Control, critical and traction circuits may lose 3 %, others 10 %. */
  readonly critical: boolean;
  /** Class of the insulation; unstated: read as 60 C. */
  readonly insulation?: Kelvin | undefined;
  readonly material?: string | undefined;
  /** Air around it; unstated: 30 C. */
  readonly ambient?: Kelvin | undefined;
  readonly engineSpace?: boolean;
  /** Current-carrying conductors in one bundle, this one counted. */
  readonly bundled?: number;
  readonly sheathed?: boolean;
  /** Rating of the device that ends its overloads. */
  readonly device?: Ampere | undefined;
  /** I2t, in A2s, that passes until a short circuit is cleared. Undefined: unknown. */
  readonly letThrough: number | undefined;
}

/** What a size has to satisfy; the names say what decided. */
export type Criterion = "ampacity" | "voltage-drop" | "short-circuit" | "device" | "least-size" | "bond";

export interface ConductorChoice {
  readonly size: ConductorSize;
  readonly decides: Criterion;
  /** Ampacity where it lies, of this size. */
  readonly ampacity: Ampere;
  /** Lost in the loop at this size, hot; undefined where the loop's length or the current is unknown. */
  readonly drop: Volt | undefined;
  /** The smallest size by each criterion alone; undefined: none of the system is large enough. */
  readonly by: Readonly<Partial<Record<Criterion, ConductorSize | undefined>>>;
}

export interface ConductorAnswer {
  /** Undefined where no single conductor of the system is large enough. */
  readonly metric: ConductorChoice | undefined;
  readonly gauge: ConductorChoice | undefined;
}

/** Insulation of unstated class, for the resistance of a hot conductor: 70 C, as PVC (IEC 60227, from memory). */
const UNSTATED_HOT: Kelvin = 343.15;
/** Where nobody stated it: 30 C, to which 33 CFR 183.425 table 5 refers. */
const USUAL_AMBIENT: Kelvin = 303.15;
/** Insulation of unstated class, for its ampacity: 60 C, the lowest column of 33 CFR 183.425 table 5. */
const UNSTATED_CLASS: Kelvin = 333.15;

const METRIC: readonly ConductorSize[] = METRIC_SIZES.filter((mm2) => mm2 >= (IEC_60228[0]?.[0] ?? 0)).map(
  sizeFromSquareMillimetres,
);
const GAUGES: readonly ConductorSize[] = [...TABLE_5_GAUGES].sort((a, b) => b - a).map(sizeFromGauge);

/** Where several sizes are alike the earlier criterion is named. */
const ORDER: readonly Criterion[] = ["least-size", "ampacity", "voltage-drop", "short-circuit", "device"];

/**
 * Ampacity of a size where it lies: 33 CFR 183.425 table 5, times the bundling factor, times the smaller of engine
 * space (50 C) and stated ambient. Undefined where the table is silent.
 */
export function ampacityThere(
  size: ConductorSize,
  question: Omit<ConductorQuestion, "current" | "loop" | "critical" | "letThrough">,
): Ampere | undefined {
  const { insulation, engineSpace = false, bundled = 1, volts, highest = volts, ambient } = question;
  const read = deratedAmpacity(size, insulation, { engineSpace: false, bundled, volts: highest });
  if (read === undefined) return undefined;
  return read.amperes * surroundingsFactor(insulation, engineSpace, ambient);
}

function surroundingsFactor(insulation: Kelvin | undefined, engineSpace: boolean, ambient: Kelvin | undefined): Ratio {
  const column = insulation === undefined ? 60 : insulationClass(insulation);
  if (column === undefined) return 0;
  const engine = engineSpace ? engineSpaceFactor(column).factor : 1;
  if (ambient === undefined || ambient <= USUAL_AMBIENT) return engine;
  return Math.min(engine, ambientFactor(column + 273.15, ambient));
}

interface Criteria {
  readonly judge: Judges;
  readonly k: number;
  readonly least: SquareMetre;
  readonly allowed: Volt;
}

/** Undefined: cannot be judged for want of an input. */
type Judges = Readonly<Record<Criterion, ((size: ConductorSize) => boolean) | undefined>>;

function criteriaOf(question: ConductorQuestion): Criteria {
  const { current, volts, loop, critical, insulation, material, letThrough, device } = question;
  const k = kOf(material, insulation).low;
  const least = question.sheathed === true ? LEAST_AREA_IN_SHEATH : LEAST_AREA_ALONE;
  const allowed = (critical ? CRITICAL_DROP : OTHER_DROP) * volts;
  const judge: Judges = {
    ampacity: current === undefined ? undefined : (size) => (ampacityThere(size, question) ?? 0) >= current - 1e-9,
    "voltage-drop":
      current === undefined || loop === undefined
        ? undefined
        : (size) => dropOf(size, current, loop, insulation) <= allowed + 1e-9,
    "short-circuit": letThrough === undefined ? undefined : (size) => (k * size.area * 1e6) ** 2 >= letThrough,
    device:
      device === undefined
        ? undefined
        : (size) => largestRating(ampacityThere(size, question) ?? 0, volts) >= device - 1e-9,
    // The bond of a case is as thick as the live conductors of its part ask for: wire-sizes.ts knows those.
    bond: undefined,
    "least-size": (size) => size.area >= least * (1 - 1e-9) && ampacityThere(size, question) !== undefined,
  };
  return { judge, k, least, allowed };
}

/** What a given size falls short of; empty where every criterion that can be judged holds. */
export function fallsShortOf(size: ConductorSize, question: ConductorQuestion): readonly Criterion[] {
  const { judge } = criteriaOf(question);
  return ORDER.filter((criterion) => judge[criterion]?.(size) === false);
}

/**
 * The smallest standard size, metric (IEC 60228 class 5) and gauge (AWG), that satisfies every criterion that can be
 * judged; what cannot is listed in `open` with the inputs it lacks. Nothing is extrapolated beyond a table's end.
 */
export function chooseConductor(question: ConductorQuestion): Study<ConductorQuestion, ConductorAnswer> {
  const { current, volts, loop, insulation, material, ambient, letThrough, device } = question;
  const { judge, k, least, allowed } = criteriaOf(question);
  const choose = (sizes: readonly ConductorSize[]): ConductorChoice | undefined => choiceAmong(sizes, judge, question);
  return {
    inputs: [
      inputOf("Current", current, "current", undefined, "solved"),
      inputOf("Nominal voltage", volts, "voltage", undefined, "solved"),
      inputOf("Length of the loop, out and back", loop, "length"),
      inputOf("Temperature class of the insulation", insulation, "temperature", UNSTATED_CLASS),
      { name: "Material of the insulation", value: material, from: material === undefined ? "unstated" : "stated" },
      inputOf("Air around it", ambient, "temperature", question.engineSpace === true ? 323.15 : USUAL_AMBIENT),
      inputOf("Conductors in the bundle", question.bundled, "count", 1),
      inputOf("Rating of the device that protects it", device, "current"),
    ],
    steps: stepsOf(question, k, least, allowed),
    answer: { metric: choose(METRIC), gauge: choose(GAUGES) },
    open: [
      ...(current === undefined ? [{ what: "ampacity", lacks: ["current"] } as const] : []),
      ...(judge["voltage-drop"] === undefined
        ? [
            {
              what: "voltage-drop",
              lacks: [
                ...(current === undefined ? (["current"] as const) : []),
                ...(loop === undefined ? (["loop"] as const) : []),
              ],
            },
          ]
        : []),
      ...(letThrough === undefined ? [{ what: "short-circuit", lacks: ["letThrough"] } as const] : []),
      ...(device === undefined ? [{ what: "device", lacks: ["device"] } as const] : []),
    ],
  };
}

function choiceAmong(
  sizes: readonly ConductorSize[],
  judge: Judges,
  question: ConductorQuestion,
): ConductorChoice | undefined {
  const by: Partial<Record<Criterion, ConductorSize | undefined>> = {};
  let decides: Criterion = "least-size";
  let size: ConductorSize | undefined;
  for (const criterion of ORDER) {
    const holds = judge[criterion];
    if (holds === undefined) continue;
    const own = sizes.find(holds);
    by[criterion] = own;
    if (own === undefined) return undefined;
    if (size === undefined || own.area > size.area * 1.0001) [size, decides] = [own, criterion];
  }
  if (size === undefined) return undefined;
  const { current, loop, insulation } = question;
  return {
    size,
    decides,
    ampacity: ampacityThere(size, question) ?? 0,
    drop: current === undefined || loop === undefined ? undefined : dropOf(size, current, loop, insulation),
    by,
  };
}

/** Voltage lost in a loop of this size throughout, the copper as hot as its insulation may get. */
export function dropOf(size: ConductorSize, current: Ampere, loop: Metre, insulation: Kelvin | undefined): Volt {
  return current * conductorResistance(size, loop, insulation ?? UNSTATED_HOT);
}

function stepsOf(question: ConductorQuestion, k: number, least: SquareMetre, allowed: Volt): readonly Step[] {
  const { insulation, engineSpace = false, bundled = 1, volts, highest = volts, ambient, letThrough } = question;
  const factor = surroundingsFactor(insulation, engineSpace, ambient);
  const column = insulation === undefined ? 60 : (insulationClass(insulation) ?? 60);
  const around: Source =
    ambient !== undefined && ambient > USUAL_AMBIENT && (!engineSpace || factor < engineSpaceFactor(column).factor)
      ? AMBIENT_SOURCE
      : engineSpace
        ? engineSpaceFactor(column).source
        : AMPACITY_SOURCE;
  return [
    {
      name: "Column of the table of ampacities",
      value: column + 273.15,
      dimension: "temperature",
      source: AMPACITY_SOURCE,
    },
    { name: "Factor for the air around it", value: factor, dimension: "ratio", source: around },
    { name: "Factor for the bundle", value: bundleFactor(bundled, highest), dimension: "ratio", source: BUNDLE_SOURCE },
    { name: "Voltage that may be lost", value: allowed, dimension: "voltage", source: VOLTAGE_DROP_SOURCE },
    {
      name: "Temperature of the copper for the voltage drop",
      value: insulation ?? UNSTATED_HOT,
      dimension: "temperature",
      source: TEMPERATURE_SOURCE,
    },
    ...(letThrough === undefined
      ? []
      : [
          {
            name: "Least area for the short circuit",
            value: (Math.sqrt(letThrough) / k) * 1e-6,
            dimension: "size" as const,
            source: kOf(question.material, insulation).source,
          },
        ]),
    ...(question.device === undefined
      ? []
      : [
          {
            name: "Device that may protect it",
            value: question.device,
            dimension: "current" as const,
            source: RATING_SOURCE,
          },
        ]),
    { name: "Least area in a vehicle", value: least, dimension: "size", source: SMALL_CONDUCTOR_SOURCE },
  ];
}
