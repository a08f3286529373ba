import { castDraft } from "immer";
import { nextWireNumber } from "../designation.ts";
import type { Wire, WireEnd } from "../document.ts";
import { normaliseWire } from "../normalise.ts";
import { defineCommand, newId, Refused } from "./define.ts";
import { requireWireReferences } from "./set-wire-field.ts";
import type { WireFields } from "./set-wire-field.ts";
import { requireTerminal } from "./terminals.ts";

export interface Connect {
  /** null = a loose end. */
  readonly from: WireEnd | null;
  readonly to: WireEnd | null;
  /** Left out: the next free one. */
  readonly number?: string;
  readonly fields?: WireFields;
}

/** Draws a new wire. Gives its id. */
export const connect = defineCommand<Connect, string>({
  id: "connect",
  label: ({ number }) => (number === undefined ? "Draw a wire" : `Draw wire ${number}`),
  change(draft, { from, to, number, fields = {} }, { before, kinds }) {
    for (const end of [from, to]) if (end !== null) requireTerminal(before, end, kinds);
    const given = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
    const typed: Wire = { ...given, id: newId(draft, "w"), number: number ?? nextWireNumber(before), ends: [from, to] };
    const wire = normaliseWire(typed, (field, why) => {
      throw new Refused(`Wire ${typed.number}, ${field}: ${why}`);
    });
    requireWireReferences(before, wire);
    draft.wires.push(castDraft(wire));
    return wire.id;
  },
});
