/** Puts the one loose end of a drawing on the one terminal that waits for a wire. */
import type { Network } from "../../network/network.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";

/** Which of several ends belongs on which of several terminals nobody but the owner knows. */
export function connectLooseEnd(network: Network, wire: Wire): readonly Remedy[] {
  const loose = network.project.wires.flatMap(({ ends }) => ends.filter((end) => end === null));
  const end = wire.ends[0] === null ? 0 : 1;
  const far = wire.ends[end === 0 ? 1 : 0];
  const open = network.parts.flatMap(({ part, terminals }) =>
    terminals.flatMap(({ id, required }): WireEnd[] => {
      const at: WireEnd = [part.id, id];
      return required && network.wiresAt(at).length === 0 ? [at] : [];
    }),
  );
  const [to, ...others] = open;
  if (loose.length !== 1 || to === undefined || others.length > 0 || far === null || to[0] === far[0]) return [];
  return [
    remedy("connect-loose-end", `Put the loose end of wire ${wire.number} on ${network.label(to)}`, (edit) =>
      edit.run(reconnect, { wire: wire.id, end, to }),
    ),
  ];
}
