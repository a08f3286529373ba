/** The traction circuit: strings, fuses, disconnect, contactor with its pre-charge, controller. */
import { isLithium } from "../standards/cells.ts";
import type { Draft } from "./draft.ts";
import type { Vehicle } from "./vehicle.ts";

/** A full-range traction fuse: how long it takes at a multiple of its rating. Invented, of the shape that makers publish. */
const TRACTION_CURVE = "1.25:3600 s; 1.6:600 s; 2:60 s; 3:5 s; 5:0.3 s; 8:0.03 s; 10:0.01 s; 20:0.002 s; 100:0.08 ms";
const SMALL_CURVE = "1.25:3600 s; 1.6:120 s; 2:20 s; 3:1 s; 5:0.1 s; 10:0.008 s; 20:0.002 s; 5000:0.032 us";

/** More lead blocks than this are drawn as two halves of one symbol each: a sheet shows no more with profit. */
const MOST_BLOCKS_DRAWN = 8;

export function mainFuse(draft: Draft, designation: string, { figures }: Vehicle, rating: number): void {
  draft.part(designation, "fuse", "battery box", {
    rating: `${rating} A`,
    voltageDc: `${figures.ratedVolts} V`,
    voltageAc: `${figures.ratedVolts} V`,
    interrupting: "20 kA",
    curve: "traction-gR",
    curvePoints: TRACTION_CURVE,
    holderRating: "500 A",
  });
}

/** A fuse of a branch, in the drive box. */
export function branchFuse(draft: Draft, designation: string, rating: number): void {
  draft.part(designation, "fuse", "drive box", {
    rating: `${rating} A`,
    voltageDc: "500 V",
    voltageAc: "500 V",
    interrupting: "20 kA",
    curve: "traction-gR",
    curvePoints: SMALL_CURVE,
    holderRating: "63 A",
  });
}

function batteryFields({ answers, figures }: Vehicle): Readonly<Record<string, string>> {
  const { pack } = answers;
  return {
    duty: "traction",
    chemistry: pack.chemistry,
    cells: String(figures.cellsPerBlock),
    capacity: pack.capacity,
    dischargeMax: `${Math.max(500, 2 * figures.mainFuse)} A`,
    chargeMax: "40 A",
    internalMonitor: "no",
    isolation: "20 Mohm",
  };
}

/** One string: two halves with a fuse between them. Gives its ends. */
function string(draft: Draft, vehicle: Vehicle, number: number): { readonly plus: string; readonly minus: string } {
  const { figures, answers, looks } = vehicle;
  const { blocks, blockResistance } = figures;
  const fields = batteryFields(vehicle);
  const low = Math.ceil(blocks / 2);
  const halves = [low, blocks - low];
  const base = (number - 1) * 10;
  const one = isLithium(answers.pack.chemistry) || blocks > MOST_BLOCKS_DRAWN || answers.pack.strings === 2;
  let next = base + 1;
  const ends = halves.map((count): { plus: string; minus: string } => {
    if (one) {
      const name = `G${next++}`;
      draft.part(name, "battery-pack", "battery box", {
        ...fields,
        blocks: String(count),
        resistance: `${blockResistance * 1e3} mohm`,
        jumperResistance: "0.1 mohm",
      });
      return { plus: `${name}:+`, minus: `${name}:-` };
    }
    const names = Array.from({ length: count }, () => `G${next++}`);
    for (const name of names) {
      draft.part(name, "battery-block", "battery box", { ...fields, resistance: `${blockResistance * 1e3} mohm` });
    }
    names.slice(1).forEach((name, index) => draft.wire(`${names[index] ?? ""}:+`, `${name}:-`, looks.main));
    return { plus: `${names.at(-1) ?? ""}:+`, minus: `${names[0] ?? ""}:-` };
  });
  const middle = `F${base + 5}`;
  mainFuse(draft, middle, vehicle, figures.mainFuse);
  draft.wire(ends[0]?.plus ?? "", `${middle}:1`, looks.main);
  draft.wire(`${middle}:2`, ends[1]?.minus ?? "", looks.main);
  const head = number === 1 ? "F1" : `F${base + 1}`;
  mainFuse(draft, head, vehicle, figures.mainFuse);
  draft.wire(ends[1]?.plus ?? "", `${head}:1`, looks.main);
  return { plus: `${head}:2`, minus: ends[0]?.minus ?? "" };
}

