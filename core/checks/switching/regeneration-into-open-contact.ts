/** A bus that regeneration lifts above a rating because the pack can be cut off while the motor brakes. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Facts, MissingField, Remedy, Report } from "../define.ts";
import { ClosedFeed } from "../words/closed-feed.ts";
import { drives, isController, isPowered, movedBy, unstatedEnable, withMoved } from "../words/drive-enable.ts";
import { branchPlaces, partPlace } from "../words/places.ts";
import { fedBetween, packVolts } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

/** What carries less than this while driving is no part of the main circuit (common practice, no source). */
const LEAST: Ampere = 1;

export const regenerationIntoOpenContact = defineCheck({
  id: "regeneration-into-open-contact",
  group: "switching",
  title: "Pack cut off while the motor brakes",
  about:
    "Opens, while regenerating, every fuse, breaker and contact through which alone the pack reaches the controller, and looks what the bus then rises to: up to the controller's regeneration cut voltage, unless something on the bus takes the current. Where a contact of brake or pedal takes the enable away while the brake is pressed, it looks at the pedal half let up instead. It is held against the ratings of everything on the bus. How long the controller takes to stop is not counted.",
  severities: ["WARNING"],
  source: { text: "Common practice, no source; the regeneration cut is a setting of the controller", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    rises: {
      title:
        "If one of these opens ({openers}) while {part} regenerates, {rated} gets up to {volts}; it is made for {limit}.",
      why: "With the pack cut off the braking power has nowhere to go: the voltage rises within a moment, breaks transistors through and may lock the wheels.",
      mend: "Set the regeneration cut of {part} below the rating of everything on the same supply, and see that key, monitor and stop take regeneration away before the contactor opens.",
    },
  },
  reasons: {
    regeneration: "Whether {part} regenerates is not stated.",
    cut: "What {part} lifts its supply to when the pack is cut off ({openers}) while it regenerates is not stated.",
    rating: "What {part} stands on its supply when the pack is cut off ({openers}) while it regenerates is not stated.",
    never: "What happens if the pack is cut off while {part} regenerates cannot be told, as it never does.",
  },
  foldsUnder: ["overvoltage"],
  run(analysis, report) {
    const controllers = drives(analysis).filter(isController);
    if (controllers.length === 0) report.doesNotApply();
    for (const drive of controllers) lookAt(analysis, drive, report);
  },
});

function lookAt(analysis: Analysis, drive: TractionPair, report: Report): void {
  const { part, place } = drive;
  const facts = { part: { place: partPlace(part) } };
  const skip = (reason: string, parameter: string, more: Facts = {}): void =>
    report.notChecked({
      where: [place],
      reason,
      facts: { ...facts, ...more },
      missing: [{ part: part.part.id, parameter }],
    });
  const regenerates = part.values.choice("regeneration");
  if (regenerates === "no") {
    report.doesNotApply(place);
    return;
  }
  if (regenerates === undefined) {
    skip("regeneration", "regeneration");
    return;
  }
  const state = braking(analysis, drive);
  if (state === undefined) {
    const missing: readonly MissingField[] = unstatedEnable(analysis);
    report.notChecked({ where: [place], reason: "never", facts, missing });
    return;
  }
  const openers = openersOf(analysis, state, drive);
  const opening = { openers: { places: branchPlaces(openers) } };
  const cut = part.values.number("regenerationCutVoltage");
  if (openers.length === 0) report.passes(place);
  else if (cut === undefined) skip("cut", "regenerationCutVoltage", opening);
  else if (part.values.number("voltageMax") === undefined) skip("rating", "voltageMax", opening);
  else judge(analysis, state, drive, openers, report);
}

const isBraking = (state: SolvedState, { part }: TractionPair): boolean =>
  state.partStates[part.index]?.["drive"] === "regeneration";

/**
 * The motor at work as a brake: with the brake pressed, or, where a contact of brake or pedal then takes the enable away,
 * as the pedal is let up little by little.
 */
