import { defineCommand } from "./define.ts";
import { stateIndex } from "./own-states.ts";

/** Removes a person's own operating state, with the readings that were taken in it. */
export const removeState = defineCommand<{ readonly state: string }>({
  id: "remove-state",
  label: ({ state }) => `Remove the state ${state}`,
  change(draft, { state }, { before }) {
    draft.states.splice(stateIndex(before, state), 1);
    if (before.readings.some((reading) => reading.state === state))
      draft.readings = draft.readings.filter((reading) => reading.state !== state);
  },
});
