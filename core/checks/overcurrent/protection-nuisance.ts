import type { Analysis } from "../../circuit/analysis.ts";
import type { Transition } from "../../circuit/transition/transition.ts";
import type { NetworkPart } from "../../network/network.ts";
import { CONTINUOUS_SHARE, CONTINUOUS_SOURCE } from "../../standards/overcurrent.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { faults } from "../../studies/words/faults.ts";
import { unstatedRanges } from "../../studies/words/wire-currents.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { curveFields, distinct } from "../words/curve-fields.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import { largerDevice } from "../remedies/device-choice.ts";
import { pulsesThrough, switchingOn } from "../../studies/words/inrush.ts";
import { partPlace } from "../words/places.ts";

export const protectionNuisance = defineCheck({
  id: "protection-nuisance",
  group: "overcurrent",
  title: "Fuse or breaker that opens when nothing is wrong",
  about:
    "Compares the steady current of each fuse and breaker in every operating state with 80 % of its rating, and what rushes through it while key, drive or charger are switched on with what melts it. In hot air a fuse carries less than its rating; by how much only its maker says, so that it is not reckoned here.",
  severities: ["NOTICE"],
  source: CONTINUOUS_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    load: {
      title:
        "{device} ({rating}) carries {current} in {states}; {limit} is the most that it should carry continuously.",
      why: "A fuse that runs near its rating ages, gets hot in its holder, and opens one day on a hill although nothing is wrong.",
      mend: "Fit one of at least {least} if the wires behind it may carry that, or divide the load.",
    },
    over: {
      title: "{device} is rated {rating} and carries {current} in {states}.",
      why: "It opens after minutes or hours although nothing is wrong, and until then it and its holder get hot.",
      mend: "Fit one of at least {least} if the wires behind it may carry that, or divide the load.",
    },
    inrush: {
      title: "Switching on sends a pulse of up to {current} through {device} ({rating}), enough to melt it.",
      why: "The fuse blows when the vehicle is switched on, at once or after some weeks, and the next larger one no longer protects the wire.",
      mend: "Charge the capacitors behind {device} through a resistor first, or fit a slower fuse.",
    },
  },
  reasons: {
    rating: "The rating of {device} is not stated.",
    current: "How much current {device} carries steadily is not known.",
    range: "Whether {device} runs too near its rating depends on figures that are only known as a range.",
    inrush: "Whether {device} stands what rushes through it when something is switched on is not known.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
    "precharge-missing",
    "holder-underrated",
  ],
  run(analysis, report) {
    const transitions = switchingOn(analysis);
    const fed = consumersBehind(analysis);
    for (const device of devices(analysis).values()) {
      look(analysis, { device, transitions, behind: fed.get(device) ?? new Set() }, report);
    }
  },
});

/** Parts that a short circuit at their terminals reaches through a device. */
function consumersBehind(analysis: Analysis): ReadonlyMap<Device, ReadonlySet<string>> {
  const fed = new Map<Device, Set<string>>();
  for (const fault of faults(analysis)) {
    if (fault.consumer === undefined) continue;
    for (const device of fault.devices) {
      const parts = fed.get(device) ?? new Set<string>();
      fed.set(device, parts.add(fault.consumer.part.id));
    }
  }
  return fed;
}

/** What little electronics draw beside a load that uses the share up is no reason to fit another fuse: common practice, no source. */
const SLACK = 0.005;

interface Looked {
  readonly device: Device;
  readonly transitions: readonly Transition[];
  readonly behind: ReadonlySet<string>;
}

function look(analysis: Analysis, looked: Looked, report: Report): void {
  const { device } = looked;
  const place = partPlace(device.part);
  const facts = { device: { place } } as const;
  const open = (reason: string, missing: readonly MissingField[]): void =>
    report.notChecked({ where: [place], reason, facts, missing });
  const { rating, ratingField } = device;
  if (rating === undefined) {
    open("rating", [ratingField]);
    return;
  }
  const load = branchLoad(analysis, device.branch);
  const limit = rating * CONTINUOUS_SHARE;
  const common = { severity: "NOTICE", where: [place], unit: "A" } as const;
  const rated = { ...facts, rating: { value: rating, dimension: "current" } } as const;
  if (load.low > limit * (1 + SLACK)) {
    report.fails({
      ...common,
      message: load.low > rating ? "over" : "load",
      facts: {
        ...rated,
        current: { value: load.low, dimension: "current" },
        limit: { value: limit, dimension: "current" },
        least: { value: load.low / CONTINUOUS_SHARE, dimension: "current" },
        states: { states: load.states },
      },
      states: load.states,
      value: load.low,
      limit,
      touches: [...looked.behind].map((part) => ({ part })),
      remedies: largerDevice(analysis, device, load),
    });
    return;
  }
  const rush = inrushOf(looked);
  if (rush.melts !== undefined) {
    report.fails({
      ...common,
      message: "inrush",
      facts: { ...rated, current: { value: rush.melts, dimension: "current" } },
      value: rush.melts,
      limit: rating,
      variant: "inrush",
      touches: [...looked.behind].map((part) => ({ part })),
    });
    return;
  }
  if (load.unknown) open("current", load.missing);
  else if (load.high > limit * (1 + SLACK)) open("range", unstatedRanges(analysis));
  else if (rush.missing !== undefined) open("inrush", rush.missing);
  else report.passes(place);
}

function isCapacitance({ kind }: NetworkPart, parameter: string): boolean {
  const spec = kind.parameters[parameter];
  return spec !== undefined && "dimension" in spec && spec.dimension === "capacitance";
}

/** The peak of a pulse that surely melts it; else what to state, if some pulse may. */
function inrushOf({ device, transitions, behind }: Looked): {
  readonly melts: number | undefined;
  readonly missing: readonly MissingField[] | undefined;
} {
  const assumed = transitions.flatMap((transition) =>
    transition.assumed.flatMap(({ part, parameter }): MissingField[] =>
      behind.has(part.part.id) && isCapacitance(part, parameter) ? [{ part: part.part.id, parameter }] : [],
    ),
  );
  const pulses = transitions.flatMap((transition) => pulsesThrough(transition, device));
  // In time a fuse of stated curve blows and so cuts its own pulse short.
  const blows = transitions.filter(({ events }) =>
    events.some(({ what, branch }) => what === "blows" && branch === device.branch.index),
  );
  const melting = pulses.filter(
    ({ transition, energy, most }) => energy > most || blows.some(({ name }) => name === transition),
  );
  if (melting.length > 0 && assumed.length === 0) {
    return { melts: Math.max(...melting.map(({ peak }) => peak)), missing: undefined };
  }
  const doubtful = pulses.some(({ energy, least }) => energy > least);
  const missing = distinct([...assumed, ...(doubtful ? curveFields([device]) : [])]);
  return { melts: undefined, missing: missing.length > 0 || doubtful ? missing : undefined };
}
