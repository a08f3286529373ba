import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { enclosureById, zoneById } from "../../project/lookup.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { switchInCoilFeed } from "../remedies/switch-in-coil-feed.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { coilsOf } from "../words/coils.ts";
import { partPlace } from "../words/places.ts";
import { drivePairs, fedBetween, packVolts, unstatedDrivers } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const emergencyStopMissing = defineCheck({
  id: "emergency-stop-missing",
  group: "switching",
  title: "No emergency stop",
  about:
    "Looks for something the driver can reach that breaks the traction circuit without help of key or controller: an emergency stop anywhere, or a disconnect that may break load or a breaker with a handle in the passenger zone. The stop is tried with the throttle fully down and the controller's contactor output taken as stuck on. Where the button really sits is not seen.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    none: {
      title: "Nothing within the driver's reach breaks the traction circuit of {parts} ({volts}) besides the key.",
      why: "A controller that fails full on does not listen to pedal or key; then only a break of the pack's current stops the vehicle.",
      mend: "Put an emergency stop into the feed of the main contactor's coil, or a breaker with a handle within the driver's reach into the pack's lead.",
    },
    dependent: {
      title:
        "Pressing {stops} cuts off {parts} ({volts}) only by way of the controller: with its contactor output stuck on, the pack stays connected.",
      why: "The stop is needed when the controller has failed, and then the controller can hold its own contactor in.",
      mend: "Lead the supply of the main contactor's coil through {stops}, not only an input of the controller.",
    },
  },
  reasons: {
    neverClosed:
      "Whether anything breaks the traction circuit of {parts} in an emergency cannot be told, as the contacts ahead of it close in no state.",
    reach:
      "Whether the driver can break the traction circuit of {parts} with {candidates} depends on what is not stated.",
  },
  foldsUnder: ["emergency-stop-ineffective", "main-switch-missing"],
  run(analysis, report) {
    const drives = drivePairs(analysis);
    const candidates = analysis.network.parts.flatMap((part) => candidateOf(analysis, part) ?? []);
    const stops = analysis.network.parts.filter(({ kind }) => kind.traits.emergencyStop === true);
    const never = drives.filter(({ states }) => states.length === 0);
    const left: TractionPair[] = [];
    for (const at of drives.filter(({ states }) => states.length > 0)) {
      if (stops.length > 0 && isCutWithStuckOutput(analysis, at)) report.passes(at.place);
      else if (isCutBy(analysis, at, candidates.filter(isSure))) report.passes(at.place);
      else left.push(at);
    }
    const unsure = candidates.filter((candidate) => !isSure(candidate));
    const open = left.filter((at) => isCutBy(analysis, at, candidates));
    const failing = left.filter((at) => !open.includes(at));
    for (const [pairs, reason, missing] of [
      [never, "neverClosed", unstatedDrivers(analysis)],
      [open, "reach", unsure.flatMap((candidate) => candidate.missing)],
    ] as const) {
      if (pairs.length === 0) continue;
      report.notChecked({
        where: pairs.map(({ place }) => place),
        reason,
        facts: {
          parts: { places: pairs.map(({ part }) => partPlace(part)) },
          candidates: { places: unsure.map(({ part }) => partPlace(part)) },
        },
        missing,
      });
    }
    if (drives.length === 0) {
      report.doesNotApply();
      return;
    }
    if (failing.length === 0) return;
    const volts = packVolts(failing.flatMap(({ packs }) => packs));
    const places = failing.map(({ place }) => place).sort((a, b) => numberOf(a) - numberOf(b));
    report.fails({
      message: failing.every((at) => isCutAsSolved(analysis, at)) ? "dependent" : "none",
      facts: {
        parts: { places: failing.map(({ part }) => partPlace(part)) },
        stops: { places: stops.map(partPlace) },
        volts: { value: volts, dimension: "voltage" },
      },
      severity: volts > CLASS_B_DC ? "WARNING" : "NOTICE",
      where: places,
      touches: stops.map(partPlace),
      states: ["driving"],
      value: volts,
      unit: "V",
      remedies: stops.length > 0 ? [] : switchInCoilFeed(analysis, failing, EMERGENCY_STOP),
    });
  },
});

