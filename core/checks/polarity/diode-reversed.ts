import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, Network, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Remedy, Report } from "../define.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { everyState } from "../words/every-state.ts";
import { branchesOf, joinedIn } from "../words/joined.ts";
import { partPlace } from "../words/places.ts";
import { swapWires } from "../remedies/swap-wires.ts";

/** Below this a diode only leaks (common practice, no source). */
const CONDUCTS: Ampere = 1e-3;
/** A load counts as switched on from this part of what it carries with the diode bridged (common practice, no source). */
const UNFED = 0.1;

interface DiodeAt {
  readonly part: NetworkPart;
  readonly branch: Branch;
}

export const diodeReversed = defineCheck({
  id: "diode-reversed",
  group: "polarity",
  title: "Diode the wrong way round",
  about:
    "Looks at every diode and zener suppressor that is a part of its own. One that lies across a coil must not conduct in any steady state; one that lies in a feed or return must conduct in some state, and is taken as reversed if its load stays dead in every state and works as soon as the diode is bridged. Diodes inside other parts are looked at with the supply of those parts.",
  severities: ["WARNING"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    suppression: {
      title: "{part} lies across the coil of {coil} the wrong way round: {current} flow through it.",
      why: "Turned round it is a short across the feed of the coil, so that the fuse blows or the diode burns at first key-on.",
      mend: "Turn {part} round, so that its ring (cathode) sits at the plus side of the coil of {coil}.",
    },
    series: {
      title: "{part} lies in the feed of {load} the wrong way round, so that {load} gets no current.",
      why: "A diode lets current through from its plain end to its ring only: turned round it blocks, and {load} never works.",
      mend: "Turn {part} round, so that its ring (cathode) points towards the minus of the battery along the way of the current.",
    },
  },
  reasons: {
    kindUnstated: "Whether {part} conducts cannot be told, as its type or clamping voltage is not stated.",
  },
  foldsUnder: ["supply-reversed"],
  run(analysis, report) {
    const { network } = analysis;
    const coils = coilsOf(analysis);
    for (const part of network.parts) {
      const missing = missingOf(network, part);
      if (missing.length > 0) {
        const place = partPlace(part);
        report.notChecked({ where: [place], reason: "kindUnstated", facts: { part: { place } }, missing });
        continue;
      }
      const branch = diodeOf(network, part);
      if (branch === undefined) continue;
      if (part.terminals.some(({ id }) => network.wiresAt([part.part.id, id]).length === 0)) {
        report.doesNotApply(partPlace(part));
        continue;
      }
      judge(analysis, { part, branch }, coils, report);
    }
  },
});

/** The diode, or the one-way clamp, that a part of two terminals consists of. */
function diodeOf(network: Network, part: NetworkPart): Branch | undefined {
  if (part.terminals.length !== 2) return undefined;
  const [only, more] = network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
  return more === undefined && only?.role === "diode" ? only : undefined;
}

/** A suppressor whose type or clamping voltage nobody stated, and that might be a zener. */
function missingOf(network: Network, part: NetworkPart): readonly MissingField[] {
  const { kind, values } = part;
  if (
    !("clampVoltage" in kind.parameters) ||
    !part.terminals.every(({ id }) => network.wiresAt([part.part.id, id]).length > 0)
  )
    return [];
  const type = values.choice("type");
  const field = (parameter: string): MissingField => ({ part: part.part.id, parameter });
  if (type === undefined) return [field("type")];
  return type === "zener" && values.number("clampVoltage") === undefined ? [field("clampVoltage")] : [];
}

/** Anode to cathode; a zener conducts forwards from b to a, and backwards only above its voltage. */
function forwardCurrent(state: SolvedState, { branch }: DiodeAt): Ampere {
  return Math.abs(state.currents[branch.index] ?? 0);
}

function judge(analysis: Analysis, at: DiodeAt, coils: readonly CoilAt[], report: Report): void {
  const place = partPlace(at.part);
  const states = everyState(analysis);
  const across = coils.find((coil) => states.some((state) => liesAcross(analysis, state, at, coil)));
  const known = states.filter((state) => forwardCurrent(state, at) > CONDUCTS);
  const conducting =
    known.length > 0 || across === undefined
      ? known
      : withOutputOn(analysis, across).filter((state) => forwardCurrent(state, at) > CONDUCTS);
  if (across !== undefined) {
    if (conducting.length === 0) {
      report.passes(place);
      return;
    }
    const current = Math.max(...conducting.map((state) => forwardCurrent(state, at)));
    report.fails({
      message: "suppression",
      facts: {
        part: { place },
        coil: { place: partPlace(across.part) },
        current: { value: current, dimension: "current" },
      },
      severity: "WARNING",
      where: [place, partPlace(across.part)],
      touches: wiresOf(analysis, at),
      states: conducting.map(({ name }) => name),
      value: current,
      limit: CONDUCTS,
      unit: "A",
      remedies: turnRound(analysis.network, at),
    });
    return;
  }
  const dead = conducting.length > 0 ? undefined : deadLoad(analysis, at);
  if (dead === undefined) {
    report.passes(place);
    return;
  }
  report.fails({
    message: "series",
    facts: { part: { place }, load: { place: partPlace(dead.load) } },
    severity: "WARNING",
    where: [place, partPlace(dead.load)],
    touches: wiresOf(analysis, at),
    states: dead.states,
    remedies: turnRound(analysis.network, at),
  });
}

