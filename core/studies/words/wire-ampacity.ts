/**
 * Ampacity of a drawn wire: 33 CFR 183.425 table 5 with its notes for engine spaces and bundles. What the drawing
 * leaves open makes it a range: a check fails only above its upper end and passes only below its lower end.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { Wire, Zone } from "../../project/document.ts";
import type { Ampere, Kelvin, Volt } from "../../quantity/kinds.ts";
import { parseQuantity, parseSize } from "../../quantity/parse.ts";
import type { ConductorSize } from "../../quantity/size.ts";
import { AMPACITY_SOURCE, BUNDLE_SOURCE, deratedAmpacity, INSULATION_CLASSES } from "../../standards/ampacity.ts";
import type { Source } from "../../standards/source.ts";
import type { MissingField } from "../missing-field.ts";
import { belongingAt } from "./belongs.ts";

export interface KnownAmpacity {
  readonly known: true;
  /** With the lowest class of insulation where nobody stated it. */
  readonly low: Ampere;
  /** With the best class where nobody stated it; Infinity beyond the table's thickest conductor. */
  readonly high: Ampere;
  /** As `low`, but in air of 30 C: what heats the conductor up to its class, bundling counted. */
  readonly inCoolAir: Ampere;
  /** What to state so that both ends become one. */
  readonly missing: readonly MissingField[];
  readonly source: Source;
}
export interface UnknownAmpacity {
  readonly known: false;
  /** size: not stated; small: thinner than the table's last row; insulation: a class below the table's lowest. */
  readonly why: "size" | "small" | "insulation";
  readonly missing: readonly MissingField[];
}
export type WireAmpacity = KnownAmpacity | UnknownAmpacity;

const BEST_CLASS: Kelvin = 273.15 + Math.max(...INSULATION_CLASSES);

interface Surroundings {
  readonly zones: ReadonlyMap<string, Zone>;
  /** Wires by the cable or conduit that they share. */
  readonly bundles: ReadonlyMap<string, number>;
  readonly read: Map<string, WireAmpacity>;
  /** What the tables say, by size, insulation and place: most wires share them with many others. */
  readonly tabled: Map<string, Tabled>;
}
type Derated = ReturnType<typeof deratedAmpacity>;
interface Tabled {
  readonly low: Derated;
  readonly cool: Derated;
  readonly high: Derated;
}
const remembered = new WeakMap<Analysis, Surroundings>();

export function wireAmpacity(analysis: Analysis, conductor: Conductor): WireAmpacity {
  const around = aroundOf(analysis);
  let own = around.read.get(conductor.wire.id);
  if (own === undefined) around.read.set(conductor.wire.id, (own = read(analysis, conductor, around)));
  return own;
}

/** What the wire would carry where it lies if it were of another size. */
export function ampacityAtSize(analysis: Analysis, conductor: Conductor, size: ConductorSize): WireAmpacity {
  return read(analysis, { ...conductor, wire: { ...conductor.wire, size: size.text } }, aroundOf(analysis));
}

function aroundOf(analysis: Analysis): Surroundings {
  let around = remembered.get(analysis);
  if (around === undefined) remembered.set(analysis, (around = surroundings(analysis)));
  return around;
}

function surroundings(analysis: Analysis): Surroundings {
  const { zones, wires } = analysis.network.project;
  const bundles = new Map<string, number>();
  for (const wire of wires) {
    for (const key of bundlesOf(wire)) bundles.set(key, (bundles.get(key) ?? 0) + 1);
  }
  return { zones: new Map(zones.map((zone) => [zone.id, zone])), bundles, read: new Map(), tabled: new Map() };
}

function bundlesOf(wire: Wire): readonly string[] {
  const conduit = wire.conduit == null || wire.conduit === "" ? [] : [`conduit ${wire.conduit}`];
  return wire.cable === undefined ? conduit : [...conduit, `cable ${wire.cable}`];
}

function read(analysis: Analysis, conductor: Conductor, around: Surroundings): WireAmpacity {
  const { wire } = conductor;
  const size = wire.size == null ? undefined : parseSize(wire.size);
  if (size?.ok !== true) return { known: false, why: "size", missing: [{ wire: wire.id, field: "size" }] };
  const typed = wire.insulation?.temperature;
  const reading = typed == null ? undefined : parseQuantity(typed, "temperature");
  const insulation = reading?.ok === true ? reading.value : undefined;
  const place = placeOf(analysis, conductor, around);
  const key = `${wire.size ?? ""} ${insulation ?? ""} ${String(place.engineSpace)} ${place.bundled} ${place.volts}`;
  let tabled = around.tabled.get(key);
  if (tabled === undefined) {
    tabled = {
      low: deratedAmpacity(size.size, insulation, place),
      cool: deratedAmpacity(size.size, insulation, { ...place, engineSpace: false }),
      high: deratedAmpacity(size.size, insulation ?? BEST_CLASS, place),
    };
    around.tabled.set(key, tabled);
  }
  const { low, cool, high } = tabled;
  if (low === undefined || high === undefined || cool === undefined) {
    const why = deratedAmpacity(size.size, BEST_CLASS, place) === undefined ? "small" : "insulation";
    return { known: false, why, missing: [] };
  }
  return {
    known: true,
    low: low.amperes,
    inCoolAir: cool.amperes,
    high: high.atLeast ? Infinity : high.amperes,
    missing: insulation === undefined ? [{ wire: wire.id, field: "insulation.temperature" }] : [],
    source: place.engineSpace ? low.source : place.bundled > 2 && place.volts >= 50 ? BUNDLE_SOURCE : AMPACITY_SOURCE,
  };
}

/** Where a wire lies. */
export interface WireSurroundings {
  readonly engineSpace: boolean;
  /** Wires in its cable or conduit, itself counted. */
  readonly bundled: number;
  /** The highest voltage of any source that it belongs to: the rule on bundles asks for it. */
  readonly volts: Volt;
  /** The hottest of the zones that it passes, where one is stated. */
  readonly ambient: Kelvin | undefined;
}

export function wireSurroundings(analysis: Analysis, conductor: Conductor): WireSurroundings {
  const around = aroundOf(analysis);
  const ambients = (conductor.wire.zones ?? []).flatMap((id) => {
    const typed = around.zones.get(id)?.ambient;
    const reading = typed == null ? undefined : parseQuantity(typed, "temperature");
    return reading?.ok === true ? [reading.value] : [];
  });
  return {
    ...placeOf(analysis, conductor, around),
    ambient: ambients.length === 0 ? undefined : Math.max(...ambients),
  };
}

function placeOf(analysis: Analysis, conductor: Conductor, around: Surroundings): Omit<WireSurroundings, "ambient"> {
  const { wire } = conductor;
  return {
    engineSpace: (wire.zones ?? []).some((id) => around.zones.get(id)?.kind === "engine"),
    bundled: Math.max(1, ...bundlesOf(wire).map((key) => around.bundles.get(key) ?? 1)),
    volts: highestAt(analysis, conductor),
  };
}

/** The highest voltage of any source that the wire belongs to. */
function highestAt(analysis: Analysis, { a }: Conductor): Volt {
  const { traction, auxiliary } = belongingAt(analysis, a);
  return [...traction, ...auxiliary].reduce((most, pack) => Math.max(most, pack.highest), 0);
}
