/** The 12 V side: battery, fuse box, lamps, and the converter that keeps the battery charged. */
import type { Draft } from "./draft.ts";
import type { Vehicle } from "./vehicle.ts";
import { branchFuse } from "./traction.ts";

/** Shapes of published limits: bolt-in strip fuses and blade fuses (ISO 8820, from memory). */
const STRIP_CURVE = "1.35:600 s; 2:5 s; 3.5:1 s; 6:0.3 s; 10:0.1 s; 20:0.02 s";
const BLADE_CURVE = "1.35:60 s; 1.6:10 s; 2:1 s; 3.5:0.2 s; 6:0.05 s; 10:0.02 s; 20:0.005 s";

function stripFuse(draft: Draft, designation: string, spot: "motor bay" | "12 V box", rating: number): void {
  draft.part(designation, "fuse", spot, {
    rating: `${rating} A`,
    voltageDc: "58 V",
    voltageAc: "58 V",
    interrupting: "2.5 kA",
    curve: "bolted-strip",
    curvePoints: STRIP_CURVE,
    holderRating: "100 A",
  });
}

/** A blade fuse on the feed bar of the fuse box; gives the terminal behind it. */
export function blade(draft: Draft, { looks }: Vehicle, designation: string, rating: number): string {
  draft.part(designation, "fuse", "12 V box", {
    rating: `${rating} A`,
    voltageDc: "32 V",
    voltageAc: "32 V",
    interrupting: "2 kA",
    curve: "blade",
    curvePoints: BLADE_CURVE,
    holderRating: "30 A",
  });
  draft.wire(draft.tap("X2"), `${designation}:1`, looks.low("lamp", "RD"));
  return `${designation}:2`;
}

const lamp = (draft: Draft, name: string, spot: "cab" | "outside", watts: number): void => {
  draft.part(name, "lamp", spot, {
    alwaysOn: "no",
    voltage: "12 V",
    voltageMax: "16 V",
    power: `${watts} W`,
    needsPolarity: "no",
  });
};

export function auxiliary(draft: Draft, vehicle: Vehicle): void {
  const { answers, looks, contact12 } = vehicle;
  const red = looks.low("feed", "RD");
  const black = looks.low("feed", "BK");
  draft.part("G20", "battery-block", "motor bay", {
    duty: "auxiliary",
    chemistry: "flooded-lead",
    cells: "6",
    capacity: "60 Ah",
    resistance: "8 mohm",
    dischargeMax: "300 A",
    chargeMax: "30 A",
    internalMonitor: "no",
    isolation: "20 Mohm",
  });
  stripFuse(draft, "F20", "motor bay", 60);
  draft.part("X1", "chassis-point", "motor bay", { structure: "body" });
  draft.part("X10", "chassis-point", "motor bay", { structure: "body" });
  draft.wire("G20:+", "F20:1", red, { length: 0.15 });
  draft.wire("F20:2", draft.tap("X2"), red);
  draft.wire("G20:-", "X1:stud", black);
  draft.wire(draft.tap("X4"), "X10:stud", black);
  if (answers.logic !== "pack-fed") blade(draft, vehicle, "F21", 10);
  lamps(draft, vehicle);
  draft.part("S2", "switch", "cab", { poles: "1", ...contact12 });
  draft.part("S4", "micro-switch", "cab", { actuator: "brake-pedal", ...contact12 });
  ready(draft, vehicle);
  if (answers.converter) converter(draft, vehicle);
}

function lamps(draft: Draft, vehicle: Vehicle): void {
  const { looks } = vehicle;
  const feed = looks.low("lamp", "RD");
  const lit = looks.low("lamp", "YE");
  const black = looks.low("lamp", "BK");
  draft.wire(blade(draft, vehicle, "F22", 15), "S2:common", feed);
  draft.wire(blade(draft, vehicle, "F23", 10), "S4:common", feed);
  for (const [name, watts, from] of [
    ["P4", 55, "S2:out"],
    ["P5", 55, "S2:out"],
    ["P6", 21, "S4:no"],
    ["P7", 21, "S4:no"],
  ] as const) {
    lamp(draft, name, "outside", watts);
    draft.wire(from, `${name}:+`, lit);
    draft.wire(`${name}:-`, draft.tap("X4"), black);
  }
}

/** Behind the contactor, switched on once that has closed. */
function converter(draft: Draft, vehicle: Vehicle): void {
  const { figures, looks } = vehicle;
  draft.part("T2", "dc-dc-converter", "motor bay", {
    alwaysOn: "no",
    inputMin: `${Math.floor(figures.lowest * 0.7)} V`,
    inputMax: `${figures.partVolts} V`,
    outputVoltage: "13.8 V",
    outputCurrentMax: "30 A",
    isolated: "yes",
    enableInput: "active-high",
    inputCapacitance: "100 uF",
    backfeed: "no",
    reverseLeakage: "1 mA",
    efficiency: "90 %",
    isolation: "20 Mohm",
  });
  branchFuse(draft, "F3", converterFuse(figures.lowest));
  stripFuse(draft, "F24", "12 V box", 40);
  draft.wire("Q1:load", "F3:1", looks.stub);
  draft.wire("F3:2", "T2:in+", looks.branch);
  draft.wire(draft.tap("X3"), "T2:in-", looks.branch);
  draft.wire(draft.tap("X2"), "F24:1", looks.low("converter", "RD"));
  draft.wire("F24:2", "T2:out+", looks.low("converter", "RD"));
  draft.wire("T2:out-", draft.tap("X4"), looks.low("converter", "BK"));
  draft.wire(draft.tap("X5"), "T2:enable", looks.low("signal", "VT"));
}

/**
 * The contactor's auxiliary contact tells the 12 V side that the bus is charged: it lights the lamp, and what would
 * load the bus while it charges hangs on it.
 */
function ready(draft: Draft, vehicle: Vehicle): void {
  const { answers, looks } = vehicle;
  const fed = looks.low("signal", "VT");
  const from = answers.logic === "pack-fed" ? blade(draft, vehicle, "F25", 5) : draft.tap("X6");
  draft.wire(from, "Q1:aux-1", fed);
  draft.wire("Q1:aux-2", draft.tap("X5"), fed);
  lamp(draft, "P3", "cab", 2);
  draft.wire(draft.tap("X5"), "P3:+", fed);
  draft.wire("P3:-", draft.tap("X4"), looks.low("signal", "BK"));
}

/** 30 A at 13.8 V and 90 % out of the emptiest pack, at most 80 % of the fuse. */
function converterFuse(lowest: number): number {
  const amperes = (30 * 13.8) / 0.9 / (lowest * 0.8);
  return [5, 10, 15, 20, 25].find((rating) => rating * 0.8 >= amperes) ?? 25;
}
