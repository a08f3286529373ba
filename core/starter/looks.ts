/** How the wires of a vehicle look: size, colour (IEC 60757), insulation, and the conduit that they share. */
import type { Answers } from "./answers.ts";
import type { WireLook } from "./draft.ts";
import type { Figures } from "./figures.ts";

const HIGH = { material: "XLPE", volts: "600 V", temperature: "125 C" };
const LOW = { material: "PVC", volts: "100 V", temperature: "105 C" };

export interface Looks {
  /** The main circuit, and the motor's. */
  readonly main: WireLook;
  /** From the main circuit to a branch's fuse: the main fuse alone protects it. */
  readonly stub: WireLook;
  /** Branches of the traction circuit behind a fuse of 5 to 25 A. */
  readonly branch: WireLook;
  readonly chargeLead: WireLook;
  /** Voltage senses of the traction circuit. */
  readonly sense: WireLook;
  /** A wire of the key's circuit: at pack voltage where the electronics are fed from the pack. */
  readonly key: (colour: string) => WireLook;
  /** 12 V wires. */
  readonly low: (size: LowSize, colour: string) => WireLook;
  /** Case to chassis. */
  readonly bond: WireLook;
}

/** Roles of 12 V wires: feed of the fuse box, converter, lamps, the rest. */
type LowSize = "feed" | "converter" | "lamp" | "signal";

const METRIC = {
  feed: "16 mm2",
  converter: "10 mm2",
  lamp: "2.5 mm2",
  signal: "1.5 mm2",
  stub: "16 mm2",
  branch: "4 mm2",
  charge: "6 mm2",
};
const GAUGES = {
  feed: "4 AWG",
  converter: "6 AWG",
  lamp: "12 AWG",
  signal: "14 AWG",
  stub: "6 AWG",
  branch: "10 AWG",
  charge: "8 AWG",
};

/** Above 60 V every traction cable is orange (UN R100, ISO 6469-3); below it may be, and here it is as well. */
export function looksOf({ sizes, logic }: Answers, { mainSize }: Figures): Looks {
  const size = sizes === "AWG" ? GAUGES : METRIC;
  const traction = (area: string, conduit: string): WireLook => ({
    size: area,
    colour: "OG",
    insulation: HIGH,
    conduit: `orange conduit ${conduit}`,
  });
  const low = (role: LowSize, colour: string): WireLook => ({
    size: size[role],
    colour,
    insulation: LOW,
    conduit: "black conduit",
  });
  return {
    main: traction(mainSize, "for the main cables"),
    stub: traction(size.stub, "for branches"),
    branch: traction(size.branch, "for branches"),
    chargeLead: traction(size.charge, "for the charger"),
    sense: traction(size.signal, "for senses"),
    key: (colour) => (logic === "pack-fed" ? traction(size.lamp, "for the key's wires") : low("lamp", colour)),
    low,
    bond: { size: size.feed, colour: "GNYE", insulation: LOW, conduit: "black conduit" },
  };
}
