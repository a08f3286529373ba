import type { AcceptedFinding } from "../document.ts";
import { defineCommand, Refused } from "./define.ts";

/** Accepts a finding with its reason; an older acceptance of the same finding is replaced. */
export const acceptFinding = defineCommand<AcceptedFinding>({
  id: "accept-finding",
  label: ({ key }) => `Accept ${key}`,
  change(draft, given, { before }) {
    if (given.who.trim() === "" || given.why.trim() === "") {
      throw new Refused("An accepted finding needs a name and a reason. Fill in both.");
    }
    const index = before.accepted.findIndex(({ key }) => key === given.key);
    if (index === -1) draft.accepted.push({ ...given });
    else draft.accepted[index] = { ...given };
  },
});
