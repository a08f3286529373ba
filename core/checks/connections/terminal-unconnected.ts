/** Terminals that carry no wire although the part needs them. */
import type { NetworkPart, Network } from "../../network/network.ts";
import type { Wire } from "../../project/document.ts";
import type { Report } from "../define.ts";
import { defineCheck } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** Wires at the terminal that lead to another one. */
const leading = (network: Network, part: NetworkPart, terminal: string): readonly Wire[] =>
  network
    .wiresAt([part.part.id, terminal])
    .filter(({ ends: [a, b] }) => a !== null && b !== null && (a[0] !== b[0] || a[1] !== b[1]));

interface Lacking {
  readonly required: string[];
  readonly partner: string[];
  readonly because: Set<string>;
  readonly undecided: Map<string, string[]>;
  /** Terminals that were in question and are wired. */
  readonly wired: string[];
}

function lookAt(network: Network, part: NetworkPart): Lacking {
  const used = new Set(part.terminals.map(({ id }) => id).filter((id) => leading(network, part, id).length > 0));
  const found: Lacking = { required: [], partner: [], because: new Set(), undecided: new Map(), wired: [] };
  for (const { id, required, neededWith, unless, undecided } of part.terminals) {
    const because = (neededWith ?? []).filter((other) => used.has(other));
    const calledFor = because.length > 0 && !(unless ?? []).some((other) => used.has(other));
    if (used.has(id)) {
      if (required || calledFor) found.wired.push(id);
    } else if (undecided !== undefined && !calledFor) {
      found.undecided.set(undecided, [...(found.undecided.get(undecided) ?? []), id]);
    } else if (required) {
      found.required.push(id);
    } else if (calledFor) {
      found.partner.push(id);
      for (const other of because) found.because.add(other);
    }
  }
  return found;
}

/** Two terminals without a wire, and no others, want the one wire between them. */
const BETWEEN = "the wire between two terminals";

function tell(network: Network, part: NetworkPart, found: Lacking, twoLeft: boolean, report: Report): void {
  const places = (ids: readonly string[]) => ids.map((id) => terminalPlace(part, id));
  const loose = (ids: readonly string[]) =>
    ids.flatMap((id) => network.wiresAt([part.part.id, id]).map((wire) => ({ wire: wire.id })));
  const isBare = part.terminals.every(({ id }) => leading(network, part, id).length === 0);
  if (found.required.length > 0) {
    report.fails({
      message: isBare ? "bare" : "needed",
      facts: { part: { place: partPlace(part) }, terminals: { places: places(found.required) } },
      severity: "WARNING",
      where: places(found.required),
      touches: loose(found.required),
      // Parts that are on the sheet and not wired yet are one thing to go on with.
      ...(isBare ? { cause: "bare" } : twoLeft ? { cause: BETWEEN } : {}),
    });
  }
  if (found.partner.length > 0) {
    report.fails({
      message: "partner",
      facts: {
        terminals: { places: places(found.partner) },
        used: { places: places([...found.because]) },
      },
      severity: "NOTICE",
      where: places(found.partner),
      touches: [...places([...found.because]), ...loose(found.partner)],
      variant: "partner",
      ...(twoLeft ? { cause: BETWEEN } : {}),
    });
  }
  for (const [parameter, ids] of found.undecided) {
    report.notChecked({
      where: places(ids),
      reason: "undecided",
      facts: { terminals: { places: places(ids) } },
      missing: [{ part: part.part.id, parameter }],
    });
  }
  report.passes(...places(found.wired));
}

export const terminalUnconnected = defineCheck({
  id: "terminal-unconnected",
  group: "connections",
  title: "Terminal without a wire",
  about:
    "Looks at every terminal that a part cannot work without, and at optional ones that another wired terminal calls for: the other end of a contact, the return of a sensor. A wire whose far end is loose does not count. It cannot see whether the wire leads to the right place; that is for the checks on what the circuit does.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "What each kind of part needs in order to work; common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    needed: {
      title: "No wire leads to {terminals}, which {part} cannot do without.",
      why: "The part will not work, or will work in a way that nobody intended, and every other check takes this terminal as open.",
      mend: "Draw the wire to {terminals}; if this terminal does not exist on your part, choose the kind of part that fits it.",
    },
    bare: {
      title: "Nothing is wired to {part}: no wire leads to {terminals}.",
      why: "A part on the drawing that is connected to nothing is either forgotten or left over, and a builder cannot tell which.",
      mend: "Wire {terminals}, or take {part} off the drawing.",
    },
    partner: {
      title: "No wire leads to {terminals}, although {used} is in use.",
      why: "A contact with one open end, or a signal without its return, does nothing, or picks up whatever is nearby.",
      mend: "Draw the missing wire to {terminals}, or take off the one at {used}.",
    },
  },
  reasons: {
    undecided: "Whether {terminals} must be wired is not known.",
  },
  foldsUnder: ["wire-loose-end"],
  run({ network }, report) {
    const all = network.parts.map((part) => [part, lookAt(network, part)] as const);
    const open = all.filter(([, { required, partner }]) => required.length + partner.length > 0);
    const twoLeft =
      open.length === 2 && open.every(([, { required, partner }]) => required.length + partner.length === 1);
    for (const [part, found] of all) {
      const { required, partner, undecided, wired } = found;
      if (required.length + partner.length + undecided.size + wired.length === 0) report.doesNotApply(partPlace(part));
      else tell(network, part, found, twoLeft, report);
    }
  },
});
