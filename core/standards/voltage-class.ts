/** Voltage classes of vehicles and the limits that hang on them. */
import type { Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** Above these a circuit is class B and has to be guarded, marked, orange and monitored. */
export const CLASS_B_DC: Volt = 60;
export const CLASS_B_AC: Volt = 30;
export const CLASS_B_SOURCE: Source = {
  text: "FMVSS 305: above 60 V DC or 30 V AC; class B of ISO 6469-3 and high voltage of UN R100 begin there too",
  known: "seen",
};
/** Beyond these no vehicle class is defined. */
const CLASS_B_TOP = { dc: 1500, ac: 1000 } as const;

/** "A" up to and including 60 V DC or 30 V AC rms, "B" above, "beyond" above 1500 V DC or 1000 V AC. */
export function voltageClass(volts: Volt, kind: "dc" | "ac" = "dc"): "A" | "B" | "beyond" {
  const size = Math.abs(volts);
  if (size > CLASS_B_TOP[kind]) return "beyond";
  return size > (kind === "dc" ? CLASS_B_DC : CLASS_B_AC) ? "B" : "A";
}