const EMERGENCY_STOP = { kind: "emergency-stop", terminals: ["11", "12"], named: "an emergency stop" } as const;

interface Candidate {
  readonly part: NetworkPart;
  readonly branches: readonly BranchIndex[];
  readonly missing: readonly MissingField[];
}

function isSure({ missing }: Candidate): boolean {
  return missing.length === 0;
}

function numberOf(place: TractionPair["place"]): number {
  return "part" in place ? Number(place.part.slice(1)) : 0;
}

/** A disconnect that may break load, or a breaker with a handle, in the passenger zone. */
function candidateOf(analysis: Analysis, part: NetworkPart): Candidate | undefined {
  const { network } = analysis;
  const { traits } = part.kind;
  const parameter = traits.disconnect === true ? "breakLoad" : traits.device === "breaker" ? "manual" : undefined;
  if (parameter === undefined) return undefined;
  const able = part.values.choice(parameter);
  const enclosure = part.part.enclosure === undefined ? undefined : enclosureById(network.project, part.part.enclosure);
  const id = part.part.zone ?? enclosure?.zone;
  const zone = id === undefined ? undefined : zoneById(network.project, id)?.kind;
  if (able === "no" || (zone !== undefined && zone !== "passenger")) return undefined;
  const branches = network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .map(({ index }) => index);
  const missing = [...(zone === undefined ? ["zone"] : []), ...(able === undefined ? [parameter] : [])];
  return { part, branches, missing: missing.map((field) => ({ part: part.part.id, parameter: field })) };
}

/** Is the pair unfed in every state once these are pulled? */
function isCutBy(analysis: Analysis, at: TractionPair, pulled: readonly Candidate[]): boolean {
  if (pulled.length === 0) return false;
  const without = new Set(pulled.flatMap(({ branches }) => branches));
  return at.states.every(
    (state) => fedBetween(analysis, new ClosedFeed(analysis, state, { without }), at) === undefined,
  );
}

/** Is the pair unfed with the stop pressed, even if what the controller switched on while driving stays on? */
function isCutWithStuckOutput(analysis: Analysis, at: TractionPair): boolean {
  const stopped = analysis.state("emergency-stop");
  if (stopped === undefined || !isCutAsSolved(analysis, at)) return false;
  return fedBetween(analysis, withStuckOutput(analysis, stopped), at) === undefined;
}

/** Does the stop, with a sound controller, open the circuit? */
function isCutAsSolved(analysis: Analysis, at: TractionPair): boolean {
  const stopped = analysis.state("emergency-stop");
  return stopped !== undefined && fedBetween(analysis, closedFeed(analysis, stopped), at) === undefined;
}

const stuck = new WeakMap<SolvedState, ClosedFeed>();

/** The stop pressed, the controller's outputs as while driving, and every coil in that these then feed, one by the other. */
function withStuckOutput(analysis: Analysis, stopped: SolvedState): ClosedFeed {
  let feed = stuck.get(stopped);
  if (feed !== undefined) return feed;
  const driving = analysis.state("driving") ?? stopped;
  const also = new Set<BranchIndex>(
    analysis.network.branches
      .filter(
        ({ index, role, part }) =>
          role === "driver" &&
          part?.kind.traits.controller === true &&
          driving.elements[index]?.type === "contact" &&
          driving.conducting[index] === 1,
      )
      .map(({ index }) => index),
  );
  feed = new ClosedFeed(analysis, stopped, { also, converters: true });
  const coils = coilsOf(analysis);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { part, plus, minus } of coils) {
      if (!feed.isSupplied(plus, minus)) continue;
      for (const { index } of analysis.network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount)) {
        if (also.has(index) || !isMade(driving, index) || isMade(stopped, index)) continue;
        also.add(index);
        grown = true;
      }
    }
    if (grown) feed = new ClosedFeed(analysis, stopped, { also, converters: true });
  }
  stuck.set(stopped, feed);
  return feed;
}

function isMade(state: SolvedState, branch: BranchIndex): boolean {
  const element = state.elements[branch];
  return element?.type === "contact" && element.closed && element.movedBy === "coil";
}
