/**
 * Fed: a closed path of conductors, closed contacts, protection, shunts and conducting diodes leads from both poles of
 * a battery to both terminals of a pair. One open pole suffices to open it; what leaks or a resistor let through does
 * not feed. Volts would not tell: behind an open contactor leaks alone put half the pack on a bus.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import { edgesBetween } from "../../circuit/simple-paths.ts";
import type { Branch, BranchIndex, NodeIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";

const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt", "diode"]);

export interface FeedQuery {
  /** Branches taken as open. */
  readonly without?: ReadonlySet<BranchIndex>;
  /** Outputs of converters count as sources too. */
  readonly converters?: boolean;
  /** Contacts and drivers taken as closed. */
  readonly also?: ReadonlySet<BranchIndex>;
  /** Contacts as they stand in the state, or all closed. */
  readonly contacts?: "as-is" | "closed";
}

/** What hangs together in a state: by metal alone, and by metal and batteries. */
export class ClosedFeed {
  readonly #analysis: Analysis;
  readonly #metal: DisjointSets;
  readonly #groups: DisjointSets;

  constructor(analysis: Analysis, state: SolvedState, query: FeedQuery = {}) {
    const { network } = analysis;
    this.#analysis = analysis;
    this.#metal = new DisjointSets(network.nodeCount);
    for (const branch of network.branches) {
      if (query.without?.has(branch.index) === true) continue;
      if (query.also?.has(branch.index) === true || isClosed(state, branch, query.contacts === "closed"))
        this.#metal.join(branch.a, branch.b);
    }
    this.#groups = new DisjointSets(network.nodeCount);
    const converters = network.branches.filter(
      ({ role, part }) => query.converters === true && role === "source" && part?.kind.traits.converter === true,
    );
    for (const { a, b } of [...sourceBranches(analysis), ...converters])
      this.#groups.join(this.#metal.find(a), this.#metal.find(b));
  }

  /** The island of metal at a node. */
  island(node: NodeIndex): number {
    return this.#metal.find(node);
  }

  isFed(plus: NodeIndex, minus: NodeIndex): boolean {
    const [a, b] = [this.island(plus), this.island(minus)];
    return a !== b && this.#groups.together(a, b) && this.packsAt(plus).length > 0;
  }

  /** Fed even without this pack's own batteries: where two packs meet at one point, the other one feeds here. */
  isFedBesides(pack: Pack, plus: NodeIndex, minus: NodeIndex): boolean {
    const others = new DisjointSets(this.#analysis.network.nodeCount);
    for (const { a, b, part } of sourceBranches(this.#analysis)) {
      if (part === undefined || !pack.blocks.includes(part)) others.join(this.island(a), this.island(b));
    }
    return others.together(this.island(plus), this.island(minus));
  }

  /** The island of metal and batteries at a node. */
  group(node: NodeIndex): number {
    return this.#groups.find(this.island(node));
  }

  /** As `isFed`, from whatever counts as a source. */
  isSupplied(plus: NodeIndex, minus: NodeIndex): boolean {
    const [a, b] = [this.island(plus), this.island(minus)];
    return a !== b && this.#groups.together(a, b);
  }

  /** Batteries that hang together with a node. */
  packsAt(node: NodeIndex): readonly Pack[] {
    const group = this.group(node);
    return packsOf(this.#analysis).filter(({ positive }) => this.group(positive) === group);
  }
}

const remembered = new WeakMap<SolvedState, ClosedFeed>();

/** As the contacts stand in a state; made once. */
export function closedFeed(analysis: Analysis, state: SolvedState): ClosedFeed {
  let feed = remembered.get(state);
  if (feed === undefined) remembered.set(state, (feed = new ClosedFeed(analysis, state)));
  return feed;
}

/** Batteries and sources that stand for one. */
export function packsOf(analysis: Analysis): readonly Pack[] {
  const bench = analysis.supplies.filter(({ blocks }) => blocks.every(({ kind }) => kind.traits.converter !== true));
  return [...analysis.packs, ...bench];
}

const sources = new WeakMap<Analysis, readonly Branch[]>();

/** The EMFs of batteries: what a converter or a charger delivers is no pack. */
export function sourceBranches(analysis: Analysis): readonly Branch[] {
  let found = sources.get(analysis);
  if (found === undefined) {
    const parts = new Set(packsOf(analysis).flatMap(({ blocks }) => blocks));
    const isSupply = ({ role, part }: Branch): boolean =>
      role === "source" && part !== undefined && parts.has(part) && part.kind.traits.converter !== true;
    sources.set(analysis, (found = analysis.network.branches.filter(isSupply)));
  }
  return found;
}

function isClosed(state: SolvedState, branch: Branch, all: boolean): boolean {
  if (!METAL.has(branch.role)) return false;
  const element = state.elements[branch.index];
  if (element === undefined) return false;
  if (element.type === "contact") return all || element.closed;
  if (element.type === "diode" || element.type === "clamp") return state.conducting[branch.index] === 1;
  return true;
}

/** A closed contact, breaker or plug. */
export function isClosedContact(state: SolvedState, branch: Branch): boolean {
  const element = state.elements[branch.index];
  return element?.type === "contact" && element.closed && METAL.has(branch.role);
}

/**
 * Closed contacts and batteries that lie on the ways between two nodes, no node passed twice: what a contact between
 * them has to break, or closes onto. `also`: further branches that may be crossed, listed with the rest.
 */
export function waysBetween(
  analysis: Analysis,
  state: SolvedState,
  from: NodeIndex,
  to: NodeIndex,
  also: readonly Branch[] = [],
): readonly Branch[] {
  const { network } = analysis;
  const joined = new DisjointSets(network.nodeCount);
  const listed: Branch[] = [...sourceBranches(analysis), ...also];
  for (const branch of network.branches) {
    if (isClosedContact(state, branch)) listed.push(branch);
    else if (isClosed(state, branch, false)) joined.join(branch.a, branch.b);
  }
  const edges = listed.map(({ a, b }) => [joined.find(a), joined.find(b)] as const);
  const between = edgesBetween(edges, joined.find(from), joined.find(to));
  return [...between].sort((a, b) => a - b).flatMap((index) => listed[index] ?? []);
}
