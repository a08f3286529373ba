import type { PartId } from "../document.ts";
import { defineCommand, entryAt } from "./define.ts";
import { requirePositions, requireStateName, stateIndex } from "./own-states.ts";

interface ChangeState {
  readonly state: string;
  /** A new name. */
  readonly name?: string;
  /** Positions by part; null: as in the built-in state that it starts from. */
  readonly set?: Readonly<Record<PartId, string | null>>;
}

/** Renames a person's own operating state, or sets controls in it. */
export const changeState = defineCommand<ChangeState>({
  id: "change-state",
  label: ({ state, name }) => (name === undefined ? `Set a control in ${state}` : `Call the state ${state} ${name}`),
  change(draft, { state, name, set = {} }, { before, kinds }) {
    const entry = entryAt(draft.states, stateIndex(before, state));
    const given = Object.entries(set).flatMap(([id, position]) => (position === null ? [] : [[id, position] as const]));
    requirePositions(before, kinds, Object.fromEntries(given));
    for (const [id, position] of Object.entries(set)) {
      if (position === null) delete entry.set[id];
      else if (entry.set[id] !== position) entry.set[id] = position;
    }
    if (name === undefined || name === state) return;
    requireStateName(before, name, state);
    entry.name = name;
    for (const reading of draft.readings) if (reading.state === state) reading.state = name;
  },
});
