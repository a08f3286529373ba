/**
 * Fuse choice: the smallest standard rating that carries the load where it lies and does not open on its inrush, at
 * most what may protect the cable; with the DC voltage and interrupting rating that it needs. Numbers only;
 * fuse-sizes.ts reads a drawing.
 */
import type { Ampere, Kelvin, Second, Volt } from "../quantity/kinds.ts";
import { FUSE_AMBIENT, FUSE_AMBIENT_SOURCE, FUSE_CLASSES, fuseAmbientFactor } from "../standards/fuse-classes.ts";
import type { FuseClass } from "../standards/fuse-times.ts";
import { fuseTimeSource } from "../standards/fuse-times.ts";
import {
  CONTINUOUS_SHARE,
  CONTINUOUS_SOURCE,
  INTERRUPTING_SOURCE,
  largestRating,
  RATING_SOURCE,
  STANDARD_RATINGS,
  VOLTAGE_RATING_SOURCE,
} from "../standards/overcurrent.ts";
import type { Source } from "../standards/source.ts";
import { clearingTime } from "./fuse-clearing.ts";
import type { CurvePoint } from "./fuse-clearing.ts";
import { inputOf } from "./study.ts";
import type { Step, Study } from "./study.ts";

/** A current that lasts a while and must not open the fuse: a motor's start, a controller's burst. */
export interface Inrush {
  readonly current: Ampere;
  readonly time: Second;
}

export interface FuseQuestion {
  /** Greatest continuous current. Undefined: unknown. */
  readonly continuous: Ampere | undefined;
  /** Name of the circuit's voltage: the rule on cable counts from it. */
  readonly nominal: Volt;
  /** The highest voltage that it may have to break: the pack on charge. */
  readonly highest: Volt;
  /** Air around the fuse; unstated: 25 C. */
  readonly ambient?: Kelvin | undefined;
  readonly inrush?: readonly Inrush[];
  /** Ampacity of the thinnest cable that it protects, where that lies. Undefined: unknown. */
  readonly cable: Ampere | undefined;
  /** Short-circuit current right behind it, at most. Undefined: unknown. */
  readonly prospective: Ampere | undefined;
  /** Kept if given; else the simplest class that is made for the voltage and the current. */
  readonly fuseClass?: FuseClass | undefined;
  /** The maker's curve, which then tells the inrush; else the limits of the class do. */
  readonly points?: readonly CurvePoint[];
}

export type FuseCriterion = "continuous" | "inrush";

export interface FuseAnswer {
  /** The smallest that carries the load; undefined: unknown, or none of the standard ratings does. */
  readonly rating: Ampere | undefined;
  readonly decides: FuseCriterion | undefined;
  /** The largest that may protect the cable. */
  readonly most: Ampere | undefined;
  /** The rating is not above `most`. Undefined where one of the two is. */
  readonly fits: boolean | undefined;
  readonly fuseClass: FuseClass;
  readonly classSource: Source;
  /** It has to break at least this voltage (DC) and this current. */
  readonly voltageDc: Volt;
  readonly interrupting: Ampere | undefined;
}

/**
 * Smallest standard rating of which the load is at most 80 % (NEC 210.20), less in hot air, that the inrush does not
 * open by the fuse's curve or class. Whether the inrush opens it is unknown where neither is published: `open` says so.
 */
