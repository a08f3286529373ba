import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { Ampere, Kelvin } from "../../quantity/kinds.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import { INSULATION_CLASSES, insulationClass } from "../../standards/ampacity.ts";
import { defineCheck } from "../define.ts";
import { insulateForHeat } from "../remedies/state-wire.ts";
import type { MissingField, Remedy, Report } from "../define.ts";
import { endPlaces } from "../words/places.ts";
import { ampacityAtSize, wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { WireAmpacity } from "../../studies/words/wire-ampacity.ts";
import { unstatedRanges, wireCurrents } from "../../studies/words/wire-currents.ts";
import type { WireCurrent } from "../../studies/words/wire-currents.ts";
import { sizeOf, thickerWire } from "../remedies/thicker-wire.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

const ZERO_CELSIUS: Kelvin = 273.15;
/** Air to which the table of ampacities belongs. */
const TABLE_AIR: Kelvin = ZERO_CELSIUS + 30;

/** No wire gets hotter than this: 1085 C, CRC Handbook of Chemistry and Physics (from memory). */
const COPPER_MELTS: Kelvin = 1358.15;

export const temperatureClass = defineCheck({
  id: "temperature-class",
  group: "conductors",
  title: "Insulation not made for the heat",
  about:
    "Adds to the hottest air of every zone that a wire runs through what its own steady current heats it up by, and compares the sum with the temperature that its insulation is made for. The rise goes with the square of the current: a wire that carries its full ampacity in air of 30 °C is just as hot as its insulation may get. Heat from an exhaust or a brake beside the wire it cannot see.",
  severities: ["WARNING"],
  source: {
    text: "Rise from the ampacity of 33 CFR 183.425, table 5, with the square of the current (the form of NEC 310.15's ambient correction)",
    known: "calc",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    hot: {
      title: "{wire} gets up to {reached}; its insulation is made for {limit}.",
      why: "Insulation that is hotter than its class gets brittle within months, cracks, and bares the conductor.",
      mend: "Use insulation of a higher class there, thicker wire, or lead the wire clear of the hot zone.",
    },
  },
  reasons: {
    insulation: "The temperature that the insulation of {wire} is made for is not stated.",
    zones: "Through which zones {wire} runs is not stated.",
    ambient: "How hot the air gets where {wire} runs is not stated.",
    size: "The size of {wire} is not stated, so that it is not known how much its current heats it.",
    small: "{wire} is thinner than any that the table of ampacities lists, so that its heating is not known.",
    class: "The insulation of {wire} is of a lower class than the table of ampacities lists.",
    current: "How much current {wire} carries, and so how much that heats it, is not known.",
    range: "How hot {wire} gets depends on figures that are only known as a range.",
  },
  foldsUnder: [
    "conductor-overloaded",
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
  ],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    const ambients = ambientsOf(analysis);
    for (const [conductor, current] of wireCurrents(analysis)) {
      look(analysis, { conductor, current, ambients, verdicts }, report);
    }
    verdicts.report(analysis, report);
  },
});

/** Hottest air by zone; undefined where nobody stated it. */
function ambientsOf(analysis: Analysis): ReadonlyMap<string, Kelvin | undefined> {
  return new Map(analysis.network.project.zones.map(({ id, ambient }) => [id, temperature(ambient)]));
}

function temperature(text: string | null | undefined): Kelvin | undefined {
  const reading = text == null ? undefined : parseQuantity(text, "temperature");
  return reading?.ok === true ? reading.value : undefined;
}

interface Looked {
  readonly conductor: Conductor;
  readonly current: WireCurrent;
  readonly ambients: ReadonlyMap<string, Kelvin | undefined>;
  readonly verdicts: WireVerdicts;
}

