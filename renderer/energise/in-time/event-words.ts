/** What happens in a transition, as a row of the list. */
import type { TransitionView } from "../../window/analysis/protocol.ts";

type Event = TransitionView["document"]["events"][number];

export interface EventRow {
  readonly time: number;
  /** Id of the part that does it. */
  readonly part: string | null;
  readonly words: string;
}

const VERBS: Readonly<Record<string, string>> = {
  closes: "closes",
  opens: "opens",
  "pulls-in": "pulls in",
  "drops-out": "drops out",
  starts: "starts",
  stops: "stops",
  elapses: "has waited",
  blows: "blows",
};

function sentence({ part, what, reason }: Event): string {
  if (part === null) return reason;
  const verb = VERBS[what];
  // A control says all of it itself ("S9 goes to pressed"); of a capacitor only whose it is.
  if (verb === undefined) return what === "below-60" ? `${part}: ${reason}` : reason;
  return reason === "" ? `${part} ${verb}` : `${part} ${verb}: ${reason}`;
}

/** Contacts of one part that move at the same moment for the same reason are one row. */
export function eventRows(events: readonly Event[]): readonly EventRow[] {
  const rows: EventRow[] = [];
  for (const event of events) {
    const row: EventRow = { time: event.time, part: event.id, words: sentence(event) };
    const last = rows.at(-1);
    if (last === undefined || last.time !== row.time || last.words !== row.words) rows.push(row);
  }
  return rows;
}
