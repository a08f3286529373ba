/** Exchanges a pre-charge resistor for one of the same ohms that stands more. */
import type { NetworkPart } from "../../network/network.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import type { Joule, Watt } from "../../quantity/kinds.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";

export function resistorFor({ part }: NetworkPart, name: "power" | "pulseEnergy", least: Watt | Joule): Remedy {
  const value = atLeast(least, name === "power" ? "W" : "J");
  const what = name === "power" ? `of ${value}` : `for pulses of ${value}`;
  return remedy("larger-resistor", `Fit a resistor ${what} for ${part.designation}`, (edit) =>
    edit.run(setParameter, { changes: [{ part: part.id, name, value }] }),
  );
}
