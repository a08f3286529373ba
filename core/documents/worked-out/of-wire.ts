/** What the studies say of a wire: its current, what it carries and loses, a short circuit through it, the size it needs. */
import type { Conductor } from "../../network/network.ts";
import { VOLTAGE_DROP_SOURCE } from "../../standards/voltage-drop.ts";
import { prospectiveFaults } from "../../studies/prospective-current.ts";
import type { ProposedSize, WireSize } from "../../studies/wire-sizes.ts";
import { wireSizes } from "../../studies/wire-sizes.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { WireProtection } from "../../studies/wire-protection.ts";
import { DECIDES, deviceAt, NO_SINGLE, SHORT_TAP, UNPROTECTED } from "../size-words.ts";
import type { Wording, WorkedRow, WorkedSection } from "./worked-out.ts";
import { whenIn } from "./worked-out.ts";

/** Sections on a wire, one after another. Nothing for a wire with a loose end: it carries nothing. */
export function* ofWire(say: Wording, id: string): Generator<WorkedSection> {
  const { analysis } = say;
  const conductor = analysis.network.conductorByWire.get(id);
  if (conductor === undefined) {
    yield { title: "This wire", rows: [{ label: "Current", text: "none: one end of it is loose" }] };
    return;
  }
  const size = wireSizes(analysis).find((each) => each.conductor === conductor);
  if (size === undefined) return;
  const load = [currentRow(say, size), ampacityRow(say, conductor), ...dropRows(say, size)];
  yield { title: "What it carries and loses", rows: load };
  yield { title: "If something behind it is shorted", rows: [...shortRows(say, conductor), protectionRow(say, size)] };
  yield { title: "Size that it needs", rows: sizeRows(say, size) };
}

function currentRow(say: Wording, { current, states, open }: WireSize): WorkedRow {
  const missing = current === undefined ? open.flatMap((each) => each.missing) : [];
  const text = current === undefined ? "not known" : say.figure(current, "current");
  return { label: "Current, the most", text, note: whenIn(states), lacks: say.lacks(missing) };
}

function ampacityRow(say: Wording, conductor: Conductor): WorkedRow {
  const read = wireAmpacity(say.analysis, conductor);
  const label = "Ampacity as drawn";
  if (!read.known) {
    const text = read.why === "size" ? "not known" : "not in the table";
    return { label, text, lacks: say.lacks(read.missing) };
  }
  return {
    label,
    text: say.range(read.low, read.high, "current"),
    lacks: say.lacks(read.missing),
    sources: [read.source],
  };
}

function dropRows(say: Wording, { conductor, loop }: WireSize): readonly WorkedRow[] {
  if (loop === undefined) return [];
  const lost = loop.wires.map((each) => ({ ...each, volts: each.amperes * each.conductor.hot }));
  const own = lost.find((each) => each.conductor === conductor)?.volts;
  const all = lost.reduce((sum, { volts }) => sum + volts, 0);
  const consumer = loop.consumer.part.designation;
  const share = say.figure(loop.allowed / loop.volts, "ratio");
  return [
    {
      label: "Voltage lost, wire hot",
      text: say.figure(own, "voltage"),
      note: `${say.figure(all, "voltage")} out and back to ${consumer} in ${loop.state}; at most ${say.figure(loop.allowed, "voltage")} (${share} of ${say.figure(loop.volts, "voltage")})`,
      lacks: say.lacks(loop.missing),
      sources: [VOLTAGE_DROP_SOURCE],
    },
  ];
}

function shortRows(say: Wording, conductor: Conductor): readonly WorkedRow[] {
  const through = prospectiveFaults(say.analysis).flatMap((at) => {
    const own = at.conductors.find((each) => each.conductor === conductor);
    return own === undefined ? [] : [{ at, own }];
  });
  const worst = through.reduce<(typeof through)[number] | undefined>(
    (most, each) => (most === undefined || each.own.current.most > most.own.current.most ? each : most),
    undefined,
  );
  if (worst === undefined) return [];
  const { at, own } = worst;
  const heats = own.heatsTo === undefined ? "" : `; heats it to ${say.figure(own.heatsTo, "temperature")}`;
  const ends =
    at.cleared === undefined
      ? "not known when it ends"
      : at.cleared.most === Infinity
        ? "nothing is sure to end it"
        : `cleared within ${say.figure(at.cleared.most, "time")}${heats}`;
  return [
    {
      label: "Short-circuit current",
      text: say.range(own.current.least, own.current.most, "current"),
      note: ends,
      lacks: say.lacks(at.missing),
    },
  ];
}

function protectionRow(say: Wording, { protection }: WireSize): WorkedRow {
  return { label: "What protects it", text: protectionText(say, protection), lacks: say.lacks(protection.missing) };
}

function protectionText(say: Wording, { how, device, rating, limit }: WireProtection): string {
  const named =
    device === undefined ? undefined : deviceAt(how, device.part.part.designation, say.figure(rating, "current"));
  switch (how) {
    case "device":
    case "ahead":
      return named ?? "a fuse whose rating is not stated";
    case "tap":
      return named === undefined ? SHORT_TAP : `${SHORT_TAP} to ${device?.part.part.designation ?? ""}`;
    case "unprotected":
      return UNPROTECTED;
    case "limited":
      return limit === undefined ? "an output that limits itself" : `fed by at most ${say.figure(limit, "current")}`;
    case "none-needed":
      return "nothing drives a short circuit through it";
  }
}

function sizeRows(say: Wording, size: WireSize): readonly WorkedRow[] {
  const { metric, gauge, drawn, tooThinFor, study, open } = size;
  const tooThin = tooThinFor.map((each) => DECIDES[each]).join(", ");
  const proposals: readonly (readonly [string, ProposedSize | undefined])[] = [
    ["Smallest, metric", metric],
    ["Smallest, AWG", gauge],
  ];
  return [
    {
      label: "As drawn",
      text: drawn?.text ?? "no size stated",
      ...(tooThin === "" ? {} : { note: `too thin: ${tooThin}` }),
    },
    ...proposals.map(([label, proposed], index): WorkedRow => {
      const shared = index === 0 ? { inputs: inputsOf(say, size), sources: say.sources(study) } : {};
      if (proposed === undefined) return { label, text: NO_SINGLE, ...shared };
      const carries = `carries ${say.figure(proposed.ampacity, "current")}`;
      return {
        label,
        text: proposed.size.text,
        note: `${carries}; decided by ${decidedBy(say, size, proposed)}`,
        ...shared,
      };
    }),
    ...say.open(open),
  ];
}

function decidedBy(say: Wording, { protection: { how, device, rating } }: WireSize, { decides }: ProposedSize): string {
  if (decides !== "device" || device === undefined) return DECIDES[decides];
  return deviceAt(how, device.part.part.designation, say.figure(rating, "current"));
}

/** The voltage drop is judged for the whole loop of a consumer: its length stands for the wire's own. */
function inputsOf(say: Wording, { study, loop }: WireSize): readonly string[] {
  if (loop === undefined) return say.inputs(study);
  const own = study.inputs.filter(({ dimension }) => dimension !== "length");
  const length = loop.length === undefined ? [] : [`Length of its loop: ${say.figure(loop.length, "length")} (stated)`];
  return [...say.inputs({ ...study, inputs: own }), ...length];
}
