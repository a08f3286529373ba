/** Wires with an end that is on no terminal. */
import type { Network } from "../../network/network.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import type { Place } from "../define.ts";
import { defineCheck } from "../define.ts";
import { connectLooseEnd, waitingFor } from "../remedies/loose-end.ts";
import { takeOffWire } from "../remedies/take-out.ts";

const placeOf = ([part, terminal]: WireEnd): Place => ({ part, terminal });

/** A terminal that its part does not have (any more). Parts of unknown kind are not judged. */
const isGone = (network: Network, [part, terminal]: WireEnd): boolean => {
  const known = network.partById.get(part);
  return known !== undefined && !known.terminals.some(({ id }) => id === terminal);
};

function problem(network: Network, wire: Wire): { readonly message: string; readonly end?: WireEnd } | undefined {
  const [a, b] = wire.ends;
  if (a === null && b === null) return { message: "both" };
  const gone = wire.ends.find((end) => end !== null && isGone(network, end));
  if (gone !== undefined && gone !== null) return { message: "gone", end: gone };
  const end = a === null ? b : b === null ? a : null;
  return end === null ? undefined : { message: "one", end };
}

export const wireLooseEnd = defineCheck({
  id: "wire-loose-end",
  group: "connections",
  title: "Loose wire end",
  about:
    "Looks at both ends of every wire: each must be on a terminal that its part has. It cannot see a crimp that is on the drawing and has come off in the vehicle.",
  severities: ["WARNING"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "The ends of a wire are always in the document." },
  messages: {
    one: {
      title: "{wire} leads from {end} to nowhere: its other end is on no terminal.",
      why: "A bare end can touch anything around it and carry the voltage of {end} there, and whatever it should feed gets nothing.",
      mend: "Put the loose end on the terminal it is meant for, or take the wire off the drawing.",
    },
    waiting: {
      title: "{wire} leads from {end} to nowhere: its other end is on no terminal.",
      why: "A bare end can touch anything around it and carry the voltage of {end} there, and whatever it should feed gets nothing.",
      mend: "Put the loose end on {waiting}, the one terminal of the drawing that still needs a wire, if that is where it belongs.",
    },
    both: {
      title: "Neither end of {wire} is on a terminal.",
      why: "A wire that joins nothing tells a builder nothing and may be one that is missing elsewhere.",
      mend: "Put both ends on their terminals, or take the wire off the drawing.",
    },
    gone: {
      title: "{wire} ends at {end}, but the part has no such terminal.",
      why: "The wire is then on nothing at all; this happens when a part is given fewer pins or poles than are wired.",
      mend: "Move the end to a terminal that the part has, or give the part as many positions as the real one has.",
    },
  },
  reasons: {},
  run({ network }, report) {
    const { wires } = network.project;
    for (const wire of wires) {
      const found = problem(network, wire);
      if (found === undefined) {
        report.passes({ wire: wire.id });
        continue;
      }
      const end = found.end === undefined ? {} : { end: { place: placeOf(found.end) } };
      const to = found.message === "one" ? waitingFor(network, wire) : undefined;
      const waiting = to === undefined ? {} : { waiting: { place: placeOf(to) } };
      report.fails({
        message: to === undefined ? found.message : "waiting",
        facts: { wire: { place: { wire: wire.id } }, ...end, ...waiting },
        severity: "WARNING",
        where: [{ wire: wire.id }],
        // A part with too few positions lets go of all wires on the missing ones.
        ...(found.message === "gone" && found.end !== undefined ? { cause: `gone ${found.end[0]}` } : {}),
        touches: [...wire.ends, to ?? null].flatMap((at) => (at === null ? [] : [placeOf(at)])),
        remedies:
          found.message === "both"
            ? [takeOffWire(wire)]
            : found.message === "one"
              ? connectLooseEnd(network, wire)
              : [],
      });
    }
  },
});
