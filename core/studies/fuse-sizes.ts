/** The fuse that each protected branch of a drawing needs, read off the solved circuit: `chooseFuse` for every device. */
import type { Analysis } from "../circuit/analysis.ts";
import type { Conductor, NetworkPart } from "../network/network.ts";
import type { Ampere, Kelvin, Second, Volt } from "../quantity/kinds.ts";
import { parseQuantity } from "../quantity/parse.ts";
import { CONTINUOUS_SHARE } from "../standards/overcurrent.ts";
import type { FuseClass } from "../standards/fuse-times.ts";
import { ampacityThere } from "./cable-size.ts";
import { clearingDevice, clearingTime } from "./fuse-clearing.ts";
import { chooseFuse } from "./fuse-choice.ts";
import type { FuseAnswer, FuseQuestion, Inrush } from "./fuse-choice.ts";
import type { MissingField } from "./missing-field.ts";
import { behindDevice, currentBehind, prospectiveFaults } from "./prospective-current.ts";
import type { CurrentRange } from "./prospective-current.ts";
import type { Study } from "./study.ts";
import { wireSizes } from "./wire-sizes.ts";
import type { WireSize } from "./wire-sizes.ts";
import { branchLoad } from "./words/branch-load.ts";
import type { Device } from "./words/devices.ts";
import { devices } from "./words/devices.ts";
import { walks } from "./words/fault-walk.ts";
import type { Feed } from "./words/feeds.ts";
import { surgesAbove, switchingOn } from "./words/inrush.ts";
import { unstatedChemistry } from "./words/highest.ts";
import { nominalVoltage } from "./words/nominal-voltage.ts";

/**
 * What the device as drawn does not do: carry the load for good, protect its cable, break the voltage, break the
 * short-circuit current.
 */
export type DeviceShortfall = "load" | "cable" | "voltage" | "interrupting";

/** A controller that may draw more than its continuous current for a while. */
export interface Burst {
  readonly part: NetworkPart;
  readonly current: Ampere;
  /** The device as drawn carries it this long for sure; undefined: not known. */
  readonly carried: Second | undefined;
}

export interface FuseSize {
  readonly device: Device;
  readonly states: readonly string[];
  /** Wires that it protects. */
  readonly wires: readonly Conductor[];
  readonly question: FuseQuestion;
  readonly study: Study<FuseQuestion, FuseAnswer>;
  /** Between the two ends of the batteries' resistance. */
  readonly prospective: CurrentRange | undefined;
  readonly fallsShort: readonly DeviceShortfall[];
  readonly bursts: readonly Burst[];
  readonly open: readonly { readonly what: string; readonly missing: readonly MissingField[] }[];
}

/** Every fuse and breaker that a source reaches, but those inside battery packs, in the order of the document. */
export function fuseSizes(analysis: Analysis): readonly FuseSize[] {
  const wires = wireSizes(analysis);
  return [...devices(analysis).values()].flatMap((device) =>
    device.inside ? [] : (sizeOf(analysis, device, wires) ?? []),
  );
}

/** The air at a part: of its zone, or of the zone of its enclosure; an engine space of unstated air has 50 C. */
function ambientAt(analysis: Analysis, { part }: NetworkPart): Kelvin | undefined {
  const { zones, enclosures } = analysis.network.project;
  const id = part.zone ?? enclosures.find((each) => each.id === part.enclosure)?.zone;
  const zone = zones.find((each) => each.id === id);
  const reading = zone?.ambient == null ? undefined : parseQuantity(zone.ambient, "temperature");
  if (reading?.ok === true) return reading.value;
  return zone?.kind === "engine" ? 323.15 : undefined;
}

/** Ampacity of the thinnest of these wires as drawn; undefined where none states its size. */
function thinnest(wires: readonly WireSize[]): Ampere | undefined {
  const each = wires.flatMap(({ drawn, question }) =>
    drawn === undefined ? [] : (ampacityThere(drawn, question) ?? []),
  );
  return each.length === 0 ? undefined : Math.min(...each);
}

/** What rushes through it above its steady load while key, drive or charger are switched on, as steady pulses of the same I2t. */
function inrushThrough(analysis: Analysis, device: Device, continuous: Ampere): readonly Inrush[] {
  return switchingOn(analysis)
    .flatMap((transition) => surgesAbove(transition, device.branch.index, continuous / CONTINUOUS_SHARE))
    .map(({ energy, duration }) => ({ current: Math.sqrt(energy / duration), time: duration }));
}

/** The curve that would tell whether it stands a pulse, where its kind has one. */
function curveOf({ part }: Device): readonly MissingField[] {
  return "curvePoints" in part.kind.parameters ? [{ part: part.part.id, parameter: "curvePoints" }] : [];
}

