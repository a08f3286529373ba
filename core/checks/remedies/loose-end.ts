/** Puts the one loose end of a drawing on the one terminal that waits for a wire. */
import type { Network } from "../../network/network.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";

/**
 * The terminal that a wire's loose end belongs on, if it is the only loose end of the drawing and the only terminal
 * that waits: which of several belongs on which nobody but the owner knows.
 */
export function waitingFor(network: Network, wire: Wire): WireEnd | undefined {
  const loose = network.project.wires.flatMap(({ ends }) => ends.filter((end) => end === null));
  const far = wire.ends[wire.ends[0] === null ? 1 : 0];
  const open = network.parts.flatMap(({ part, terminals }) =>
    terminals.flatMap(({ id, required, neededWith = [], unless = [] }): WireEnd[] => {
      const at: WireEnd = [part.id, id];
      const wired = (other: string): boolean => network.wiresAt([part.id, other]).length > 0;
      const needed = required || (neededWith.some(wired) && !unless.some(wired));
      return needed && !wired(id) ? [at] : [];
    }),
  );
  const [to, ...others] = open;
  if (loose.length !== 1 || others.length > 0 || far === null || to?.[0] === far?.[0]) return undefined;
  return to;
}

export function connectLooseEnd(network: Network, wire: Wire): readonly Remedy[] {
  const to = waitingFor(network, wire);
  if (to === undefined) return [];
  const end = wire.ends[0] === null ? 0 : 1;
  return [
    remedy("connect-loose-end", `Put the loose end of wire ${wire.number} on ${network.label(to)}`, (edit) =>
      edit.run(reconnect, { wire: wire.id, end, to }),
    ),
  ];
}
