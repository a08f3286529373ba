/**
 * Where a contact closes onto capacitors: capacitors that nothing but contacts and wires joins to a battery in one
 * state and not in the state before it, and the contacts that close on the way. Plugs move in no built-in state: each
 * one on the way to a capacitor that is fed while parked is pulled and put back with the key off.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { drivenCurrent } from "../../circuit/questions.ts";
import { PREDECESSORS } from "../../circuit/conditions.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { BUILT_IN_STATES } from "../../parts/condition.ts";
import type { Farad, Volt } from "../../quantity/kinds.ts";
import { closedFeed, isClosedContact, waysBetween } from "./closed-feed.ts";

/** Below this current a voltage is put there by leaks. */
const LEAST_CURRENT = 1e-3;

export interface Closing {
  readonly before: SolvedState;
  /** `before` with its capacitors fully settled: what a path ahead of the contact has charged by then. */
  readonly settled: SolvedState;
  readonly after: string;
  readonly contacts: readonly Branch[];
  readonly capacitor: Branch;
  readonly capacitance: Farad | undefined;
  /** Volts that the capacitor is short of where it will stand. */
  readonly shortfall: Volt;
  /** The highest voltage across one of the contacts before it closes, and what the battery behind it has at rest. */
  readonly across: Volt;
  readonly pack: Volt;
}

/** From which state each one is entered, with the contacts a person or a coil then closes. */
function steps(analysis: Analysis): readonly (readonly [before: SolvedState, after: SolvedState])[] {
  const entered = new Map<string, string>(
    BUILT_IN_STATES.flatMap((name) => {
      const before = name === "parked" ? "stored" : PREDECESSORS[name];
      return before === undefined ? [] : [[name, before] as const];
    }),
  );
  for (const { name, from } of analysis.network.project.states) if (!entered.has(name)) entered.set(name, from);
  return analysis.states.flatMap((after) => {
    const before = analysis.state(entered.get(after.name) ?? "");
    return before === undefined ? [] : [[before, after] as const];
  });
}

export function capacitorClosings(analysis: Analysis): readonly Closing[] {
  const capacitors = analysis.network.branches.filter(
    (branch) => branch.role === "capacitor" && branch.part !== undefined && !isNone(analysis, branch),
  );
  if (capacitors.length === 0) return [];
  return [
    ...steps(analysis).flatMap(([before, after]) => closingsOf(analysis, before, after, capacitors)),
    ...plugs(analysis, capacitors),
  ];
}

/** Stated to be nothing: a charger that holds its capacitors off with a contact of its own. */
function isNone(analysis: Analysis, { index }: Branch): boolean {
  const element = analysis.states[0]?.elements[index];
  return element?.type === "capacitor" && element.capacitance === 0;
}

function closingsOf(
  analysis: Analysis,
  before: SolvedState,
  after: SolvedState,
  capacitors: readonly Branch[],
): readonly Closing[] {
  const [old, now] = [closedFeed(analysis, before), closedFeed(analysis, after)];
  return capacitors.flatMap((capacitor): Closing[] => {
    if (!now.isFed(capacitor.a, capacitor.b) || old.isFed(capacitor.a, capacitor.b)) return [];
    const contacts = waysBetween(analysis, after, capacitor.a, capacitor.b).filter(
      (branch) => isClosedContact(after, branch) && !isClosedContact(before, branch),
    );
    if (contacts.length === 0) return [];
    const settled = analysis.settledCapacitors(before);
    return [closing(analysis, { before, settled, after, contacts, capacitor })];
  });
}

function closing(
  analysis: Analysis,
  step: Pick<Closing, "before" | "settled" | "contacts" | "capacitor"> & { readonly after: SolvedState },
): Closing {
  const { settled, after, contacts, capacitor } = step;
  const element = after.elements[capacitor.index];
  const across = ({ a, b }: Branch): Volt => {
    const volts = Math.abs(settled.between(a, b));
    return Number.isNaN(volts) ? 0 : volts;
  };
  const packs = closedFeed(analysis, after).packsAt(capacitor.a);
  const pack = Math.max(0, ...packs.map(({ rest }) => rest));
  const full = Math.abs(analysis.settledCapacitors(after).between(capacitor.a, capacitor.b));
  // What leaks alone put onto a capacitor is no charge that anybody may count on.
  const driven = Math.abs(drivenCurrent(analysis, settled, capacitor.a, capacitor.b)) >= LEAST_CURRENT;
  return {
    ...step,
    after: after.name,
    capacitance: element?.type === "capacitor" ? element.capacitance : undefined,
    shortfall: Math.max(0, full - (driven ? across(capacitor) : 0)),
    across: Math.max(...contacts.map(across)),
    pack,
  };
}

/** Plugs on the way to what is fed while parked, each pulled by itself. */
function plugs(analysis: Analysis, capacitors: readonly Branch[]): readonly Closing[] {
  const parked = analysis.state("parked");
  if (parked === undefined) return [];
  const feed = closedFeed(analysis, parked);
  const onWay = new Map<NetworkPart, { readonly capacitor: Branch; readonly pins: readonly Branch[] }[]>();
  for (const capacitor of capacitors) {
    if (!feed.isFed(capacitor.a, capacitor.b)) continue;
    const pins = waysBetween(analysis, parked, capacitor.a, capacitor.b).filter(
      ({ part }) => part?.kind.traits.connector === true,
    );
    for (const plug of new Set(pins.flatMap(({ part }) => part ?? []))) {
      const list = onWay.get(plug) ?? [];
      list.push({ capacitor, pins: pins.filter(({ part }) => part === plug) });
      onWay.set(plug, list);
    }
  }
  return [...onWay].flatMap(([plug, list]) => {
    const before = analysis.solveChanged(parked, { set: { [plug.part.id]: "unplugged" } });
    const without = closedFeed(analysis, before);
    return list
      .filter(({ capacitor }) => !without.isFed(capacitor.a, capacitor.b))
      .map(({ capacitor, pins }) =>
        closing(analysis, {
          before,
          settled: analysis.settledCapacitors(before),
          after: parked,
          contacts: pins,
          capacitor,
        }),
      );
  });
}
