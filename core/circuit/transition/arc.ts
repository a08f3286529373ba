/**
 * A contact that parts while a coil still pushes current through it: the voltage rises until the gap breaks down, and
 * an arc carries the current until it is zero. So a coil without suppression has a finite peak.
 */
import type { Contact, Element } from "../../parts/element.ts";
import type { Ohm, Volt } from "../../quantity/kinds.ts";

/**
 * No gap in air breaks down below this, whatever its width: the minimum of Paschen's curve (about 327 V; handbooks of
 * gas discharges, from memory). It is added to the largest EMF, as the gap holds off the supply as well.
 */
export const BREAKDOWN_LEAST: Volt = 327;
const ARC: Ohm = 0.1;

/** The voltage that an opening contact lets through: the least breakdown voltage of air beside the largest EMF. */
export function breakdown(elements: readonly Element[]): Volt {
  let most = 0;
  for (const element of elements) {
    if (element.type === "source" || element.type === "limited-source") most = Math.max(most, Math.abs(element.emf));
  }
  return BREAKDOWN_LEAST + most;
}

/** An opening contact, until its current is gone. */
export function parting({ name, a, b, role }: Contact, clamp: Volt): Element {
  return { type: "clamp", name, a, b, role, clamp, resistance: ARC, oneWay: false };
}
