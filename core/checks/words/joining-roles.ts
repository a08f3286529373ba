/** Which branches join what lies at their two ends to one circuit, whatever little they let through. */
import type { Role } from "../../parts/element.ts";

/** Metal and whatever a circuit's own current is meant to pass; capacitors, leaks and measuring inputs join nothing. */
export const JOINING: ReadonlySet<Role> = new Set<Role>([
  "conductor",
  "contact",
  "protection",
  "shunt",
  "diode",
  "coil",
  "resistor",
  "load",
  "driver",
]);