export function chooseFuse(question: FuseQuestion): Study<FuseQuestion, FuseAnswer> {
  const { continuous, nominal, highest, ambient, cable, prospective, inrush = [] } = question;
  const factor = fuseAmbientFactor(ambient ?? FUSE_AMBIENT);
  const least = continuous === undefined ? undefined : continuous / (CONTINUOUS_SHARE * factor);
  const byLoad = least === undefined ? undefined : STANDARD_RATINGS.find((rating) => rating >= least - 1e-9);
  const fuseClass = question.fuseClass ?? classFor(highest, byLoad, prospective);
  const holds = (rating: Ampere): "holds" | "opens" | "unknown" => standsAll(question, fuseClass, rating, inrush);
  const rating =
    byLoad === undefined ? undefined : STANDARD_RATINGS.find((each) => each >= byLoad && holds(each) !== "opens");
  const most = cable === undefined ? undefined : largestRating(cable, nominal);
  const steps: Step[] = [
    {
      name: "Part of its rating that the load may use",
      value: CONTINUOUS_SHARE,
      dimension: "ratio",
      source: CONTINUOUS_SOURCE,
    },
    {
      name: "Part of its rating that it carries in this air",
      value: factor,
      dimension: "ratio",
      source: FUSE_AMBIENT_SOURCE,
    },
  ];
  if (least !== undefined)
    steps.push({ name: "Least rating for the load", value: least, dimension: "current", source: CONTINUOUS_SOURCE });
  if (most !== undefined)
    steps.push({ name: "Largest rating for the cable", value: most, dimension: "current", source: RATING_SOURCE });
  steps.push({
    name: "Voltage that it has to break",
    value: highest,
    dimension: "voltage",
    source: VOLTAGE_RATING_SOURCE,
  });
  if (prospective !== undefined) {
    steps.push({
      name: "Current that it has to break",
      value: prospective,
      dimension: "current",
      source: INTERRUPTING_SOURCE,
    });
  }
  const { source: classSource } = FUSE_CLASSES.find((each) => each.fuseClass === fuseClass) ?? {
    source: fuseTimeSource(fuseClass),
  };
  const unknownInrush = rating !== undefined && inrush.length > 0 && holds(rating) === "unknown";
  return {
    inputs: [
      inputOf("Continuous current", continuous, "current", undefined, "solved"),
      inputOf("Nominal voltage", nominal, "voltage", undefined, "solved"),
      inputOf("Highest voltage", highest, "voltage", undefined, "solved"),
      inputOf("Air around it", ambient, "temperature", FUSE_AMBIENT),
      inputOf("Ampacity of the thinnest cable behind it", cable, "current", undefined, "solved"),
      inputOf("Short-circuit current behind it", prospective, "current", undefined, "solved"),
      ...inrush.map(({ current }) => inputOf("Inrush", current, "current")),
    ],
    steps,
    answer: {
      rating,
      decides: rating === undefined ? undefined : rating === byLoad ? "continuous" : "inrush",
      most,
      fits: rating === undefined || most === undefined ? undefined : rating <= most + 1e-9,
      fuseClass,
      classSource,
      voltageDc: highest,
      interrupting: prospective,
    },
    open: [
      ...(continuous === undefined ? [{ what: "rating", lacks: ["continuous"] } as const] : []),
      ...(cable === undefined ? [{ what: "cable", lacks: ["cable"] } as const] : []),
      ...(prospective === undefined ? [{ what: "interrupting", lacks: ["prospective"] } as const] : []),
      ...(unknownInrush ? [{ what: "inrush", lacks: ["points"] } as const] : []),
    ],
  };
}

/** The simplest class that is made for this voltage, rating and short-circuit current. */
function classFor(highest: Volt, rating: Ampere | undefined, prospective: Ampere | undefined): FuseClass {
  const fitting = FUSE_CLASSES.find(
    (each) =>
      (each.volts === undefined || highest <= each.volts) &&
      (each.rating === undefined || (rating !== undefined && rating <= each.rating)) &&
      (each.interrupting === undefined || (prospective !== undefined && prospective <= each.interrupting)),
  );
  return fitting?.fuseClass ?? "traction-gR";
}

function standsAll(
  { points = [] }: FuseQuestion,
  fuseClass: FuseClass,
  rating: Ampere,
  inrush: readonly Inrush[],
): "holds" | "opens" | "unknown" {
  let unknown = false;
  for (const { current, time } of inrush) {
    const clearing = clearingTime({ rating, fuseClass, points }, current);
    // No least time is published at this current: it may or may not open.
    if (clearing === undefined || clearing.least === 0) unknown = true;
    // Only what is sure not to open in that time holds: a fuse that may or may not open is too small.
    else if (clearing.least <= time) return "opens";
  }
  return unknown ? "unknown" : "holds";
}
