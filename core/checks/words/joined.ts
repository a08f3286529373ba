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
  const known = remembered.get(state) ?? new Map<ReadonlySet<Role>, DisjointSets>();
  remembered.set(state, known);
  let sets = known.get(roles);
  if (sets === undefined) {
    sets = new DisjointSets(analysis.network.nodeCount);
    for (const role of roles) {
      for (const { index, a, b } of branchesOf(analysis, role)) {
        if (state.conducting[index] !== 1 || state.elements[index]?.type === "limited-source") continue;
        sets.join(a, b);
      }
    }
    known.set(roles, sets);
  }
  return sets;
}

const byRole = new WeakMap<Analysis, Map<Role, readonly Branch[]>>();

/** The branches of one role: most questions about sources and resistors concern few of many branches. */
export function branchesOf(analysis: Analysis, role: Role): readonly Branch[] {
  const known = byRole.get(analysis) ?? new Map<Role, readonly Branch[]>();
  byRole.set(analysis, known);
  let branches = known.get(role);
  if (branches === undefined) {
    branches = analysis.network.branches.filter((branch) => branch.role === role);
    known.set(role, branches);
  }
  return branches;
}
