/** What every section of a vehicle reads: answers, figures, looks of wires, and the coils and contacts that fit its voltage. */
import type { Watt } from "../quantity/kinds.ts";
import type { Answers } from "./answers.ts";
import { figuresOf } from "./figures.ts";
import type { Figures } from "./figures.ts";
import { looksOf } from "./looks.ts";
import type { Looks } from "./looks.ts";

type Fields = Readonly<Record<string, string>>;

export interface Vehicle {
  readonly answers: Answers;
  readonly figures: Figures;
  readonly looks: Looks;
  /** Coil of the key's circuit, of so many watts: 12 V, or for the pack. */
  readonly coil: (power: Watt) => Fields;
  /** Coil of a small relay in the key's circuit, and of one on 12 V. */
  readonly relayCoil: Fields;
  readonly relayCoil12: Fields;
  /** A contact in the traction circuit. */
  readonly relayContact: (amperes: number) => Fields;
  /** A hand's or pedal's contact in the key's circuit, and on 12 V. */
  readonly keyContact: Fields;
  readonly contact12: Fields;
  /** A relay's contact on 12 V. */
  readonly contact12Relay: Fields;
}

const COIL_12: Fields = { coilVoltage: "12 V", coilMin: "9 V", coilMax: "16 V" };

export function vehicleOf(answers: Answers): Vehicle {
  const figures = figuresOf(answers);
  const { nominal, lowest, highest, ratedVolts } = figures;
  const packFed = answers.logic === "pack-fed";
  const packCoil: Fields = {
    coilVoltage: `${Math.round(nominal)} V`,
    coilMin: `${Math.floor(lowest * 0.7)} V`,
    coilMax: `${Math.ceil(highest * 1.1)} V`,
  };
  const keyVolts = packFed ? Math.round(nominal) : 12;
  const relay = (coil: Fields, volts: number): Fields => ({
    alwaysOn: "no",
    poles: "1",
    ...coil,
    coilResistance: `${Math.round((volts * volts) / 1.6)} ohm`,
    pickUp: "65 %",
    dropOut: "10 %",
    suppression: "diode",
  });
  const own = packFed ? packCoil : COIL_12;
  return {
    answers,
    figures,
    looks: looksOf(answers, figures),
    coil: (power) => ({
      ...own,
      coilPower: `${power} W`,
      coilResistance: `${Math.round(((keyVolts * keyVolts) / power) * 10) / 10} ohm`,
    }),
    relayCoil: relay(own, keyVolts),
    relayCoil12: relay(COIL_12, 12),
    relayContact: (amperes) => ({
      contactVoltage: `${ratedVolts} V`,
      contactCurrent: `${amperes} A`,
      contactBreakDc: `${Math.min(amperes, 30)} A`,
    }),
    keyContact: { contactCurrent: "10 A", contactVoltage: packFed ? `${ratedVolts} V` : "24 V" },
    contact12: { contactCurrent: "20 A", contactVoltage: "24 V" },
    contact12Relay: { contactCurrent: "10 A", contactVoltage: "24 V", contactBreakDc: "10 A" },
  };
}
