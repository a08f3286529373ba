/**
 * What a person would notice of a solved state, or what would harm the vehicle in it: what turns, what is fed, which
 * contacts are in, what carries more than it may. Two of these side by side tell what a fault changes.
 */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { BranchIndex, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Limit } from "../parts/define.ts";
import { FED_ABOVE } from "../parts/input-pin.ts";
import type { Ampere, Ratio, Volt } from "../quantity/kinds.ts";
import { supplyPairs } from "./words/supply-pairs.ts";
import type { PairAt } from "./words/supply-pairs.ts";
import { wireAmpacity } from "./words/wire-ampacity.ts";

/** A motor that takes more than this part of its continuous current may creep (common practice, no source). */
const TURNS: Ratio = 0.02;
/** A motor of which nobody stated the current: more than its brushes and bearings swallow (common practice, no source). */
const TURNS_LEAST: Ampere = 1;
/** A field below this part of its usual current has been lost. */
const FIELD_LOST: Ratio = 0.2;
/** A consumer below half of its usual voltage does not do its work (common practice, no source). */
const FED_PART: Ratio = 0.5;
/** A silicon diode inside holds a reversed supply at -0.7 V: the limit lies well above that. */
const REVERSED: Volt = -0.3;
/** What rounding of a rating and of a solved figure may differ by. */
const SLACK = 1 + 1e-4;
/** More than half of what the source gives into a dead short: nothing but metal lies across it (common practice, no source). */
const SHORTED: Ratio = 0.5;

export type Turning = "forward" | "reverse" | "on";

interface Motor {
  readonly part: NetworkPart;
  readonly armature: BranchIndex;
  readonly fields: readonly BranchIndex[];
  readonly least: Ampere;
}

interface Rated {
  readonly part: NetworkPart;
  readonly limit: Limit;
  readonly most: number;
  readonly a: NodeIndex;
  readonly b: NodeIndex;
}

export interface Observed {
  readonly turning: ReadonlyMap<NetworkPart, Turning>;
  readonly fieldCurrents: ReadonlyMap<NetworkPart, Ampere>;
  /** By place in `Watch.contacts`. */
  readonly closed: readonly boolean[];
  /** By place in `Watch.pairs`. */
  readonly volts: readonly Volt[];
  /** By place in `Watch.limits`: 0 where within. */
  readonly above: readonly number[];
  /** By place in `Watch.wires`: 0 where within. */
  readonly overloaded: readonly Ampere[];
  readonly shorted: readonly NetworkPart[];
  readonly charging: ReadonlySet<NetworkPart>;
  readonly chatter: readonly NetworkPart[];
}

/** What is looked at in a drawing: found once, looked at in every state with every fault. */
export class Watch {
  readonly pairs: readonly PairAt[];
  readonly contacts: readonly { readonly part: NetworkPart; readonly branch: BranchIndex }[];
  readonly limits: readonly Rated[];
  readonly wires: readonly { readonly wire: string; readonly branch: BranchIndex; readonly most: Ampere }[];
  readonly #motors: readonly Motor[];
  readonly #controllers: readonly { readonly part: NetworkPart; readonly output: BranchIndex | undefined }[];
  readonly #chargers: readonly NetworkPart[];
  readonly #sources: readonly { readonly part: NetworkPart; readonly branch: BranchIndex }[];

