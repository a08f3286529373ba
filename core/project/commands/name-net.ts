import type { WireEnd } from "../document.ts";
import { defineCommand } from "./define.ts";
import { requireTerminal } from "./terminals.ts";

/** Names the net at a terminal; null takes the name away. */
export const nameNet = defineCommand<{ readonly at: WireEnd; readonly name: string | null }>({
  id: "name-net",
  label: ({ name }) => (name === null ? "Take a net's name away" : `Name a net ${name}`),
  change(draft, { at, name }, { before, kinds }) {
    requireTerminal(before, at, kinds);
    const others = draft.netNames.filter((entry) => entry.at[0] !== at[0] || entry.at[1] !== at[1]);
    draft.netNames = name === null ? others : [...others, { at: [at[0], at[1]], name }];
  },
});
