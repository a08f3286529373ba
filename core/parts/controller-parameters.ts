/** Parameters of the controllers, one list for direct-current and three-phase ones. */
import type { ParameterSpec } from "./define.ts";
import { isolation } from "./leak.ts";
import { choice, NO_YES, quantity, YES_NO } from "./parameter.ts";

const volts = (title: string, explanation: string, where: string): ParameterSpec =>
  quantity("voltage", { title, explanation, where, least: 0 });
const amperes = (title: string, explanation: string, where: string): ParameterSpec =>
  quantity("current", { title, explanation, where, least: 0 });
const PLATE = "Rating plate or data sheet.";
const MANUAL = "Manual, chapter on wiring or inputs.";

const power: Readonly<Record<string, ParameterSpec>> = {
  nominalMin: volts("Nominal voltage, least", "The lowest pack voltage by name for which it is made.", PLATE),
  nominalMax: volts("Nominal voltage, most", "The highest pack voltage by name; a full pack stands higher.", PLATE),
  voltageMin: volts("Working voltage, least", "Below this it switches itself off.", "Data sheet, undervoltage cut."),
  voltageMax: volts(
    "Working voltage, most",
    "Above this, even for a moment, it is destroyed; the pack on charge must stay below.",
    "Data sheet, absolute highest or overvoltage.",
  ),
  currentMax: amperes("Peak current", "The motor current for seconds; it counts for breaking and voltage drop.", PLATE),
  currentContinuous: amperes("Continuous current", "The motor current for an hour or more.", PLATE),
  motorCurrentMax: amperes(
    "Motor current, most",
    "The highest current in the motor's own leads, which can exceed the pack's.",
    "Data sheet; often the same as the peak current.",
  ),
  inputCapacitance: quantity("capacitance", {
    title: "Input capacitance",
    explanation: "The capacitors between B+ and B-: they must be charged slowly before the contactor closes.",
    where: "Data sheet, or print on the capacitors inside; ask the maker.",
    least: 0,
  }),
  bleedResistance: quantity("resistance", {
    title: "Bleed resistance",
    explanation: "Discharges the capacitors inside after switching off; without it they stay charged for long.",
    where: "Data sheet; or measure how the voltage falls after switching off.",
    least: 0,
  }),
};

const logic: Readonly<Record<string, ParameterSpec>> = {
  logicFeed: choice(["pack-fed", "isolated-12v", "shared-12v"], {
    title: "Logic feed",
    explanation: "What logic+ takes: pack voltage against B-, or 12 V, isolated from the pack or sharing its minus.",
    where: `${MANUAL} The wrong kind destroys it at once.`,
  }),
  logicMin: volts("Logic voltage, least", "Below this the electronics are dead.", MANUAL),
  logicMax: volts("Logic voltage, most", "The most that the logic supply stands.", MANUAL),
  logicCurrent: amperes("Logic current", "What the electronics draw through the key switch.", MANUAL),
  inputCurrent: amperes("Input current", "What each switch input draws while it is fed.", MANUAL),
};

const throttle: Readonly<Record<string, ParameterSpec>> = {
  throttleInput: choice(["resistance-rising", "resistance-falling", "divider", "voltage", "hall"], {
    title: "Throttle input",
    explanation:
      "What kind of throttle it reads: two-wire 0-5 kohm or 5 kohm-0, three-wire, a voltage, or a Hall sensor.",
    where: `${MANUAL} Often a setting.`,
  }),
  throttleIdle: {
    title: "Throttle at idle",
    explanation: "The reading at which the drive stands still, in ohm or volts.",
    where: MANUAL,
    either: ["resistance", "voltage"],
  },
  throttleFull: {
    title: "Throttle at full",
    explanation: "The reading at which the drive gives all, in ohm or volts.",
    where: MANUAL,
    either: ["resistance", "voltage"],
  },
  throttleMode: choice(["one-way", "centre-zero"], {
    title: "Throttle mode",
    explanation: "One-way: idle at one end. Centre-zero: idle in the middle, reverse at one end, forward at the other.",
    where: `${MANUAL} Often a setting.`,
    default: "one-way",
  }),
  throttleFaultBand: choice(YES_NO, {
    title: "Throttle fault detection",
    explanation: "Whether a reading out of range stops the drive; without it a broken wire can read as full speed.",
    where: `${MANUAL} Look for wire-off, range or pot fault detection.`,
  }),
  highPedalLockout: choice(YES_NO, {
    title: "High-pedal lockout",
    explanation: "Whether it refuses to drive until the throttle has been at idle after switching on.",
    where: MANUAL,
  }),
};

const drivers: Readonly<Record<string, ParameterSpec>> = {
  contactorDriver: choice(["none", "high-side", "low-side"], {
    title: "Contactor driver",
    explanation: "Whether contactor-out gives plus to the coil (high-side), minus (low-side), or does nothing.",
    where: MANUAL,
  }),
  driverCurrent: amperes("Driver current", "The most that contactor-out and precharge-out carry each.", MANUAL),
  driverClamp: volts(
    "Driver clamp",
    "The voltage at which the driver takes up a coil's kick by itself.",
    "Data sheet; seldom given.",
  ),
  packSense: choice(["source-side", "load-side"], {
    title: "Pack sense",
    explanation: "On which side of the contactor pack-sense belongs: towards the pack or towards the controller.",
    where: MANUAL,
  }),
  driverSuppressionRequired: choice(NO_YES, {
    title: "Coil suppression required",
    explanation: "Whether its drivers need a suppressed coil.",
    where: MANUAL,
  }),
  outputBootState: choice(["off", "on", "undefined"], {
    title: "Outputs while starting up",
    explanation: "What the outputs do for the moment before its program runs.",
    where: "Ask the maker, or watch a lamp on the output while switching on.",
  }),
  prechargeInternal: choice(NO_YES, {
    title: "Pre-charge inside",
    explanation: "Whether it charges its capacitors by itself before it closes the contactor.",
    where: MANUAL,
  }),
  prechargeThreshold: quantity("ratio", {
    title: "Pre-charge threshold",
    explanation: "The part of the pack's voltage at which it closes the contactor; 90 % unless stated.",
    where: `${MANUAL} Often a setting.`,
    least: 0.1,
    most: 1,
  }),
  prechargeTimeout: quantity("time", {
    title: "Pre-charge time limit",
    explanation: "After this it gives up and opens the pre-charge path, which spares the resistor.",
    where: MANUAL,
    least: 0,
  }),
};

const rest: Readonly<Record<string, ParameterSpec>> = {
  serialIsolated: choice(YES_NO, {
    title: "Serial port isolated",
    explanation: "If not, the ground of the serial port is the pack's minus, and so is what plugs into it.",
    where: `${MANUAL} Or measure from serial-ground to B- with everything off.`,
  }),
  regeneration: choice(NO_YES, {
    title: "Regeneration",
    explanation: "Whether it brakes by charging the pack.",
    where: `${MANUAL} Often a setting.`,
  }),
  regenerationCutVoltage: volts(
    "Regeneration cut",
    "The bus voltage at which it stops regenerating.",
    `${MANUAL} Often a setting.`,
  ),
  externalCut: choice(["required", "allowed", "forbidden"], {
    title: "Cut by the pedal",
    explanation: "Whether a contact may, must or must not open the contactor whenever the pedal is released.",
    where: MANUAL,
  }),
  isolation,
};

export const controllerParameters: Readonly<Record<string, ParameterSpec>> = {
  ...power,
  ...logic,
  ...throttle,
  ...drivers,
  ...rest,
};