function sizeOf(analysis: Analysis, device: Device, all: readonly WireSize[]): FuseSize | undefined {
  const feed = behindDevice(analysis, device)?.walk.feed ?? outputFeed(analysis, device);
  if (feed === undefined) return undefined;
  const { part } = device;
  const wires = all.filter(({ protection }) => protection.how === "device" && protection.alike.includes(device));
  const load = branchLoad(analysis, device.branch);
  const continuous = load.unknown ? undefined : load.high;
  const prospective = currentBehind(analysis, device) ?? limitOf(feed);
  const { points } = clearingDevice(part);
  const question: FuseQuestion = {
    continuous,
    nominal: nominalVoltage(analysis, feed),
    highest: feed.pack?.highest ?? nominalVoltage(analysis, feed),
    ambient: ambientAt(analysis, part),
    inrush: continuous === undefined ? [] : inrushThrough(analysis, device, continuous),
    cable: thinnest(wires),
    prospective: prospective?.most,
    fuseClass: part.values.choice("curve") as FuseClass | undefined,
    points,
  };
  const study = chooseFuse(question);
  const missingFor: Readonly<Record<string, readonly MissingField[]>> = {
    rating: load.missing,
    cable: wires.map(({ conductor }) => ({ wire: conductor.wire.id, field: "size" })),
    inrush: curveOf(device),
    interrupting: feed.limitField === undefined ? [] : [feed.limitField],
  };
  const chemistry = feed.pack === undefined ? [] : unstatedChemistry([feed.pack]);
  return {
    device,
    states: load.states,
    wires: wires.map(({ conductor }) => conductor),
    question,
    study,
    prospective,
    fallsShort: fallsShortOf(device, question, study.answer, prospective),
    bursts: burstsOf(analysis, device),
    open: [
      ...study.open.map(({ what }) => ({ what, missing: missingFor[what] ?? [] })),
      ...(chemistry.length > 0 ? [{ what: "voltage", missing: chemistry }] : []),
      ...(prospective !== undefined && prospective.most > prospective.least * 1.001
        ? [{ what: "interrupting", missing: unstatedResistance(feed.parts) }]
        : []),
    ],
  };
}

/** A converter, charger or dc source that reaches a device which no battery does. */
function outputFeed(analysis: Analysis, { branch }: Device): Feed | undefined {
  return walks(analysis).find(({ feed, labels }) => !feed.storage && labels.has(branch.a) && labels.has(branch.b))
    ?.feed;
}

/** What an output drives into a short: its limit. */
const limitOf = ({ limit }: Feed): CurrentRange | undefined =>
  limit === undefined ? undefined : { least: limit, most: limit };

function unstatedResistance(parts: readonly NetworkPart[]): readonly MissingField[] {
  return parts.flatMap(({ part, values }): MissingField[] =>
    values.number("resistance") === undefined ? [{ part: part.id, parameter: "resistance" }] : [],
  );
}

/** Only what is sure: what is a range falls short where it does at both ends. */
function fallsShortOf(
  { rating, part }: Device,
  { continuous, highest }: FuseQuestion,
  { most }: FuseAnswer,
  prospective: CurrentRange | undefined,
): readonly DeviceShortfall[] {
  // What hot air takes has no source: it counts in what is proposed, not in what is called too small.
  const carries = (rating ?? Infinity) * CONTINUOUS_SHARE;
  const volts: Volt = part.values.number("voltageDc") ?? Infinity;
  const breaks: Ampere = part.values.number("interrupting") ?? Infinity;
  return [
    ...(continuous !== undefined && continuous > carries + 1e-9 ? (["load"] as const) : []),
    ...(rating !== undefined && most !== undefined && rating > most + 1e-9 ? (["cable"] as const) : []),
    ...(volts < highest ? (["voltage"] as const) : []),
    ...(prospective !== undefined && breaks < prospective.least ? (["interrupting"] as const) : []),
  ];
}

/** Controllers behind a device that state a greater current than their continuous one. */
function burstsOf(analysis: Analysis, device: Device): readonly Burst[] {
  const consumers = new Set(
    prospectiveFaults(analysis).flatMap(({ fault }) =>
      fault.consumer !== undefined && fault.devices.includes(device) ? [fault.consumer] : [],
    ),
  );
  return [...consumers].flatMap((part): Burst[] => {
    if (part.kind.traits.controller !== true) return [];
    const main = part.kind.supplyPairs(part.values).find((pair) => pair.main);
    const current = part.values.number("currentMax");
    if (main === undefined || current === undefined || !feedsPair(analysis, device, part, main.plus)) return [];
    return [{ part, current, carried: clearingTime(clearingDevice(device.part), current)?.least }];
  });
}

/** The short that this device clears is one across the controller's power terminals, not its logic supply. */
function feedsPair(analysis: Analysis, device: Device, part: NetworkPart, plus: string): boolean {
  const node = part.nodes.get(plus);
  return prospectiveFaults(analysis).some(
    ({ fault }) => fault.consumer === part && fault.devices.includes(device) && fault.from === node,
  );
}
