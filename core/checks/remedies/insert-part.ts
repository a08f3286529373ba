/** Puts a part of two terminals into a wire, close to one of its ends; or beside a part, with wires of its own. */
import { addPart } from "../../project/commands/add-part.ts";
import { connect } from "../../project/commands/connect.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireFields } from "../../project/commands/set-wire-field.ts";
import type { Parameters, Part, Wire, WireEnd } from "../../project/document.ts";
import type { Edit } from "./edit.ts";
import { placeNear } from "./free-place.ts";

export interface NewPart {
  readonly kind: string;
  readonly parameters: Parameters;
}

/** Adds a part in the zone and enclosure of the one that it stands beside, with its symbol near that one's terminal. */
export function addBeside(edit: Edit, { kind, parameters }: NewPart, near: WireEnd): string {
  const { zone, enclosure }: Partial<Part> = edit.project.parts.find(({ id }) => id === near[0]) ?? {};
  const part = edit.run(addPart, {
    kind,
    parameters,
    ...(zone === undefined ? {} : { zone }),
    ...(enclosure === undefined ? {} : { enclosure }),
  });
  placeNear(edit, part, near);
  return part;
}

/** What a further piece of a wire has in common with it. */
export function alike({ size, colour, insulation, sheath }: Wire): WireFields {
  return { size, colour, insulation, sheath };
}

export interface Insertion {
  readonly wire: Wire;
  /** The end of the wire that the part comes close to. */
  readonly end: 0 | 1;
  /** Length of the new piece between that end and the part, as typed. */
  readonly lead: string;
  /** The part's terminals: towards that end, and towards the rest of the wire. */
  readonly terminals: readonly [string, string];
}

/** The wire keeps its number and its length; a new piece leads from its old place to the part. Gives the part's id. */
export function insertPart(edit: Edit, added: NewPart, { wire, end, lead, terminals }: Insertion): string {
  const near = wire.ends[end];
  if (near === null) throw new Error(`wire ${wire.id} has a loose end`);
  const part = addBeside(edit, added, near);
  const boot = wire.boots?.[end];
  const lug = wire.lugs?.[end];
  edit.run(reconnect, { wire: wire.id, end, to: [part, terminals[1]] });
  edit.run(connect, {
    from: near,
    to: [part, terminals[0]],
    fields: {
      ...alike(wire),
      length: lead,
      ...(boot == null ? {} : { boots: [boot, boot] }),
      ...(lug == null ? {} : { lugs: [lug, lug] }),
    },
  });
  return part;
}
