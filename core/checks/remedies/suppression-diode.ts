/** The edit that puts a diode across a coil: ring (cathode) on the side that is plus while the coil is on. */
import { connect } from "../../project/commands/connect.ts";
import type { Project, WireEnd } from "../../project/document.ts";
import type { Volt } from "../../quantity/kinds.ts";
import type { Remedy } from "../define.ts";
import type { CoilAt } from "../words/coils.ts";
import { remedy } from "./edit.ts";
import { addBeside, alike } from "./insert-part.ts";

/** Lead from a diode to the coil that it lies on. */
const LEAD = "0.1 m";

/** `volts`: across the coil while it is on, plus against minus. */
export function suppressionDiode({ part, coil }: CoilAt, volts: Volt): readonly Remedy[] {
  const { id, designation } = part.part;
  const ends = (volts >= 0 ? [coil.plus, coil.minus] : [coil.minus, coil.plus]).map((end): WireEnd => [id, end]);
  return [
    remedy("suppression-diode", `Put a diode across the coil of ${designation}`, (edit) => {
      const diode = addBeside(edit, { kind: "diode", parameters: {} }, [id, coil.plus]);
      ["cathode", "anode"].forEach((terminal, index) => {
        const to = ends[index] ?? null;
        edit.run(connect, { from: [diode, terminal], to, fields: { ...likeAt(edit.project, to), length: LEAD } });
      });
    }),
  ];
}

/** Size, colour and insulation of a wire that is on the terminal already. */
function likeAt({ wires }: Project, at: WireEnd | null) {
  const wire = wires.find(({ ends }) => ends.some((end) => end?.[0] === at?.[0] && end?.[1] === at?.[1]));
  return wire === undefined ? {} : { ...alike(wire), sheath: undefined };
}
