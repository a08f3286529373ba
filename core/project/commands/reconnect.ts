import type { WireEnd } from "../document.ts";
import { defineCommand, draftWire } from "./define.ts";
import { requireTerminal } from "./terminals.ts";

export interface Reconnect {
  readonly wire: string;
  /** 0 = end A, 1 = end B. */
  readonly end: 0 | 1;
  /** null = loose. */
  readonly to: WireEnd | null;
}

/** Puts one end of a wire on another terminal, or loosens it. Its drawn route no longer fits and goes. */
export const reconnect = defineCommand<Reconnect>({
  id: "reconnect",
  label: ({ wire, to }, before) => {
    const number = before.wires.find(({ id }) => id === wire)?.number ?? "";
    return to === null ? `Loosen wire ${number}` : `Move an end of wire ${number}`;
  },
  change(draft, { wire: id, end, to }, { before, kinds }) {
    if (to !== null) requireTerminal(before, to, kinds);
    const wire = draftWire(draft, id, before);
    wire.ends[end] = to === null ? null : [to[0], to[1]];
    delete wire.routes;
  },
});