function braking(analysis: Analysis, drive: TractionPair): SolvedState | undefined {
  const pressed = analysis.state("regenerating");
  if (pressed === undefined || !isPowered(analysis, pressed, drive)) return undefined;
  if (isBraking(pressed, drive)) return pressed;
  const set = movedBy(analysis, pressed.condition, { throttle: "full", brake: "free" });
  const letUp = withMoved(analysis, pressed, set);
  return isPowered(analysis, letUp, drive) && isBraking(letUp, drive) ? letUp : undefined;
}

/** What opens the only way between pack and drive by itself. */
function openersOf(analysis: Analysis, state: SolvedState, drive: TractionPair): readonly Branch[] {
  const driving = analysis.state("driving") ?? state;
  return analysis.network.branches.filter(({ index, role, part }) => {
    if (part === undefined || (role !== "contact" && role !== "protection")) return false;
    const most = Math.max(Math.abs(driving.currents[index] ?? 0), Math.abs(state.currents[index] ?? 0));
    if (most < LEAST) return false;
    return fedBetween(analysis, new ClosedFeed(analysis, state, { without: new Set([index]) }), drive) === undefined;
  });
}

interface Excess {
  readonly part: NetworkPart;
  readonly volts: Volt;
  /** In volts. */
  readonly limit: number;
  readonly opener: Branch;
}

function judge(
  analysis: Analysis,
  state: SolvedState,
  drive: TractionPair,
  openers: readonly Branch[],
  report: Report,
): void {
  const excesses = openers.flatMap((opener) => {
    // Held: the output stage goes on for the moment in which nobody has told it.
    const opened = analysis.solveChanged(state, { open: [opener.index], hold: true });
    return excessesIn(analysis, state, opened, opener);
  });
  const worst = excesses.reduce<Excess | undefined>(
    (most, each) => (most === undefined || each.volts / each.limit > most.volts / most.limit ? each : most),
    undefined,
  );
  if (worst === undefined) {
    report.passes(drive.place);
    return;
  }
  const parts = new Set(excesses.map(({ part }) => part));
  const rated = parts.has(drive.part) ? drive.part : worst.part;
  const at = excesses
    .filter(({ part }) => part === rated)
    .reduce((most, each) => (each.volts > most.volts ? each : most));
  const places = branchPlaces(openers.filter(({ index }) => excesses.some(({ opener }) => opener.index === index)));
  report.fails({
    message: "rises",
    facts: {
      part: { place: partPlace(drive.part) },
      rated: { place: partPlace(rated) },
      openers: { places },
      volts: { value: at.volts, dimension: "voltage" },
      limit: { value: at.limit, dimension: "voltage" },
    },
    severity: "WARNING",
    where: [drive.place, ...places],
    touches: [...parts].map(partPlace),
    states: [state.name],
    value: at.volts,
    limit: at.limit,
    unit: "V",
    remedies: lowerCut(drive, Math.min(...excesses.map(({ limit }) => limit))),
  });
}

/** A cut below every rating that the full pack still stays below; none where there is no such voltage. */
function lowerCut({ part, packs }: TractionPair, rating: Volt): readonly Remedy[] {
  const volts = Math.floor(rating);
  if (volts <= packVolts(packs)) return [];
  const changes = [{ part: part.part.id, name: "regenerationCutVoltage", value: `${volts} V` }];
  return [
    {
      id: "lower-cut",
      label: `Set the regeneration cut of ${part.part.designation} to ${volts} V`,
      apply: (project) => execute(project, setParameter, { changes }, KINDS).project,
    },
  ];
}

/** Ratings that are kept while the pack is there and broken once it is gone. */
function excessesIn(analysis: Analysis, before: SolvedState, opened: SolvedState, opener: Branch): readonly Excess[] {
  return analysis.network.parts.flatMap((part) =>
    part.kind.limits(part.values).flatMap(({ kind, a, b, value }): Excess[] => {
      const [plus, minus] = [part.nodes.get(a), part.nodes.get(b)];
      if (kind !== "voltage-across" || value === undefined || plus === undefined || minus === undefined) return [];
      const volts = Math.abs(opened.between(plus, minus));
      const kept = !(Math.abs(before.between(plus, minus)) > value);
      return volts > value && kept ? [{ part, volts, limit: value, opener }] : [];
    }),
  );
}
