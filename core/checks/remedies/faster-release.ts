/** Puts a bidirectional suppressor in the place of a plain diode across a coil, or takes off a diode beside a faster means. */
import type { Network, NetworkPart } from "../../network/network.ts";
import { connect } from "../../project/commands/connect.ts";
import { deleteEntries } from "../../project/commands/delete.ts";
import type { WireEnd } from "../../project/document.ts";
import type { Ratio } from "../../quantity/kinds.ts";
import type { Remedy } from "../define.ts";
import type { CoilAt } from "../words/coils.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { addBeside, alike } from "./insert-part.ts";

/** Clamp for a fast release: between one and two times the coil voltage (common practice, no source). */
const CLAMP: Ratio = 1.5;

/** Offered for one diode on two wires; what is inside a contactor cannot be exchanged. */
export function fasterRelease(
  network: Network,
  { part, coil }: CoilAt,
  diodes: readonly NetworkPart[],
): readonly Remedy[] {
  const [diode, ...others] = diodes;
  if (diode === undefined || others.length > 0) return [];
  const { id, designation } = diode.part;
  const wires = diode.terminals.map((terminal) => network.wiresAt([id, terminal.id]));
  if (wires.length !== 2 || wires.some((each) => each.length !== 1)) return [];
  const leads = wires.flat();
  const ids = leads.map((wire) => wire.id);
  const inside = coil.suppression;
  if (inside === "zener" || inside === "bidirectional") {
    return [
      remedy("take-off-diode", `Take off ${designation}`, (edit) =>
        edit.run(deleteEntries, { parts: [id], wires: ids }),
      ),
    ];
  }
  const volts = part.values.number("coilVoltage");
  if (inside === "diode" || volts === undefined) return [];
  const clampVoltage = atLeast(CLAMP * volts, "V");
  return [
    remedy(
      "faster-release",
      `Put a bidirectional suppressor of ${clampVoltage} in the place of ${designation}`,
      (edit) => {
        edit.run(deleteEntries, { parts: [id], wires: ids });
        const near: WireEnd = [part.part.id, coil.plus];
        const added = addBeside(
          edit,
          { kind: "suppressor", parameters: { type: "bidirectional", clampVoltage } },
          near,
        );
        leads.forEach((wire, index) => {
          const to = wire.ends[wire.ends[0]?.[0] === id ? 1 : 0];
          edit.run(connect, { from: [added, `${index + 1}`], to, fields: { ...alike(wire), length: wire.length } });
        });
      },
    ),
  ];
}
