/** Takes off what should not be there: a wire, or a part of two terminals whose wires then become one. */
import type { Network, NetworkPart } from "../../network/network.ts";
import { deleteEntries } from "../../project/commands/delete.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import { setWireField } from "../../project/commands/set-wire-field.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import { plainNumber } from "../../quantity/print.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";

/** With it go `parts` that were there for this wire alone. */
export function takeOffWire({ id, number }: Pick<Wire, "id" | "number">, parts: readonly string[] = []): Remedy {
  return remedy("take-off-wire", `Take off wire ${number}`, (edit) => edit.run(deleteEntries, { parts, wires: [id] }));
}

/** No terminal that its part cannot work without loses its only wire, those of `going` parts left aside. */
export function isSpare(network: Network, { id, ends }: Wire, going: readonly string[]): boolean {
  return ends.every((end) => {
    if (end === null || going.includes(end[0])) return true;
    if (network.wiresAt(end).some((other) => other.id !== id)) return true;
    const terminal = network.partById.get(end[0])?.terminals.find((each) => each.id === end[1]);
    return terminal?.required !== true;
  });
}

/** One wire of the same size on either terminal: the first then runs on to where the second ended. */
export function takeOutPart(network: Network, { part, terminals }: NetworkPart, where: string): readonly Remedy[] {
  const wires = terminals.map((terminal) => network.wiresAt([part.id, terminal.id]));
  const [[first] = [], [second] = []] = wires;
  if (wires.length !== 2 || wires.some((each) => each.length !== 1) || first === undefined || second === undefined)
    return [];
  if (first.id === second.id || first.size !== second.size) return [];
  const end = sideAt(first, part.id);
  const to = second.ends[sideAt(second, part.id) === 0 ? 1 : 0];
  if (to === null) return [];
  const lengths = [first, second].map(lengthOf);
  const sum = lengths.reduce<number | undefined>(
    (total, each) => (total === undefined || each === undefined ? undefined : total + each),
    0,
  );
  return [
    remedy("take-out-part", `Take ${part.designation} out of ${where}`, (edit) => {
      edit.run(reconnect, { wire: first.id, end, to });
      edit.run(deleteEntries, { parts: [part.id], wires: [second.id] });
      const length = sum === undefined ? undefined : `${plainNumber(sum)} m`;
      edit.run(setWireField, { changes: [{ wire: first.id, fields: { length } }] });
    }),
  ];
}

const sideAt = ({ ends }: Wire, part: string): 0 | 1 => (ends[0]?.[0] === part ? 0 : 1);

function lengthOf({ length }: Wire): number | undefined {
  const reading = length == null ? undefined : parseQuantity(length, "length");
  return reading?.ok === true ? reading.value : undefined;
}

/** The only wire that runs straight between two terminals. */
export function wireBetween(network: Network, a: WireEnd, b: WireEnd): Wire | undefined {
  const is = (end: WireEnd | null, other: WireEnd): boolean => end?.[0] === other[0] && end[1] === other[1];
  const [wire, ...others] = network
    .wiresAt(a)
    .filter(({ ends: [x, y] }) => (is(x, a) && is(y, b)) || (is(x, b) && is(y, a)));
  return others.length > 0 ? undefined : wire;
}