  constructor(analysis: Analysis) {
    const { network, states } = analysis;
    const { parts, branches, conductors } = network;
    const [first] = states;
    const wired = (node: NodeIndex): boolean => {
      const end = network.terminalOfNode[node];
      return end !== undefined && network.wiresAt(end).length > 0;
    };
    // Motors are watched by their currents, relays and contactors by their contacts.
    this.pairs = supplyPairs(network).filter(
      ({ wired: both, part: { kind }, pair }) =>
        both && pair.direction === "input" && kind.traits.motor !== true && kind.coils === undefined,
    );
    this.contacts = branches.flatMap(({ part, role, index, a, b }) => {
      const element = first?.elements[index];
      if (part === undefined || role !== "contact" || element?.type !== "contact" || !wired(a) || !wired(b)) return [];
      return element.movedBy === "coil" || element.movedBy === "logic" ? [{ part, branch: index }] : [];
    });
    this.limits = parts.flatMap((part) =>
      part.kind.limits(part.values).flatMap((limit): Rated[] => {
        const [a, b] = [part.nodes.get(limit.a), part.nodes.get(limit.b)];
        if (limit.kind !== "voltage-across" || limit.value === undefined || a === undefined || b === undefined)
          return [];
        return wired(a) && wired(b) ? [{ part, limit, most: limit.value, a, b }] : [];
      }),
    );
    this.wires = conductors.flatMap((conductor) => {
      const ampacity = wireAmpacity(analysis, conductor);
      // The upper end where the insulation's class is open: what is told is then so for any of them.
      return ampacity.known && Number.isFinite(ampacity.high)
        ? [{ wire: conductor.wire.id, branch: conductor.branch, most: ampacity.high }]
        : [];
    });
    this.#motors = parts.flatMap((part): Motor[] => {
      if (part.kind.traits.motor !== true) return [];
      const loads = branches
        .slice(part.firstBranch, part.firstBranch + part.branchCount)
        .filter(({ role }) => role === "load");
      const name = part.kind.limits(part.values).find(({ element }) => element !== undefined)?.element;
      const armature = loads.find((branch) => branch.name === name) ?? loads[0];
      if (armature === undefined) return [];
      // Windings that meet inside (a star of three phases) are no field.
      const fields = loads
        .filter((branch) => branch !== armature && wired(branch.a) && wired(branch.b))
        .map(({ index }) => index);
      const continuous = part.values.number("currentContinuous");
      const least = Math.max(TURNS_LEAST, TURNS * (continuous ?? 0));
      return [{ part, armature: armature.index, fields, least }];
    });
    this.#controllers = parts
      .filter(({ kind }) => kind.traits.controller === true)
      .map((part) => ({
        part,
        output: branches
          .slice(part.firstBranch, part.firstBranch + part.branchCount)
          .find(({ index }) => first?.elements[index]?.type === "current-port" && this.#isMain(part, index, branches))
          ?.index,
      }));
    this.#chargers = parts.filter(({ kind }) => kind.traits.charger === true);
    this.#sources = branches.flatMap(({ part, index, role }) => {
      const element = first?.elements[index];
      return part !== undefined && role === "source" && element?.type === "source" && element.storage
        ? [{ part, branch: index }]
        : [];
    });
  }

  /** The port of the output stage has a power stud at an end; that of the logic supply lies between pins. */
  #isMain(
    part: NetworkPart,
    index: BranchIndex,
    branches: readonly { readonly a: NodeIndex; readonly b: NodeIndex }[],
  ): boolean {
    const branch = branches[index];
    const studs = part.terminals.filter(({ form }) => form === "stud").map(({ id }) => part.nodes.get(id));
    return branch !== undefined && studs.includes(branch.a) && studs.includes(branch.b);
  }

  observe(state: SolvedState): Observed {
    const amps = (branch: BranchIndex): Ampere => Math.abs(state.currents[branch] ?? 0);
    return {
      turning: this.turning(state),
      fieldCurrents: new Map(
        this.#motors.flatMap(({ part, armature, fields, least }) =>
          fields.length > 0 && amps(armature) > least ? [[part, Math.min(...fields.map(amps))] as const] : [],
        ),
      ),
      closed: this.contacts.map(({ branch }) => {
        const element = state.elements[branch];
        return element?.type === "contact" && element.closed;
      }),
      volts: this.pairs.map(({ plus, minus }) => orZero(state.between(plus, minus))),
      above: this.limits.map(({ a, b, most }) => {
        const volts = Math.abs(orZero(state.between(a, b)));
        return volts > most * SLACK ? volts : 0;
      }),
      overloaded: this.wires.map(({ branch, most }) => (amps(branch) > most * SLACK ? amps(branch) : 0)),
      shorted: this.#sources.flatMap(({ part, branch }) => {
        const element = state.elements[branch];
        if (element?.type !== "source" || element.emf <= 0) return [];
        return (state.currents[branch] ?? 0) > (SHORTED * element.emf) / element.resistance ? [part] : [];
      }),
      charging: new Set(this.#chargers.filter(({ index }) => state.partStates[index]?.["charging"] === true)),
      chatter: state.chatter,
    };
  }

  /** Controllers that drive and motors that take current. */
  turning(state: SolvedState): ReadonlyMap<NetworkPart, Turning> {
    const turning = new Map<NetworkPart, Turning>();
    for (const { part, output } of this.#controllers) {
      const drive = state.partStates[part.index]?.["drive"];
      if (drive !== "forward" && drive !== "reverse") continue;
      if (output === undefined || Math.abs(state.currents[output] ?? 0) > TURNS_LEAST) turning.set(part, drive);
    }
    for (const { part, armature, least } of this.#motors) {
      if (Math.abs(state.currents[armature] ?? 0) > least) turning.set(part, "on");
    }
    return turning;
  }
}

/** The least volts at which each pair counts as fed: half of the most that it ever has as drawn, else what an input calls fed. */
export function fedLeast(drawn: readonly Observed[], pairs: number): readonly Volt[] {
  return Array.from({ length: pairs }, (_, place) => {
    const most = Math.max(0, ...drawn.map(({ volts }) => Math.abs(volts[place] ?? 0)));
    return most > FED_ABOVE ? FED_PART * most : FED_ABOVE;
  });
}

export const isReversed = (volts: Volt): boolean => volts < REVERSED;

/** Motors that keep their armature current without their field: they run away. */
export function fieldsLost(drawn: Observed, now: Observed): readonly NetworkPart[] {
  return [...now.fieldCurrents].flatMap(([part, amps]) => {
    const usual = drawn.fieldCurrents.get(part);
    return usual !== undefined && amps < FIELD_LOST * usual ? [part] : [];
  });
}

const orZero = (volts: Volt): Volt => (Number.isNaN(volts) ? 0 : volts);
