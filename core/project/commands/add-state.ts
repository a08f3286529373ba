import type { UserState } from "../document.ts";
import { defineCommand, Refused } from "./define.ts";
import { isBuiltInState, requirePositions, requireStateName } from "./own-states.ts";

/** Adds an operating state of the person's own: a built-in one with some controls set by hand. */
export const addState = defineCommand<UserState>({
  id: "add-state",
  label: ({ name }) => `Add the state ${name}`,
  change(draft, { name, from, set }, { before, kinds }) {
    requireStateName(before, name);
    if (!isBuiltInState(from))
      throw new Refused(`There is no built-in state called ${from} to start from. Start from one such as driving.`);
    requirePositions(before, kinds, set);
    draft.states.push({ name, from, set: { ...set } });
  },
});
