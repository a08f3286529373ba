/** Puts a disconnect worked by hand right behind the main fuse: all that hung on the fuse then hangs on it. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { BranchIndex } from "../../network/network.ts";
import { connect } from "../../project/commands/connect.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Remedy } from "../define.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { addBeside, alike } from "./insert-part.ts";
import { sizeOf } from "./thicker-wire.ts";

/** From the fuse to the disconnect beside it. */
const LEAD = "0.15 m";

/**
 * Offered where one fuse at the end of the pack cuts everything off when it is out. The disconnect carries what the fuse
 * does, may break load and is made for the pack's highest voltage.
 */
export function fitDisconnect(
  analysis: Analysis,
  pack: Pack,
  cutsOff: (branches: readonly BranchIndex[]) => boolean,
): readonly Remedy[] {
  const { network } = analysis;
  const ends = [pack.positive, pack.negative].map((node) => network.netOfNode[node]);
  for (const { branch, part, rating, inside } of devices(analysis).values()) {
    const far = [branch.a, branch.b].find((node) => !ends.includes(network.netOfNode[node]));
    const atPack = [branch.a, branch.b].some((node) => ends.includes(network.netOfNode[node]));
    const at = far === undefined ? undefined : network.terminalOfNode[far];
    if (inside || !atPack || at === undefined || at[0] !== part.part.id || rating === undefined) continue;
    const wires = network.wiresAt(at);
    if (wires.length === 0 || !cutsOff([branch.index])) continue;
    const volts = chemistryRange([pack]).most;
    const figures = { voltageDc: atLeast(volts, "V"), currentContinuous: atLeast(rating, "A") };
    const label = `Fit a disconnect made for ${figures.currentContinuous}, ${figures.voltageDc} DC behind ${network.label(at)}`;
    return [
      remedy("fit-disconnect", label, (edit) => {
        const finish = volts > CLASS_B_DC ? { finish: "booted" } : {};
        const parameters = { ...figures, breakLoad: "yes", ...finish };
        const added = addBeside(edit, { kind: "manual-disconnect", parameters }, at);
        for (const wire of wires) edit.run(reconnect, { wire: wire.id, end: endAt(wire, at), to: [added, "load"] });
        const thickest = wires.reduce((most, wire) => (area(wire) > area(most) ? wire : most));
        edit.run(connect, { from: at, to: [added, "line"], fields: { ...alike(thickest), length: LEAD } });
      }),
    ];
  }
  return [];
}

const area = (wire: Wire): number => sizeOf(wire)?.area ?? 0;

const endAt = ({ ends }: Wire, [part, terminal]: WireEnd): 0 | 1 =>
  ends[0]?.[0] === part && ends[0][1] === terminal ? 0 : 1;
