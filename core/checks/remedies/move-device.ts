/** Moves a fuse or breaker along its wire to the source: the wire ahead of it gets short, the one behind it longer. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Network, NetworkPart } from "../../network/network.ts";
import { setPartField } from "../../project/commands/set-part-field.ts";
import { setWireField } from "../../project/commands/set-wire-field.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import { plainNumber } from "../../quantity/print.ts";
import type { Metre } from "../../quantity/kinds.ts";
import type { Remedy } from "../define.ts";
import type { PoleRun } from "../words/pole-runs.ts";
import { remedy } from "./edit.ts";
import { LEAD } from "./fit-fuse.ts";

/** A device that one wire leads to straight from a block or an output. */
export function deviceToSource({ network }: Analysis, { entrance, wires, origin }: PoleRun): readonly Remedy[] {
  const [ahead, ...more] = wires;
  const source = network.partById.get(network.terminalOfNode[origin]?.[0] ?? "");
  const device = entrance?.branch.role === "protection" ? entrance.branch.part : undefined;
  if (ahead === undefined || more.length > 0 || source === undefined || device === undefined) return [];
  return moveToSource(network, device, ahead.wire, source);
}

/**
 * Offered where one wire alone leads from the source's own terminal to the device, one alone on from it, and nothing
 * states where on a panel the device sits. It then lies where the source does.
 */
function moveToSource(network: Network, device: NetworkPart, ahead: Wire, source: NetworkPart): readonly Remedy[] {
  const { id, designation, panel } = device.part;
  const terminals = device.terminals.map((terminal): WireEnd => [id, terminal.id]);
  const wires = terminals.map((end) => network.wiresAt(end));
  const behind = wires.flat().filter((wire) => wire.id !== ahead.id);
  const length = lengthOf(ahead);
  const [next, ...others] = behind;
  if (terminals.length !== 2 || wires.some((each) => each.length !== 1) || next === undefined || others.length > 0)
    return [];
  if (panel !== undefined || length === undefined || length <= LEAD) return [];
  if (!ahead.ends.some((end) => end?.[0] === source.part.id)) return [];
  const onward = lengthOf(next);
  const { zone, enclosure } = source.part;
  return [
    remedy(
      "move-to-source",
      `Move ${designation} to within ${LEAD * 1000} mm of ${source.part.designation}`,
      (edit) => {
        const changes = [
          { wire: ahead.id, fields: { length: `${LEAD} m` } },
          ...(onward === undefined
            ? []
            : [{ wire: next.id, fields: { length: `${plainNumber(onward + length - LEAD)} m` } }]),
        ];
        edit.run(setWireField, { changes });
        edit.run(setPartField, { changes: [{ part: id, fields: { zone, enclosure } }] });
      },
    ),
  ];
}

function lengthOf({ length }: Wire): Metre | undefined {
  const reading = length == null ? undefined : parseQuantity(length, "length");
  return reading?.ok === true ? reading.value : undefined;
}
