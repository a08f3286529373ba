import { defineCommand } from "./define.ts";

/** Declares that the pack's negative is the chassis on purpose, or not, or (undefined) says nothing of it. */
export const declareSharedNegative = defineCommand<{ readonly value: boolean | null | undefined }>({
  id: "declare-shared-negative",
  label: ({ value }) => (value === true ? "Declare a shared negative" : "Declare no shared negative"),
  change(draft, { value }) {
    if (value === undefined) delete draft.sharedNegative;
    else draft.sharedNegative = value;
  },
});
