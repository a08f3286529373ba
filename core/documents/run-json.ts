/** One transition as plain figures: the document of `run --json`, which the window shows as well. SI units; null = no figure (afloat, a loose wire). */
import { Names } from "../checks/text.ts";
import type { Analysis } from "../circuit/analysis.ts";
import type { Transition } from "../circuit/transition/transition.ts";
import { compareTerminals } from "../network/natural-order.ts";
import type { BranchIndex, Net, NetworkPart } from "../network/network.ts";

/** Samples of a curve that are told, at most (and those at both sides of each jump): enough for a plot. */
const MOST_SAMPLES = 400;

export interface RunDocument {
  readonly transition: string;
  readonly from: string;
  readonly to: string;
  /** Seconds; two samples at one time are just before and just after a jump. */
  readonly times: readonly number[];
  readonly nets: readonly { readonly name: string; readonly volts: readonly (number | null)[] }[];
  readonly wires: readonly { readonly wire: string; readonly id: string; readonly amps: readonly (number | null)[] }[];
  readonly events: readonly {
    readonly time: number;
    readonly part: string | null;
    readonly id: string | null;
    readonly what: string;
    readonly reason: string;
    readonly value: number | null;
    readonly limit: number | null;
    readonly unit: string | null;
  }[];
  readonly closings: readonly (PartFigures & {
    readonly time: number;
    readonly contact: string;
    readonly voltsBefore: number;
    readonly peakAmps: number;
    readonly ampsAfter: number;
  })[];
  readonly openings: readonly (PartFigures & {
    readonly time: number;
    readonly contact: string;
    readonly amps: number;
    readonly voltsAfter: number;
  })[];
  readonly resistors: readonly (PartFigures & {
    readonly energy: number;
    readonly peakPower: number;
    readonly endPower: number;
  })[];
  readonly coils: readonly (PartFigures & {
    readonly time: number;
    readonly peakVolts: number;
    readonly decay: number;
  })[];
  readonly discharges: readonly (PartFigures & {
    readonly from: number;
    readonly startVolts: number;
    readonly endVolts: number;
    /** Seconds from the loss of its feed until 60 V; null = not reached in the time that was looked at. */
    readonly below60: number | null;
    readonly drain: number | null;
  })[];
  readonly chatter: readonly string[];
  readonly assumed: readonly { readonly part: string; readonly id: string; readonly parameter: string }[];
  readonly trouble: string | null;
}

interface PartFigures {
  readonly part: string;
  readonly id: string;
}

const figure = (value: number | undefined): number | null =>
  value === undefined || !Number.isFinite(value) ? null : value + 0;

/** Samples of a transition's times that are told: both sides of every jump, and evenly spread ones between. */
export function toldSamples(times: Float64Array): readonly number[] {
  const step = Math.max(1, Math.ceil(times.length / MOST_SAMPLES));
  const samples: number[] = [];
  for (let k = 0; k < times.length; k += 1) {
    const jump = times[k] === times[k + 1] || times[k] === times[k - 1];
    if (jump || k % step === 0 || k === times.length - 1) samples.push(k);
  }
  return samples;
}

/** The figures of one transition; nets and wires in the order of the document. */
export function runJson(analysis: Analysis, transition: Transition): RunDocument {
  const { network } = analysis;
  const names = new Names(network.project);
  const samples = toldSamples(transition.times);
  const curve = (values: Float64Array): (number | null)[] => samples.map((k) => figure(values[k]));
  const named = ({ part }: NetworkPart): PartFigures => ({ part: part.designation, id: part.id });
  const branchName = (branch: BranchIndex): string => network.branches[branch]?.name ?? "";
  const designation = (id: string): string => network.partById.get(id)?.part.designation ?? id;
  const netVolts = (net: Net): (number | null)[] => {
    const first = [...net.terminals].sort(compareTerminals(designation))[0];
    const node = first === undefined ? net.nodes[0] : network.nodeOf(first);
    return node === undefined ? samples.map(() => null) : curve(transition.volts(node));
  };
  return {
    transition: transition.name,
    from: transition.from,
    to: transition.to,
    times: samples.map((k) => transition.times[k] ?? 0),
    nets: network.nets
      .filter((net) => net.terminals.length > 0)
      .map((net) => ({ name: net.name, volts: netVolts(net) })),
    wires: network.project.wires.map(({ id }) => {
      const conductor = network.conductorByWire.get(id);
      const amps = conductor === undefined ? samples.map(() => null) : curve(transition.currents(conductor.branch));
      return { wire: names.wire(id), id, amps };
    }),
    events: transition.events.map(({ time, part, what, reason, value, limit, unit }) => ({
      time,
      part: part?.part.designation ?? null,
      id: part?.part.id ?? null,
      what,
      reason,
      value: figure(value),
      limit: figure(limit),
      unit: unit ?? null,
    })),
    closings: transition.closings.map(({ time, part, branch, voltsBefore, peak, after }) => ({
      time,
      ...named(part),
      contact: branchName(branch),
      voltsBefore,
      peakAmps: peak,
      ampsAfter: after,
    })),
    openings: transition.openings.map(({ time, part, branch, current, voltsAfter }) => ({
      time,
      ...named(part),
      contact: branchName(branch),
      amps: current,
      voltsAfter,
    })),
    resistors: transition.resistors.map(({ part, energy, peakPower, endPower }) => ({
      ...named(part),
      energy,
      peakPower,
      endPower,
    })),
    coils: transition.turnOffs.map(({ time, part, peak, decay }) => ({ time, ...named(part), peakVolts: peak, decay })),
    discharges: transition.discharges.map(({ part, from, start, end, below60, drain }) => ({
      ...named(part),
      from,
      startVolts: start,
      endVolts: end,
      below60: figure(below60),
      drain: figure(drain),
    })),
    chatter: transition.chatter.map(({ part }) => part.designation),
    assumed: transition.assumed.map(({ part, parameter }) => ({ ...named(part), parameter })),
    trouble: transition.trouble ?? null,
  };
}
