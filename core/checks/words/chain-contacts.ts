/** The three contacts that are asked of every enable chain (pedal, brake, crash), looked for in one way. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { MissingField, Remedy, Report } from "../define.ts";
import { isDrawnIn, isEnabled, movedBy, running, unstatedEnable, withMoved } from "./drive-enable.ts";
import { partPlace } from "./places.ts";
import type { TractionPair } from "./traction-pairs.ts";

/** Contacts of which nobody said what moves them. */
export function unstatedActuators(analysis: Analysis): readonly MissingField[] {
  return analysis.network.parts
    .filter((part) => Object.hasOwn(part.kind.parameters, "actuator") && isDrawnIn(analysis, part))
    .filter(({ values }) => values.choice("actuator") === undefined)
    .map(({ part }) => ({ part: part.id, parameter: "actuator" }));
}

/**
 * Which drives lose their enable when this change of condition moves the contacts that follow it. The throttle's own
 * signal stays where it is: a signal is no contact. Messages: `missing`; reasons: `never`, `actuator`.
 */
export function lookForContact(
  analysis: Analysis,
  report: Report,
  change: Partial<Condition>,
  mayBeUnstated: boolean,
  remedies?: (left: readonly TractionPair[]) => readonly Remedy[],
): void {
  const { driving, enabled, never } = running(analysis);
  if (driving === undefined || enabled.length + never.length === 0) {
    report.doesNotApply();
    return;
  }
  const isContact = ({ kind }: NetworkPart): boolean => kind.traits.throttle !== true && kind.traits.sensor !== true;
  const set = movedBy(analysis, driving.condition, change, isContact);
  const moved = withMoved(analysis, driving, set);
  const left = enabled.filter((drive) => isEnabled(analysis, moved, drive));
  for (const drive of enabled) if (!left.includes(drive)) report.passes(drive.place);
  const facts = (parts: readonly { readonly part: NetworkPart }[]) => ({
    parts: { places: parts.map(({ part }) => partPlace(part)) },
  });
  for (const drive of never)
    report.notChecked({
      where: [drive.place],
      reason: "never",
      facts: facts([drive]),
      missing: unstatedEnable(analysis),
    });
  if (left.length === 0) return;
  const unstated = mayBeUnstated ? unstatedActuators(analysis) : [];
  if (unstated.length > 0) {
    for (const drive of left)
      report.notChecked({ where: [drive.place], reason: "actuator", facts: facts([drive]), missing: unstated });
    return;
  }
  report.fails({
    message: "missing",
    facts: facts(left),
    severity: "NOTICE",
    where: left.map(({ place }) => place),
    states: [driving.name],
    ...(remedies === undefined ? {} : { remedies: remedies(left) }),
  });
}
