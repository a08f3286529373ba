import { defineCommand } from "./define.ts";

/** The finding counts again. */
export const withdrawAcceptance = defineCommand<{ readonly key: string }>({
  id: "withdraw-acceptance",
  label: ({ key }) => `No longer accept ${key}`,
  change(draft, given) {
    draft.accepted = draft.accepted.filter(({ key }) => key !== given.key);
  },
});
