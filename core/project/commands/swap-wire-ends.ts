import { defineCommand, draftWire } from "./define.ts";

/** Swaps the terminals that two wires' ends (or the two ends of one wire) are on; lugs and boots stay with the wire's ends. */
export const swapWireEnds = defineCommand<{
  readonly a: { readonly wire: string; readonly end: 0 | 1 };
  readonly b: { readonly wire: string; readonly end: 0 | 1 };
}>({
  id: "swap-wire-ends",
  label: () => "Swap two wire ends",
  change(draft, { a, b }, { before }) {
    const one = draftWire(draft, a.wire, before);
    const other = draftWire(draft, b.wire, before);
    const kept = one.ends[a.end];
    one.ends[a.end] = other.ends[b.end];
    other.ends[b.end] = kept;
    delete one.routes;
    delete other.routes;
  },
});
