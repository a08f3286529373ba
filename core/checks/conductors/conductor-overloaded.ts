import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Conductor, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { feeds } from "../words/feeds.ts";
import type { Feed } from "../words/feeds.ts";
import { walks, wayTo } from "../words/fault-walk.ts";
import { partPlace } from "../words/places.ts";
import { wireAmpacity } from "../words/wire-ampacity.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

/** Less than this is no current: leaks and measuring inputs. */
const LEAST: Ampere = 1e-3;

/** Currents of one state at both ends of what is only known as a range. */
interface Ends {
  readonly state: SolvedState;
  readonly ends: readonly Float64Array[];
}

export const conductorOverloaded = defineCheck({
  id: "conductor-overloaded",
  group: "conductors",
  title: "Wire too thin for its current",
  about:
    "Compares the steady current of every wire in every operating state with what it may carry for good where it lies: by size and class of insulation, less in an engine space and (from 50 V) in a bundle. While driving, the motor's or the controller's continuous current counts, whichever is less; a short burst above it does not.",
  severities: ["WARNING"],
  source: { text: "33 CFR 183.425, table 5 (30 C, not bundled), with its notes", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    overloaded: {
      title: "{wire} carries {current} in {states}; it may carry {ampacity} continuously.",
      why: "An overloaded wire gets hotter until its insulation softens and chars, and no fuse sized for the load prevents that.",
      mend: "Use a wire that carries at least {current}, or insulation of a higher temperature class, or move part of the load to a wire of its own.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated, so that it is not known what it may carry.",
    small: "{wire} is thinner than any that the table of ampacities lists.",
    insulation: "The insulation of {wire} is of a lower class than the table of ampacities lists.",
    range: "Whether {wire} is overloaded depends on figures that are only known as a range.",
    drive:
      "How much current the drive takes through {wire} is not known: neither controller nor motor states it, or the drive never runs.",
    limit: "How much current the output that feeds {wire} delivers at most is not stated.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
  ],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    const states = statesWithEnds(analysis);
    const unknown = { drives: drivesOfUnknownCurrent(analysis), chargers: chargingCurrents(analysis) };
    for (const conductor of analysis.network.conductors) {
      look(analysis, conductor, states, unknown, verdicts, report);
    }
    verdicts.report(analysis, report);
  },
});

/** The states as solved; where a load or a battery is only known as a range, at both ends of it. */
function statesWithEnds(analysis: Analysis): readonly Ends[] {
  return analysis.states.map((state): Ends => {
    const ranged = state.elements.some(
      (element) => (element.type === "resistance" || element.type === "source") && element.range !== undefined,
    );
    if (!ranged) return { state, ends: [state.currents] };
    const at = (resistances: "lowest" | "highest"): Float64Array =>
      analysis.solveChanged(state, { resistances, hold: true }).currents;
    return { state, ends: [at("lowest"), at("highest")] };
  });
}

function look(
  analysis: Analysis,
  conductor: Conductor,
  states: readonly Ends[],
  beside: {
    readonly drives: ReadonlyMap<Conductor, readonly MissingField[]>;
    readonly chargers: ReadonlyMap<Conductor, Feed>;
  },
  verdicts: WireVerdicts,
  report: Report,
): void {
  const unlimited = new Set<MissingField>();
  let most: Ampere = 0;
  const overloaded: string[] = [];
  const ampacity = wireAmpacity(analysis, conductor);
  for (const { state, ends } of states) {
    const currents = ends.map((each) => Math.abs(each[conductor.branch] ?? 0));
    const [low, high] = [Math.min(...currents), Math.max(...currents)];
    const feed = high < LEAST ? undefined : unlimitedFeed(analysis, state, high);
    if (feed?.limitField !== undefined) {
      unlimited.add(feed.limitField);
      continue;
    }
    if (ampacity.known && low > ampacity.high) overloaded.push(state.name);
    most = Math.max(most, high);
  }
  const charger = beside.chargers.get(conductor);
  if (charger?.limitField !== undefined && charger.limit === undefined) unlimited.add(charger.limitField);
  if (charger?.limit !== undefined) {
    most = Math.max(most, charger.limit);
    if (ampacity.known && charger.limit > ampacity.high && !overloaded.includes("charging"))
      overloaded.push("charging");
  }
  const drive = beside.drives.get(conductor);
  if (most < LEAST && unlimited.size === 0 && drive === undefined) return;
  if (!ampacity.known) {
    verdicts.notChecked(conductor, ampacity.why, ampacity.missing);
    return;
  }
  if (overloaded.length > 0) {
    verdicts.fails(conductor);
    const wire = { wire: conductor.wire.id };
    report.fails({
      message: "overloaded",
      facts: {
        wire: { place: wire },
        current: { value: most, dimension: "current" },
        ampacity: { value: ampacity.low, dimension: "current" },
        states: { states: overloaded },
      },
      severity: "WARNING",
      where: [wire],
      states: overloaded,
      value: most,
      limit: ampacity.low,
      unit: "A",
      source: ampacity.source,
      touches: endsOf(analysis, conductor),
    });
    return;
  }
  if (drive !== undefined) verdicts.notChecked(conductor, "drive", drive);
  else if (unlimited.size > 0) verdicts.notChecked(conductor, "limit", [...unlimited]);
  else if (most > ampacity.low) verdicts.notChecked(conductor, "range", rangeOf(analysis, ampacity.missing));
  else verdicts.passes(conductor);
}