/** Pack and two-pole disconnect. */
function pack(draft: Draft, vehicle: Vehicle): void {
  const { answers, figures, looks } = vehicle;
  const strings =
    answers.pack.strings === 2 ? [string(draft, vehicle, 1), string(draft, vehicle, 2)] : [string(draft, vehicle, 1)];
  draft.part("Q9", "manual-disconnect", "battery box", {
    poles: "2",
    voltageDc: `${figures.ratedVolts} V`,
    currentContinuous: `${figures.contactorCurrent} A`,
    breakLoad: "yes",
    lockable: "yes",
  });
  const [first] = strings;
  if (first === undefined) return;
  if (strings.length === 1) {
    draft.wire(first.plus, "Q9:line", looks.main);
    draft.wire(first.minus, "Q9:line-2", looks.main);
    return;
  }
  draft.bar("X21", "battery box").bar("X22", "battery box");
  for (const { plus, minus } of strings) {
    draft.wire(plus, draft.tap("X21"), looks.main);
    draft.wire(minus, draft.tap("X22"), looks.main);
  }
  draft.wire(draft.tap("X21"), "Q9:line", looks.main);
  draft.wire(draft.tap("X22"), "Q9:line-2", looks.main);
}

/** From the disconnect to the controller: contactor, pre-charge beside it, shunt in the return. */
export function traction(draft: Draft, vehicle: Vehicle): void {
  const { answers, figures, looks, coil } = vehicle;
  pack(draft, vehicle);
  draft.part("Q1", "contactor", "drive box", {
    alwaysOn: "no",
    poles: "1",
    ...coil(12),
    coilInductance: answers.logic === "pack-fed" ? "2.5 H" : "200 mH",
    contactVoltage: `${figures.ratedVolts} V`,
    currentContinuous: `${figures.contactorCurrent} A`,
    currentMake: "1000 A",
    currentBreak: "2000 A",
    polarised: "no",
    suppression: "zener",
    economiser: "no",
    aux: "make",
    contactResistance: "0.3 mohm",
    pickUp: "65 %",
    dropOut: "20 %",
    closeTime: "25 ms",
    openTime: "12 ms",
  });
  draft.wire("Q9:load", draft.tap("X9"), looks.main);
  draft.wire(draft.end("X9"), "Q1:line", looks.main);
  if (answers.shunt) {
    draft.part("B2", "shunt", "drive box", { ratedCurrent: `${figures.contactorCurrent} A`, ratedDrop: "50 mV" });
    draft.wire("Q9:load-2", "B2:line", looks.main);
    draft.wire("B2:load", draft.tap("X3"), looks.main);
  } else draft.wire("Q9:load-2", draft.tap("X3"), looks.main);
  draft.wire("Q1:load", "T1:B+", looks.main);
  draft.wire(draft.end("X3"), "T1:B-", looks.main);
  branchFuse(draft, "F2", 5);
  draft.wire(draft.tap("X9"), "F2:1", looks.stub);
  draft.wire("F2:2", draft.tap("X8"), looks.branch);
  draft.part("K1", "relay", "drive box", { ...vehicle.relayCoil, ...vehicle.relayContact(10) });
  draft.part("R1", "resistor", "drive box", {
    resistance: `${figures.precharge} ohm`,
    power: "150 W",
    pulseEnergy: `${Math.ceil((figures.prechargeEnergy * 3) / 50) * 50} J`,
    voltage: `${Math.max(500, figures.ratedVolts)} V`,
  });
  draft.wire(draft.end("X8"), "K1:common", looks.branch);
  draft.wire("K1:no", "R1:1", looks.branch);
  draft.wire("R1:2", "Q1:load", looks.stub);
  draft.wire(draft.tap("X8"), "T1:pack-sense", looks.sense);
}
