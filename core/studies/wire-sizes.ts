/**
 * The conductor that each wire of a drawing needs, read off the solved circuit: `chooseConductor` for every wire by
 * itself, then `sizesForLoops` for the voltage that whole loops may lose.
 */
import type { Analysis } from "../circuit/analysis.ts";
import type { Conductor } from "../network/network.ts";
import type { Ampere, Kelvin } from "../quantity/kinds.ts";
import { parseQuantity, parseSize } from "../quantity/parse.ts";
import { smallestSizeAbove } from "../quantity/size.ts";
import type { ConductorSize } from "../quantity/size.ts";
import { protectiveArea } from "../standards/protective-conductor.ts";
import { ampacityThere, chooseConductor, fallsShortOf } from "./cable-size.ts";
import type { ConductorAnswer, ConductorQuestion, Criterion } from "./cable-size.ts";
import { sizesForLoops } from "./loop-sizes.ts";
import type { Loop } from "./loop-sizes.ts";
import type { MissingField } from "./missing-field.ts";
import type { Study } from "./study.ts";
import { strictestLoops, wireLoops } from "./wire-loops.ts";
import type { WireLoop } from "./wire-loops.ts";
import { NONE_NEEDED, wireProtections } from "./wire-protection.ts";
import type { WireProtection } from "./wire-protection.ts";
import { belongingAt } from "./words/belongs.ts";
import { coverOf, wireLength } from "./words/run-length.ts";
import { wireSurroundings } from "./words/wire-ampacity.ts";
import { wireCurrents } from "./words/wire-currents.ts";

/** A size for a wire, and what decided it. */
export interface ProposedSize {
  readonly size: ConductorSize;
  readonly decides: Criterion;
  readonly ampacity: Ampere;
}

export interface WireSize {
  readonly conductor: Conductor;
  /** The most, and the states in which it flows; undefined: unknown. */
  readonly current: Ampere | undefined;
  readonly states: readonly string[];
  readonly protection: WireProtection;
  /** The strictest loop in which it lies. */
  readonly loop: WireLoop | undefined;
  readonly question: ConductorQuestion;
  /** Everything but the voltage drop of whole loops. */
  readonly study: Study<ConductorQuestion, ConductorAnswer>;
  /** Undefined: no single conductor of the system is large enough. */
  readonly metric: ProposedSize | undefined;
  readonly gauge: ProposedSize | undefined;
  /** As typed, read. */
  readonly drawn: ConductorSize | undefined;
  /** What the drawn size falls short of. */
  readonly tooThinFor: readonly Criterion[];
  /** What could not be judged, with what to state. */
  readonly open: readonly { readonly what: string; readonly missing: readonly MissingField[] }[];
}

const remembered = new WeakMap<Analysis, readonly WireSize[]>();

/** Every wire with both ends connected, in the order of the document. */
export function wireSizes(analysis: Analysis): readonly WireSize[] {
  let all = remembered.get(analysis);
  if (all === undefined) remembered.set(analysis, (all = find(analysis)));
  return all;
}

interface Asked {
  readonly conductor: Conductor;
  readonly current: Current;
  readonly protection: WireProtection;
  readonly loop: WireLoop | undefined;
  readonly question: ConductorQuestion;
  readonly study: Study<ConductorQuestion, ConductorAnswer>;
}

function find(analysis: Analysis): readonly WireSize[] {
  const loops = wireLoops(analysis);
  const strictest = strictestLoops(loops);
  const asked = analysis.network.conductors.map((conductor): Asked => {
    const protection = wireProtections(analysis).get(conductor) ?? NONE_NEEDED;
    const current = currentOf(analysis, conductor, protection);
    const loop = strictest.get(conductor);
    const question = questionOf(analysis, conductor, loop, current, protection);
    return { conductor, current, protection, loop, question, study: chooseConductor(question) };
  });
  const raise = (system: "metric" | "gauge"): ReadonlyMap<Conductor, ConductorSize | undefined> => {
    const start = new Map(
      asked.flatMap(({ conductor, study }): [Conductor, ConductorSize][] => {
        const own = study.answer[system];
        return own === undefined ? [] : [[conductor, own.size]];
      }),
    );
    return sizesForLoops(known(loops), start);
  };
  const [metric, gauge] = [raise("metric"), raise("gauge")];
  const failing = new Set(loops.flatMap(({ holds, wires }) => (holds ? [] : wires.map(({ conductor }) => conductor))));
  const sizes = asked.map((each) =>
    sizeOf(each, metric.get(each.conductor), gauge.get(each.conductor), failing.has(each.conductor)),
  );
  return sizes.map((each) => asBond(each, sizes));
}

/** The part whose metal case a wire bonds. */
function bondedPart({ wire }: Conductor): string | undefined {
  return wire.ends.find((end) => end?.[1] === "case")?.[0];
}

/** A bond carries nothing until something fails: it is as thick as the live wires of its part ask for. */
function asBond(own: WireSize, all: readonly WireSize[]): WireSize {
  const part = bondedPart(own.conductor);
  if (part === undefined) return own;
  const live = all.filter(
    ({ conductor }) => bondedPart(conductor) === undefined && conductor.wire.ends.some((end) => end?.[0] === part),
  );
  const raised = (system: "metric" | "gauge"): ProposedSize | undefined => {
    const proposed = own[system];
    const thickest = Math.max(0, ...live.map((each) => each[system]?.size.area ?? 0));
    const size = smallestSizeAbove(protectiveArea(thickest) * 0.9999, system === "metric" ? "mm2" : "AWG");
    if (proposed === undefined || size === undefined || size.area <= proposed.size.area * 1.0001) return proposed;
    return { size, decides: "bond", ampacity: ampacityThere(size, own.question) ?? proposed.ampacity };
  };
  // Vehicle law asks for a resistance, not for an area: a thinner bond as drawn is not called too thin.
  return { ...own, metric: raised("metric"), gauge: raised("gauge") };
}

