/** What the commands on a person's own operating states ask of names and controls. */
import { BUILT_IN_STATES } from "../../parts/condition.ts";
import type { Project, UserState } from "../document.ts";
import { STATE_NAME } from "../schema.ts";
import { knownPart, partById } from "../lookup.ts";
import type { Kinds } from "../lookup.ts";
import { Refused } from "./define.ts";

export const isBuiltInState = (name: string): boolean => (BUILT_IN_STATES as readonly string[]).includes(name);

export function stateIndex(project: Project, name: string): number {
  const index = project.states.findIndex((state) => state.name === name);
  if (index === -1) throw new Refused(`There is no state of your own called ${name}. Choose one that there is.`);
  return index;
}

/** Throws Refused for a name that a state cannot have; `but` is the state that is being renamed. */
export function requireStateName(project: Project, name: string, but?: string): void {
  if (!STATE_NAME.test(name))
    throw new Refused(
      `"${name}" cannot be the name of a state. Use lower-case letters, digits and hyphens, such as key-on.`,
    );
  if (isBuiltInState(name)) throw new Refused(`A built-in state is called ${name} already. Give yours another name.`);
  if (name !== but && project.states.some((state) => state.name === name))
    throw new Refused(`There is a state called ${name} already. Give this one another name.`);
}

/** Throws Refused where a part has no control, or not this position of it. */
export function requirePositions(project: Project, kinds: Kinds, set: UserState["set"]): void {
  for (const [id, position] of Object.entries(set)) {
    const part = partById(project, id);
    if (part === undefined) throw new Refused(`There is no part with id ${id}. Choose one that there is.`);
    const known = knownPart(part, kinds);
    const positions = known?.kind.control?.positions(known.values) ?? [];
    if (positions.length === 0)
      throw new Refused(`${part.designation} has nothing to set by hand. Choose a part with a control.`);
    if (!positions.includes(position))
      throw new Refused(`${part.designation} has no position ${position}. It has: ${positions.join(", ")}.`);
  }
}
