/**
 * The steady current of every wire: the most that any operating state, or a charger at its limit, drives through it, at
 * both ends of what is only known as a range, with what would have to be stated where the figure means nothing.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { BranchIndex, Conductor, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import type { MissingField } from "../missing-field.ts";
import { walks, wayTo } from "./fault-walk.ts";
import { feeds } from "./feeds.ts";
import type { Feed } from "./feeds.ts";
import { controllers, outputStage, phaseLeads } from "./motor-loops.ts";

/** Less than this is no current: leaks and measuring inputs. */
export const LEAST: Ampere = 1e-3;

export interface CurrentIn {
  readonly state: string;
  readonly low: Ampere;
  readonly high: Ampere;
}

export interface WireCurrent {
  /** State by state; a charger's limit counts as *charging*. */
  readonly states: readonly CurrentIn[];
  readonly most: Ampere;
  /** Some current flows, or nobody knows whether. */
  readonly carries: boolean;
  /** Neither controller nor motor states its current, or the drive never runs. */
  readonly drive: readonly MissingField[] | undefined;
  /** Outputs that feed it without a stated limit. */
  readonly unlimited: readonly MissingField[];
}

const remembered = new WeakMap<Analysis, ReadonlyMap<Conductor, WireCurrent>>();

export function wireCurrents(analysis: Analysis): ReadonlyMap<Conductor, WireCurrent> {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const states = statesWithEnds(analysis);
    const drives = drivesOfUnknownCurrent(analysis);
    const chargers = chargingCurrents(analysis);
    const phases = phaseStages(analysis);
    all = new Map(
      analysis.network.conductors.map((conductor) => [
        conductor,
        currentOf(analysis, conductor, phases.get(conductor), states, drives.get(conductor), chargers.get(conductor)),
      ]),
    );
    remembered.set(analysis, all);
  }
  return all;
}

/** What to state of batteries and loads where a figure depends on the range that they are taken to lie in. */
export function unstatedRanges(analysis: Analysis): readonly MissingField[] {
  const { network, states } = analysis;
  const elements = states[0]?.elements ?? [];
  return network.parts.flatMap(({ part, kind, values, firstBranch, branchCount }): MissingField[] => {
    const own = elements.slice(firstBranch, firstBranch + branchCount);
    if (!own.some((element) => "range" in element && element.range !== undefined)) return [];
    if (kind.traits.battery === true) return [{ part: part.id, parameter: "resistance" }];
    return ["voltage", ...(values.number("current") === undefined ? ["power"] : [])].flatMap((parameter) =>
      parameter in kind.parameters && values.number(parameter) === undefined ? [{ part: part.id, parameter }] : [],
    );
  });
}

function currentOf(
  analysis: Analysis,
  conductor: Conductor,
  phase: BranchIndex | undefined,
  states: readonly Ends[],
  drive: readonly MissingField[] | undefined,
  charger: Feed | undefined,
): WireCurrent {
  const unlimited = new Set<MissingField>();
  const found: CurrentIn[] = [];
  for (const { state, ends } of states) {
    const branches = phase === undefined ? [conductor.branch] : [conductor.branch, phase];
    const currents = ends.map((each) => Math.max(...branches.map((branch) => Math.abs(each[branch] ?? 0))));
    const [low, high] = [Math.min(...currents), Math.max(...currents)];
    const feed = high < LEAST ? undefined : unlimitedFeed(analysis, state, high);
    if (feed?.limitField !== undefined) unlimited.add(feed.limitField);
    else found.push({ state: state.name, low, high });
  }
  if (charger?.limitField !== undefined && charger.limit === undefined) unlimited.add(charger.limitField);
  if (charger?.limit !== undefined) found.push({ state: "charging", low: charger.limit, high: charger.limit });
  const most = found.reduce((sum, { high }) => Math.max(sum, high), 0);
  return {
    states: found,
    most,
    carries: most >= LEAST || unlimited.size > 0 || drive !== undefined,
    drive,
    unlimited: [...unlimited],
  };
}

/** Currents of one state at both ends of what is only known as a range. */
interface Ends {
  readonly state: SolvedState;
  readonly ends: readonly Float64Array[];
}

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

/**
 * Wires between a drive's phases and its motor, with the output stage whose current each of them carries: what alternates
 * averages to nothing in a solved state, and heats them all the same.
 */
function phaseStages(analysis: Analysis): ReadonlyMap<Conductor, BranchIndex> {
  return new Map(
    controllers(analysis).flatMap((controller) => {
      const stage = outputStage(analysis, controller);
      if (stage === undefined) return [];
      return phaseLeads(analysis, controller).map((conductor) => [conductor, stage.index] as const);
    }),
  );
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
