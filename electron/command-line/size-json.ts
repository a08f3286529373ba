/** Proposed conductors and fuses as plain figures: the document of `size --json`. SI units; null = no figure. */
import type { Analysis } from "../../core/circuit/analysis.ts";
import { Names } from "../../core/checks/text.ts";
import type { ConductorSize } from "../../core/quantity/size.ts";
import type { Source } from "../../core/standards/source.ts";
import type { Criterion } from "../../core/studies/cable-size.ts";
import { fuseSizes } from "../../core/studies/fuse-sizes.ts";
import type { DeviceShortfall, FuseSize } from "../../core/studies/fuse-sizes.ts";
import type { MissingField } from "../../core/studies/missing-field.ts";
import type { Input, Step, Study } from "../../core/studies/study.ts";
import { wireSizes } from "../../core/studies/wire-sizes.ts";
import type { ProposedSize, WireSize } from "../../core/studies/wire-sizes.ts";

interface ShownInput {
  readonly name: string;
  readonly value: number | string | null;
  readonly unit: string;
  readonly from: string;
}
interface ShownStep {
  readonly name: string;
  readonly value: number | null;
  readonly unit: string;
  readonly source: Source;
}
interface ShownOpen {
  readonly what: string;
  readonly missing: readonly string[];
}
interface Shown {
  readonly inputs: readonly ShownInput[];
  readonly steps: readonly ShownStep[];
  readonly open: readonly ShownOpen[];
}

interface SizedConductor {
  readonly size: string;
  /** m2 */
  readonly area: number;
}
interface ShownProposal extends SizedConductor {
  readonly decides: Criterion;
  readonly ampacity: number | null;
}

export interface SizedWire extends Shown {
  readonly wire: string;
  readonly id: string;
  readonly from: string | null;
  readonly to: string | null;
  readonly current: number | null;
  readonly states: readonly string[];
  readonly drawn: SizedConductor | null;
  readonly proposed: { readonly metric: ShownProposal | null; readonly gauge: ShownProposal | null };
  readonly protection: {
    readonly how: string;
    readonly device: string | null;
    readonly rating: number | null;
    readonly letThrough: number | null;
  };
  readonly tooThinFor: readonly Criterion[];
}

export interface SizedDevice extends Shown {
  readonly device: string;
  readonly id: string;
  readonly current: number | null;
  readonly states: readonly string[];
  readonly drawn: {
    readonly rating: number | null;
    readonly class: string | null;
    readonly voltageDc: number | null;
    readonly interrupting: number | null;
  };
  readonly proposed: {
    readonly rating: number | null;
    readonly decides: string | null;
    readonly class: string | null;
    readonly voltageDc: number | null;
    readonly interrupting: number | null;
    readonly source: Source;
  };
  /** The largest that its cables allow. */
  readonly most: number | null;
  readonly prospective: { readonly least: number | null; readonly most: number | null };
  readonly wires: readonly string[];
  readonly fallsShort: readonly DeviceShortfall[];
  readonly bursts: readonly { readonly part: string; readonly current: number; readonly carried: number | null }[];
}

export interface SizeDocument {
  readonly format: "loomwright-size";
  readonly version: 1;
  readonly wires: readonly SizedWire[];
  readonly devices: readonly SizedDevice[];
  readonly counts: {
    readonly wires: number;
    readonly devices: number;
    readonly falling: number;
    readonly open: number;
  };
}

const UNITS: Readonly<Record<string, string>> = {
  current: "A",
  voltage: "V",
  resistance: "ohm",
  length: "m",
  size: "m2",
  time: "s",
  temperature: "K",
  ratio: "1",
  count: "1",
  energy: "J",
  power: "W",
  capacitance: "F",
};

function figure(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : value + 0;
}

const inputOf = ({ name, value, dimension, from }: Input): ShownInput => ({
  name,
  value: typeof value === "number" ? figure(value) : (value ?? null),
  unit: dimension === undefined ? "" : (UNITS[dimension] ?? ""),
  from,
});

const stepOf = ({ name, value, dimension, source }: Step): ShownStep => ({
  name,
  value: figure(value),
  unit: UNITS[dimension] ?? "",
  source,
});

function shown<Question, Answer>(
  names: Names,
  study: Study<Question, Answer>,
  open: readonly { readonly what: string; readonly missing: readonly MissingField[] }[],
): Shown {
  return {
    inputs: study.inputs.map(inputOf),
    steps: study.steps.map(stepOf),
    open: open.map(({ what, missing }) => ({ what, missing: missing.map((field) => names.missing(field)) })),
  };
}

const sized = ({ text, area }: ConductorSize): SizedConductor => ({ size: text, area });

function proposal(own: ProposedSize | undefined): ShownProposal | null {
  return own === undefined ? null : { ...sized(own.size), decides: own.decides, ampacity: figure(own.ampacity) };
}

function wireOf(analysis: Analysis, names: Names, size: WireSize): SizedWire {
  const { wire } = size.conductor;
  const { how, device, rating, letThrough } = size.protection;
  const [from, to] = wire.ends.map((end) => (end === null ? null : analysis.network.label(end)));
  return {
    wire: names.wire(wire.id),
    id: wire.id,
    from: from ?? null,
    to: to ?? null,
    current: figure(size.current),
    states: size.states,
    drawn: size.drawn === undefined ? null : sized(size.drawn),
    proposed: { metric: proposal(size.metric), gauge: proposal(size.gauge) },
    protection: {
      how,
      device: device === undefined ? null : device.part.part.designation,
      rating: figure(rating),
      letThrough: figure(letThrough),
    },
    tooThinFor: size.tooThinFor,
    ...shown(names, size.study, size.open),
  };
}

function deviceOf(names: Names, size: FuseSize): SizedDevice {
  const { part, values } = size.device.part;
  const { answer } = size.study;
  const isFuse = "curve" in size.device.part.kind.parameters;
  return {
    device: part.designation,
    id: part.id,
    current: figure(size.question.continuous),
    states: size.states,
    drawn: {
      rating: figure(size.device.rating),
      class: values.choice("curve") ?? null,
      voltageDc: figure(values.number("voltageDc")),
      interrupting: figure(values.number("interrupting")),
    },
    proposed: {
      rating: figure(answer.rating),
      decides: answer.decides ?? null,
      class: isFuse ? answer.fuseClass : null,
      voltageDc: figure(answer.voltageDc),
      interrupting: figure(answer.interrupting),
      source: answer.classSource,
    },
    most: figure(answer.most),
    prospective: { least: figure(size.prospective?.least), most: figure(size.prospective?.most) },
    wires: size.wires.map(({ wire }) => names.wire(wire.id)),
    fallsShort: size.fallsShort,
    bursts: size.bursts.map(({ part: at, current, carried }) => ({
      part: at.part.designation,
      current,
      carried: figure(carried),
    })),
    ...shown(names, size.study, size.open),
  };
}

/** Wires and devices in the order of the document. */
export function sizeJson(analysis: Analysis): SizeDocument {
  const names = new Names(analysis.network.project);
  const wires = wireSizes(analysis).map((size) => wireOf(analysis, names, size));
  const devices = fuseSizes(analysis).map((size) => deviceOf(names, size));
  return {
    format: "loomwright-size",
    version: 1,
    wires,
    devices,
    counts: {
      wires: wires.length,
      devices: devices.length,
      falling:
        wires.filter(({ tooThinFor }) => tooThinFor.length > 0).length +
        devices.filter(({ fallsShort }) => fallsShort.length > 0).length,
      open: [...wires, ...devices].filter(({ open }) => open.length > 0).length,
    },
  };
}