function turnRound(network: Network, { part }: DiodeAt): readonly Remedy[] {
  const [a, b] = part.terminals;
  if (a === undefined || b === undefined) return [];
  const { id, designation } = part.part;
  const swap = [
    [id, a.id],
    [id, b.id],
  ] as const;
  return swapWires(network, [swap], `Turn ${designation} round`);
}

/** Both ends of the diode are joined to both ends of the coil, whichever way round. */
function liesAcross(analysis: Analysis, state: SolvedState, { branch }: DiodeAt, coil: CoilAt): boolean {
  const metal = joinedIn(analysis, state);
  const [a, b] = [metal.find(branch.a), metal.find(branch.b)];
  const [plus, minus] = [metal.find(coil.plus), metal.find(coil.minus)];
  return a !== b && ((a === plus && b === minus) || (a === minus && b === plus));
}

/**
 * Driving with the output of the coil on that is on in no state: a short across its coil may take it its own supply, so
 * that no resting place shows the current.
 */
function withOutputOn(analysis: Analysis, coil: CoilAt): readonly SolvedState[] {
  const driving = analysis.state("driving");
  if (driving === undefined) return [];
  const isOn = ({ elements }: SolvedState, index: number): boolean => {
    const element = elements[index];
    return element?.type === "contact" && element.closed;
  };
  const metal = joinedIn(analysis, driving);
  const ends = [metal.find(coil.plus), metal.find(coil.minus)];
  return branchesOf(analysis, "driver")
    .filter(({ index, a, b }) => {
      if (driving.elements[index]?.type !== "contact") return false;
      const touches = ends.includes(metal.find(a)) || ends.includes(metal.find(b));
      return touches && !everyState(analysis).some((state) => isOn(state, index));
    })
    .map(({ a, b }) => analysis.solveChanged(driving, { shorts: [[a, b]], hold: true }));
}

/**
 * What gets a current against the diode's direction as soon as it is bridged, and none in any state without. The load
 * with the lowest id, so that the order of drawing does not matter.
 */
function deadLoad(
  analysis: Analysis,
  at: DiodeAt,
): { readonly load: NetworkPart; readonly states: readonly string[] } | undefined {
  const { network, states } = analysis;
  const [a, b] = [at.branch.a, at.branch.b];
  const zener = states[0]?.elements[at.branch.index]?.type === "clamp";
  const [anode, cathode] = zener ? [b, a] : [a, b];
  const loads = network.branches.filter(({ role }) => role === "load" || role === "coil");
  const most = new Map(
    loads.map((load) => [load, Math.max(0, ...states.map((state) => Math.abs(state.currents[load.index] ?? 0)))]),
  );
  const woken = new Map<NetworkPart, string[]>();
  for (const state of states) {
    if (!(state.between(cathode, anode) > 1)) continue;
    const bridged = analysis.solveChanged(state, { shorts: [[cathode, anode]], hold: true });
    const current = bridged.shortCurrents[bridged.shortCurrents.length - 1] ?? 0;
    if (current < CONDUCTS) continue;
    for (const load of loads) {
      const now = Math.abs(bridged.currents[load.index] ?? 0);
      if (load.part === undefined || now < CONDUCTS || (most.get(load) ?? 0) > UNFED * now) continue;
      woken.set(load.part, [...(woken.get(load.part) ?? []), state.name]);
    }
  }
  const [first] = [...woken].sort(([x], [y]) => Number(x.part.id.slice(1)) - Number(y.part.id.slice(1)));
  return first === undefined ? undefined : { load: first[0], states: first[1] };
}

function wiresOf(analysis: Analysis, { part }: DiodeAt): readonly Place[] {
  return part.terminals.flatMap(({ id }) =>
    analysis.network.wiresAt([part.part.id, id]).map((wire): Place => ({ wire: wire.id })),
  );
}
