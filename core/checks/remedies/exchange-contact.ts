/** Exchanges a contactor, relay or switch for one of higher ratings: the figures that have to be bought stand in the label. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";

/** `name`: the parameter that states the rating. */
export function contactForVolts({ part }: NetworkPart, name: string, least: Volt): Remedy {
  const value = atLeast(least, "V");
  return remedy("contact-for-volts", `Exchange ${part.designation} for one made for ${value} DC`, (edit) =>
    edit.run(setParameter, { changes: [{ part: part.id, name, value }] }),
  );
}

/** Offered where a field of its own states what it breaks, and the voltage at which it has to is stated as well. */
export function contactThatBreaks(
  { part }: NetworkPart,
  { breakingParameter: name, voltage }: ContactSpec,
  least: Ampere,
): readonly Remedy[] {
  if (name === undefined || voltage === undefined) return [];
  const value = atLeast(least, "A");
  const label = `Exchange ${part.designation} for one that breaks ${value} at ${atLeast(voltage, "V")} DC`;
  return [
    remedy("contact-that-breaks", label, (edit) =>
      edit.run(setParameter, { changes: [{ part: part.id, name, value }] }),
    ),
  ];
}

/**
 * Offered where the contact is the one weak link: every wire on it is known to carry the current. Where the wires are
 * too thin as well, what draws the current is looked for first.
 */
export function contactForCurrent(
  analysis: Analysis,
  { part, terminals }: NetworkPart,
  name: string,
  least: Ampere,
): readonly Remedy[] {
  const { network } = analysis;
  const carries = terminals
    .flatMap(({ id }) => network.wiresAt([part.id, id]))
    .every(({ id }) => {
      const conductor = network.conductorByWire.get(id);
      const ampacity = conductor === undefined ? undefined : wireAmpacity(analysis, conductor);
      return ampacity?.known === true && ampacity.low >= least;
    });
  if (!carries) return [];
  const value = atLeast(least, "A");
  return [
    remedy("contact-for-current", `Exchange ${part.designation} for one made for ${value}`, (edit) =>
      edit.run(setParameter, { changes: [{ part: part.id, name, value }] }),
    ),
  ];
}
