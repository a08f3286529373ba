import { defineCommand, entryAt } from "./define.ts";

/** Takes a reading away, by its place in the list. */
export const removeReading = defineCommand<{ readonly index: number }>({
  id: "remove-reading",
  label: ({ index }, { readings }) => {
    const { plus, minus } = entryAt(readings, index);
    return `Remove the reading from ${plus} to ${minus}`;
  },
  change(draft, { index }, { before }) {
    entryAt(before.readings, index);
    draft.readings.splice(index, 1);
  },
});