/** Loops of known lengths. */
function known(loops: readonly WireLoop[]): readonly Loop<Conductor>[] {
  return loops.flatMap(({ allowed, length, wires }) =>
    length === undefined
      ? []
      : [
          {
            allowed,
            wires: wires.map(({ conductor, amperes }) => ({
              key: conductor,
              amperes,
              length: wireLength(conductor) ?? 0,
              insulation: temperatureOf(conductor),
            })),
          },
        ],
  );
}

interface Current {
  readonly amperes: Ampere | undefined;
  readonly states: readonly string[];
  readonly missing: readonly MissingField[];
}

function currentOf(analysis: Analysis, conductor: Conductor, protection: WireProtection): Current {
  const own = wireCurrents(analysis).get(conductor);
  const missing = [...(own?.drive ?? []), ...(own?.unlimited ?? [])];
  if (own === undefined || missing.length > 0) return { amperes: undefined, states: [], missing };
  const { most } = own;
  const states = own.states.flatMap(({ state, high }) => (most > 0 && high >= most * 0.999 ? [state] : []));
  // An output without a device is its own: the wire has to carry what it can give.
  const amperes = protection.how === "limited" ? Math.max(most, protection.limit ?? 0) : most;
  return { amperes, states: [...new Set(states)], missing: [] };
}

function temperatureOf({ wire }: Conductor): Kelvin | undefined {
  const typed = wire.insulation?.temperature;
  const reading = typed == null ? undefined : parseQuantity(typed, "temperature");
  return reading?.ok === true ? reading.value : undefined;
}

/** Voltage drop is judged for whole loops afterwards: here the loop has no length, unless it is no consumer's. */
function questionOf(
  analysis: Analysis,
  conductor: Conductor,
  loop: WireLoop | undefined,
  current: Current,
  protection: WireProtection,
): ConductorQuestion {
  const around = wireSurroundings(analysis, conductor);
  const { traction, auxiliary } = belongingAt(analysis, conductor.a);
  const volts = loop?.volts ?? Math.max(0, ...[...traction, ...auxiliary].map(({ rest }) => rest));
  const own = wireLength(conductor);
  return {
    current: current.amperes,
    volts,
    highest: around.volts,
    // Of no consumer: the way back is taken to be as long. What no battery reaches loses nothing that counts.
    loop: loop !== undefined || volts === 0 ? 0 : own === undefined ? undefined : 2 * own,
    critical: loop?.critical ?? true,
    insulation: temperatureOf(conductor),
    material: conductor.wire.insulation?.material,
    ambient: around.ambient,
    engineSpace: around.engineSpace,
    bundled: around.bundled,
    sheathed: coverOf(analysis, conductor) === "sheath",
    device: protection.how === "none-needed" ? undefined : protection.rating,
    letThrough: protection.letThrough,
  };
}

function sizeOf(
  { conductor, current, protection, loop, question, study }: Asked,
  metric: ConductorSize | undefined,
  gauge: ConductorSize | undefined,
  loses: boolean,
): WireSize {
  const typed = conductor.wire.size == null ? undefined : parseSize(conductor.wire.size);
  const drawn = typed?.ok === true ? typed.size : undefined;
  const proposed = (system: "metric" | "gauge", size: ConductorSize | undefined): ProposedSize | undefined => {
    const own = study.answer[system];
    if (own === undefined || size === undefined) return undefined;
    const decides = size.area > own.size.area * 1.0001 ? "voltage-drop" : own.decides;
    return { size, decides, ampacity: ampacityThere(size, question) ?? own.ampacity };
  };
  const isThinner = drawn !== undefined && (metric === undefined || drawn.area < metric.area * 0.9999);
  return {
    conductor,
    current: current.amperes,
    states: current.states,
    protection,
    loop,
    question,
    study,
    metric: proposed("metric", metric),
    gauge: proposed("gauge", gauge),
    drawn,
    tooThinFor:
      drawn === undefined
        ? []
        : [...fallsShortOf(drawn, question), ...(loses && isThinner ? (["voltage-drop"] as const) : [])],
    open: openOf(conductor, question, current, loop, protection, study),
  };
}

/** What stays open, in fields of the drawing; what does not apply to the wire is no gap. */
function openOf(
  { wire }: Conductor,
  question: ConductorQuestion,
  current: Current,
  loop: WireLoop | undefined,
  protection: WireProtection,
  study: Study<ConductorQuestion, ConductorAnswer>,
): WireSize["open"] {
  const length: MissingField = { wire: wire.id, field: "length" };
  const own = study.open.flatMap(({ what, lacks }) => {
    const applies = protection.how === "device" || (what === "device" && protection.how === "ahead");
    if (what === "device" || what === "short-circuit") return applies ? [{ what, missing: protection.missing }] : [];
    const missing = [
      ...(lacks.includes("current") ? current.missing : []),
      ...(lacks.includes("loop") ? [length] : []),
    ];
    return [{ what, missing }];
  });
  const isKnown = own.some(({ what }) => what === "voltage-drop");
  const drop =
    loop?.length === undefined && loop !== undefined && !isKnown
      ? [{ what: "voltage-drop", missing: loop.missing }]
      : [];
  const insulation: MissingField = { wire: wire.id, field: "insulation.temperature" };
  const unstated = question.insulation === undefined ? [{ what: "insulation", missing: [insulation] }] : [];
  return [...own, ...drop, ...unstated];
}
