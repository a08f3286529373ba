/**
 * A controller that closes its contactor itself does so only when it has seen its bus come up. The built-in states know
 * no moment between, say, parked and charging, so that the pre-charge it makes there shows in another state: with that
 * contact open the capacitors stand charged.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, BranchIndex } from "../../network/network.ts";
import { CLOSING_SHARE } from "../../standards/precharge.ts";
import type { Closing } from "./capacitor-closings.ts";

/** The contactor outputs of controllers. */
function contactorDrivers({ network }: Analysis): readonly BranchIndex[] {
  return network.branches.flatMap(({ index, role, part, a, b }) => {
    const out = part?.kind.traits.controller === true ? part.nodes.get("contactor-out") : undefined;
    return role === "driver" && out !== undefined && (a === out || b === out) ? [index] : [];
  });
}

/** Does a controller close one of the contacts of this closing, the last of them, onto capacitors that it has charged? */
export function isSelfCharging(analysis: Analysis, { after, contacts, capacitor, pack }: Closing): boolean {
  const state = analysis.state(after);
  const drivers = contactorDrivers(analysis);
  if (state === undefined || !drivers.some((index) => state.conducting[index] === 1)) return false;
  const released = analysis.solveChanged(state, { open: drivers });
  const isOpen = ({ index }: Branch, { elements }: Pick<typeof state, "elements">): boolean => {
    const element = elements[index];
    return element?.type === "contact" && !element.closed;
  };
  const driven = contacts.filter((contact) => isOpen(contact, released));
  return driven.some((contact) =>
    analysis.states.some(
      (other) =>
        isOpen(contact, other) &&
        Math.abs(analysis.settledCapacitors(other).between(capacitor.a, capacitor.b)) >= (1 - CLOSING_SHARE) * pack,
    ),
  );
}
