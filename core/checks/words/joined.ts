/** Which nodes are joined in a state through things that conduct: a question of one solved state, never of the drawing alone. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";

/** Metal and closed contacts: what a current passes without doing anything. */
export const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt"]);
/** Metal, closed contacts, switched-on outputs and conducting diodes: what feeds a coil. */
export const FEED: ReadonlySet<Role> = new Set<Role>([...METAL, "driver", "diode"]);

const remembered = new WeakMap<SolvedState, Map<ReadonlySet<Role>, DisjointSets>>();

/** Sets of nodes that branches of these roles join as they conduct in this state. Kept for each state and set of roles. */
export function joinedIn(analysis: Analysis, state: SolvedState, roles: ReadonlySet<Role> = METAL): DisjointSets {
  let known = remembered.get(state);
  if (known === undefined) remembered.set(state, (known = new Map<ReadonlySet<Role>, DisjointSets>()));
  let sets = known.get(roles);
  if (sets === undefined) {
    const { lasting, indices, joined, others } = lastingMetal(analysis, roles);
    const holds = analysis.states[0] !== undefined && allJoin(state, analysis.states[0], indices);
    sets = holds ? joined.copy() : new DisjointSets(analysis.network.nodeCount);
    if (!holds) for (const branch of lasting) if (joins(state, branch)) sets.join(branch.a, branch.b);
    for (const branch of others) if (joins(state, branch)) sets.join(branch.a, branch.b);
    known.set(roles, sets);
  }
  return sets;
}

function joins(state: SolvedState, { index }: Branch): boolean {
  return state.conducting[index] === 1 && state.elements[index]?.type !== "limited-source";
}

/** Do all these branches join their ends as they do in the first state? */
function allJoin({ conducting, elements }: SolvedState, first: SolvedState, indices: Int32Array): boolean {
  for (const index of indices) {
    if (conducting[index] !== 1) return false;
    const element = elements[index];
    if (element !== first.elements[index] && element?.type === "limited-source") return false;
  }
  return true;
}

/** What joins its ends in the first state and is no contact does so in nearly all: joined once, and seen to hold in each. */
interface LastingMetal {
  readonly lasting: readonly Branch[];
  readonly indices: Int32Array;
  readonly joined: DisjointSets;
  readonly others: readonly Branch[];
}

const lastingByRoles = new WeakMap<Analysis, Map<ReadonlySet<Role>, LastingMetal>>();

function lastingMetal(analysis: Analysis, roles: ReadonlySet<Role>): LastingMetal {
  let known = lastingByRoles.get(analysis);
  if (known === undefined) lastingByRoles.set(analysis, (known = new Map<ReadonlySet<Role>, LastingMetal>()));
  let metal = known.get(roles);
  if (metal === undefined) {
    const [first] = analysis.states;
    const all = [...roles].flatMap((role) => branchesOf(analysis, role));
    const isLasting = (branch: Branch): boolean =>
      first !== undefined && first.elements[branch.index]?.type === "resistance" && joins(first, branch);
    const lasting = all.filter(isLasting);
    const joined = new DisjointSets(analysis.network.nodeCount);
    for (const { a, b } of lasting) joined.join(a, b);
    metal = {
      lasting,
      indices: Int32Array.from(lasting, ({ index }) => index),
      joined,
      others: all.filter((branch) => !isLasting(branch)),
    };
    known.set(roles, metal);
  }
  return metal;
}

const byRole = new WeakMap<Analysis, Map<Role, readonly Branch[]>>();

/** The branches of one role: most questions about sources and resistors concern few of many branches. */
export function branchesOf(analysis: Analysis, role: Role): readonly Branch[] {
  let known = byRole.get(analysis);
  if (known === undefined) byRole.set(analysis, (known = new Map<Role, readonly Branch[]>()));
  let branches = known.get(role);
  if (branches === undefined) {
    branches = analysis.network.branches.filter((branch) => branch.role === role);
    known.set(role, branches);
  }
  return branches;
}