/**
 * Wires between a charger and the batteries that it charges: they carry its full current until the batteries come up
 * to its voltage, at which the state *charging* is solved.
 */
function chargingCurrents(analysis: Analysis): ReadonlyMap<Conductor, Feed> {
  const found = new Map<Conductor, Feed>();
  for (const walk of walks(analysis)) {
    const { feed, labels } = walk;
    if (feed.storage || !feed.parts.some(({ kind }) => kind.traits.charger === true)) continue;
    for (const { positive, negative } of analysis.packs) {
      const [plus, minus] = [labels.get(positive), labels.get(negative)];
      if (plus?.side !== "plus" || minus?.side !== "minus") continue;
      for (const { conductor } of [...wayTo(walk, positive), ...wayTo(walk, negative)]) {
        if (conductor !== undefined) found.set(conductor, feed);
      }
    }
  }
  return found;
}

function rangeOf(analysis: Analysis, missing: readonly MissingField[]): readonly MissingField[] {
  if (missing.length > 0) return missing;
  return analysis.network.parts.flatMap(({ part, kind, values }): MissingField[] =>
    kind.traits.battery === true && values.number("resistance") === undefined
      ? [{ part: part.id, parameter: "resistance" }]
      : [],
  );
}

function endsOf(analysis: Analysis, { wire }: Conductor) {
  return wire.ends.flatMap((end) => {
    const part = end === null ? undefined : analysis.network.partById.get(end[0]);
    return part === undefined ? [] : [partPlace(part)];
  });
}

/** An output of unstated limit that delivers most of this current in this state: the figure then means nothing. */
function unlimitedFeed(analysis: Analysis, state: SolvedState, current: Ampere): Feed | undefined {
  return feeds(analysis).find(({ storage, limit, sources }) => {
    const index = sources[0]?.index;
    if (storage || limit !== undefined || index === undefined) return false;
    const delivered = state.currents[index] ?? 0;
    return delivered > LEAST && current >= delivered / 2 && current <= delivered * 1.01;
  });
}

/** Wires of a drive's loops (pack side and motor side) of which nobody knows the current. */
function drivesOfUnknownCurrent(analysis: Analysis): ReadonlyMap<Conductor, readonly MissingField[]> {
  const { network } = analysis;
  const found = new Map<Conductor, readonly MissingField[]>();
  const driving = analysis.state("driving");
  if (driving === undefined) return found;
  const motors = network.parts.filter(({ kind }) => kind.traits.motor === true);
  for (const controller of network.parts) {
    if (controller.kind.traits.controller !== true || !isUnknown(analysis, driving, controller)) continue;
    const missing = [controller, ...motors].flatMap(({ part, values }): MissingField[] =>
      values.number("currentContinuous") === undefined ? [{ part: part.id, parameter: "currentContinuous" }] : [],
    );
    const studs = controller.terminals.flatMap(({ id, form }) => {
      const node = controller.nodes.get(id);
      return form === "stud" && id !== "case" && node !== undefined ? [node] : [];
    });
    const windings = motors.flatMap(({ nodes }) =>
      [...nodes].flatMap(([id, node]) => (id === "case" || id.startsWith("#") ? [] : [node])),
    );
    const poles = analysis.packs.flatMap(({ duty, positive, negative }) =>
      duty === "traction" ? [positive, negative] : [],
    );
    const ends = [...poles, ...windings];
    for (const stud of [...studs, ...windings]) {
      for (const end of ends) {
        const way = analysis.path(driving, stud, end, {
          through: ["conductor", "contact", "protection", "shunt"],
          contacts: "closed",
        });
        for (const { conductor } of way ?? []) if (conductor !== undefined) found.set(conductor, missing);
      }
    }
  }
  return found;
}

function isUnknown(analysis: Analysis, driving: SolvedState, controller: NetworkPart): boolean {
  const { firstBranch, branchCount } = controller;
  for (let index = firstBranch; index < firstBranch + branchCount; index += 1) {
    const element = driving.elements[index];
    if (analysis.network.branches[index]?.name !== "output-stage" || element?.type !== "current-port") continue;
    return element.current === 0;
  }
  return false;
}