function look(analysis: Analysis, { conductor, current, ambients, verdicts }: Looked, report: Report): void {
  const { wire } = conductor;
  const open = (reason: string, missing: readonly MissingField[]): void =>
    verdicts.notChecked(conductor, reason, missing);
  const limit = temperature(wire.insulation?.temperature);
  if (limit === undefined) {
    open("insulation", [{ wire: wire.id, field: "insulation.temperature" }]);
    return;
  }
  const zones = wire.zones ?? [];
  if (zones.length === 0) {
    open("zones", [{ wire: wire.id, field: "zones" }]);
    return;
  }
  const air = zones.flatMap((zone) => ambients.get(zone) ?? []);
  const hottest = Math.max(0, ...air);
  const ampacity = wireAmpacity(analysis, conductor);
  const least = Math.max(0, ...current.states.map(({ low }) => low));
  const rise = (amperes: Ampere): Kelvin => riseOf(ampacity, limit, amperes);
  const sure = air.length === 0 ? 0 : hottest + (surelyKnown(ampacity) ? rise(least) : 0);
  if (sure > limit) {
    verdicts.fails(conductor);
    report.fails({
      message: "hot",
      facts: {
        wire: { place: { wire: wire.id } },
        reached: { value: Math.min(sure, COPPER_MELTS), dimension: "temperature" },
        limit: { value: limit, dimension: "temperature" },
      },
      severity: "WARNING",
      where: [{ wire: wire.id }],
      states: hottestStates(current, least),
      value: sure,
      limit,
      unit: "K",
      // Where the air alone is too hot, no thickness helps.
      remedies: [
        ...thickerWire(
          wire,
          (size) => hottest + riseOf(ampacityAtSize(analysis, conductor, size), limit, current.most) < limit - ROOM,
        ),
        ...(air.length < zones.length ? [] : hotterClass(analysis, conductor, hottest, current.most)),
      ],
      touches: endPlaces(analysis.network, wire),
    });
    return;
  }
  const untold = zones.filter((zone) => ambients.get(zone) === undefined);
  if (untold.length > 0) {
    const missing = untold.map((zone): MissingField => ({ zone, field: "ambient" }));
    open("ambient", missing);
  } else if (!current.carries) verdicts.passes(conductor);
  else if (!ampacity.known) open(ampacity.why === "insulation" ? "class" : ampacity.why, ampacity.missing);
  else if (current.drive !== undefined || current.unlimited.length > 0) {
    open("current", [...(current.drive ?? []), ...current.unlimited]);
  } else if (hottest + rise(current.most) > limit) open("range", unstatedRanges(analysis));
  else verdicts.passes(conductor);
}

/** The lowest class that stays below its own limit, heated as its column of the table says. */
function hotterClass(analysis: Analysis, conductor: Conductor, air: Kelvin, most: Ampere): readonly Remedy[] {
  const { wire } = conductor;
  const size = sizeOf(wire);
  const next = INSULATION_CLASSES.find((each) => {
    const insulation = { ...wire.insulation, temperature: `${each} C` };
    const other = { ...conductor, wire: { ...wire, insulation } };
    const own = ZERO_CELSIUS + each;
    const rise = size === undefined ? 0 : riseOf(ampacityAtSize(analysis, other, size), own, most);
    return air + rise < own - ROOM;
  });
  return next === undefined ? [] : [insulateForHeat(wire, ZERO_CELSIUS + next)];
}

/** Thicker wire lets a little more current through and gets a little hotter for it. */
const ROOM: Kelvin = 2;

/** Known, and not thicker than the table goes. */
const surelyKnown = (ampacity: WireAmpacity): boolean => ampacity.known && ampacity.high !== Infinity;

/** (class - 30 C) x (current/ampacity)2, of the class whose column the ampacity was read from. */
function riseOf(ampacity: WireAmpacity, insulation: Kelvin, current: Ampere): Kelvin {
  const column = insulationClass(insulation);
  if (!ampacity.known || column === undefined) return 0;
  return (column + ZERO_CELSIUS - TABLE_AIR) * (current / ampacity.inCoolAir) ** 2;
}

function hottestStates(current: WireCurrent, least: Ampere): readonly string[] {
  return [...new Set(current.states.flatMap(({ state, low }) => (least > 0 && low >= 0.99 * least ? [state] : [])))];
}
