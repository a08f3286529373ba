/** The figures of a vehicle, worked out from the answers by the studies and tables that the checks use as well. */
import type { Ampere, Farad, Joule, Ohm, Volt, Watt } from "../quantity/kinds.ts";
import type { ConductorSize } from "../quantity/size.ts";
import { packEmpty, packHighest, packNominal, isLithium } from "../standards/cells.ts";
import { capacitorEnergy, PRECHARGE_TARGET, prechargeTime } from "../standards/precharge.ts";
import { ratingForLoad } from "../standards/overcurrent.ts";
import { chooseConductor } from "../studies/cable-size.ts";
import type { Answers } from "./answers.ts";

export interface Figures {
  /** Of one half string each, lower and upper: blocks of so many cells. */
  readonly cellsPerBlock: number;
  readonly blocks: number;
  readonly nominal: Volt;
  readonly lowest: Volt;
  readonly highest: Volt;
  /** Next ordinary DC ratings above the pack's highest voltage: of devices and contacts, of parts that live behind them. */
  readonly ratedVolts: Volt;
  readonly partVolts: Volt;
  /** Above 60 V DC: orange, covered, marked. */
  readonly classB: boolean;
  readonly motorCurrent: Ampere;
  readonly mainFuse: Ampere;
  readonly mainSize: string;
  readonly contactorCurrent: Ampere;
  readonly controllerPeak: Ampere;
  readonly capacitance: Farad;
  readonly precharge: Ohm;
  readonly prechargeEnergy: Joule;
  /** Empties the bus below 60 V within 20 s after key-off, a third of what is allowed (UN R94, from memory). */
  readonly bleeder: Ohm;
  /** Of one block of a string: lead of 100 Ah 3 to 6 mohm, a lithium cell 0.3 to 0.6 mohm (makers' data, from memory). */
  readonly blockResistance: Ohm;
}

/** Ratings that direct-current devices and contactors are commonly sold with (common practice, no source). */
const DC_RATINGS: readonly Volt[] = [80, 150, 250, 350, 500, 750];
const CONTACTOR_RATINGS: readonly Ampere[] = [100, 150, 200, 250, 300, 400, 500];

/** Input banks of controllers: 330 to 4,000 uF, the more the lower the voltage (published; seen). */
const BANKS: readonly (readonly [below: Volt, bank: Farad])[] = [
  [100, 3e-3],
  [200, 1.5e-3],
];
const SMALLEST_BANK: Farad = 0.8e-3;

/** Pre-charge resistors that are sold. Common practice, no source. */
const RESISTORS: readonly [Ohm, ...Ohm[]] = [47, 68, 100, 120, 150, 220, 270, 330, 390, 470, 560, 680, 820];
/** Wanted time until the bus stands at 95 %: the published window is 0.5 to 2 s. */
const PRECHARGE_SECONDS = 0.8;

/** A separate field takes this much at most. Common practice, no source. */
export const FIELD_CURRENT: Ampere = 8;

/** What a 12 V converter of 30 A takes at 90 %, and a small cabin heater (common practice, no source). */
const CONVERTER_POWER: Watt = (30 * 13.8) / 0.9;
export const HEATER_POWER: Watt = 1000;

/** Metres out and back from the pack to the motor and round it, with the jumpers (common practice, no source). */
const MAIN_LOOP = 15;

const roundUp = (list: readonly number[], least: number): number =>
  list.find((each) => each >= least - 1e-9) ?? list.at(-1) ?? least;

/** A lead block has 6 cells; of lithium the whole string is taken as blocks of 4. */
function blocksOf({ pack }: Answers): { readonly cellsPerBlock: number; readonly blocks: number } {
  if (!isLithium(pack.chemistry)) return { cellsPerBlock: 6, blocks: pack.volts / 12 };
  const cells = pack.volts / packNominal(pack.chemistry, 1);
  return { cellsPerBlock: 4, blocks: Math.max(2, Math.round(cells / 4)) };
}

/**
 * All figures of a vehicle. Conductor by 33 CFR 183.425 and 3 % of voltage drop, fuse at most 80 % loaded (NEC 210.20),
 * pre-charge by R = t / (C ln 20).
 */
export function figuresOf(answers: Answers): Figures {
  const { pack, current: motorCurrent } = answers;
  const { cellsPerBlock, blocks } = blocksOf(answers);
  const cells = cellsPerBlock * blocks;
  const highest = packHighest(pack.chemistry, cells);
  const nominal = packNominal(pack.chemistry, cells);
  const lowest = packEmpty(pack.chemistry, cells);
  // Beside the motor the pack feeds what hangs on the bus, at its emptiest.
  const beside = ((answers.converter ? CONVERTER_POWER : 0) + (answers.heater ? HEATER_POWER : 0)) / lowest;
  const field = answers.motor === "separately-excited" ? FIELD_CURRENT : 0;
  const packCurrent = motorCurrent + field + beside;
  const mainFuse = ratingForLoad(packCurrent) ?? packCurrent;
  const capacitance = BANKS.find(([below]) => nominal < below)?.[1] ?? SMALLEST_BANK;
  const quick = RESISTORS.filter((ohms) => prechargeTime(ohms, capacitance, PRECHARGE_TARGET) <= PRECHARGE_SECONDS);
  const precharge = quick.at(-1) ?? RESISTORS[0];
  return {
    cellsPerBlock,
    blocks,
    nominal,
    lowest,
    highest,
    ratedVolts: roundUp(DC_RATINGS, highest * 1.02),
    partVolts: roundUp(DC_RATINGS, highest * 1.1),
    classB: highest > 60,
    motorCurrent,
    mainFuse,
    mainSize: mainConductor(answers.sizes, packCurrent, nominal, mainFuse).text,
    contactorCurrent: roundUp(CONTACTOR_RATINGS, Math.max(packCurrent * 1.25, mainFuse)),
    controllerPeak: roundUp(CONTACTOR_RATINGS, motorCurrent * 2),
    capacitance,
    precharge,
    bleeder: Math.floor(20 / (capacitance * Math.log(Math.max(highest / 60, 1.5))) / 100) * 100,
    prechargeEnergy: capacitorEnergy(capacitance, highest),
    blockResistance: isLithium(pack.chemistry) ? cellsPerBlock * 0.5e-3 : 4e-3,
  };
}

function mainConductor(sizes: Answers["sizes"], current: Ampere, volts: Volt, device: Ampere): ConductorSize {
  const { answer } = chooseConductor({
    current,
    volts,
    loop: MAIN_LOOP,
    critical: true,
    insulation: 398.15,
    material: "XLPE",
    ambient: 323.15,
    engineSpace: true,
    bundled: 2,
    sheathed: true,
    device,
    letThrough: undefined,
  });
  const choice = sizes === "AWG" ? answer.gauge : answer.metric;
  if (choice === undefined) throw new RangeError(`no single cable carries ${current} A in an engine bay`);
  return choice.size;
}
