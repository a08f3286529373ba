import { throttleFaultDrives } from "../../../../core/checks/controls/throttle-fault-drives.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

const RISING = { throttleInput: "resistance-rising", throttleIdle: "0 ohm", throttleFull: "5 kohm" } as const;
const FALLING = { throttleInput: "resistance-falling", throttleIdle: "5 kohm", throttleFull: "0 ohm" } as const;
const DIVIDER = { throttleInput: "divider", throttleIdle: "0 V", throttleFull: "5 V" } as const;
const BANDED = { throttleInput: "divider", throttleIdle: "0.5 V", throttleFull: "4.5 V" } as const;

const twoWire = (controller: Readonly<Record<string, string>>, falls = false) =>
  cart({ controller })
    .part("B2", "throttle-two-wire", falls ? { resistanceIdle: "5 kohm", resistanceFull: "0 ohm" } : {})
    .wires(SMALL, "B2:1 - T1:throttle-1", "B2:2 - T1:throttle-2");

const threeWire = (controller: Readonly<Record<string, string>>) =>
  cart({ controller })
    .part("B2", "throttle-three-wire", {})
    .wires(SMALL, "B2:high - T1:throttle-1", "B2:wiper - T1:throttle-2", "B2:low - T1:throttle-3");

/** A potentiometer between two resistors of an eighth of its own, so that it reads 0.5 V to 4.5 V. */
const ended = (controller: Readonly<Record<string, string>>) =>
  cart({ controller })
    .part("B2", "throttle-three-wire", { resistance: "4 kohm", finish: "booted" })
    .parts("resistor", { resistance: "500 ohm", finish: "booted" }, "R2", "R3")
    .wires(SMALL, "T1:throttle-1 - R2:1", "R2:2 - B2:high", "B2:wiper - T1:throttle-2")
    .wires(SMALL, "B2:low - R3:1", "R3:2 - T1:throttle-3");

const pedal = (sketch: ReturnType<typeof cart>, actuator: Readonly<Record<string, string>>) =>
  sketch.part("S3", "micro-switch", actuator).wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock");

checkTable(throttleFaultDrives, {
  fails: [
    {
      name: "lever with stop in the middle, unplugged it asks for full reverse",
      drawing: threeWire({ ...DIVIDER, throttleMode: "centre-zero", throttleFaultBand: "no" }).build(),
      at: "T1:throttle-2",
      message: "open",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "two wires without fault detection: a broken one reads full",
      drawing: twoWire({ ...RISING, throttleFaultBand: "no" }).build(),
      at: "T1:throttle-2",
      message: "open",
      severity: "DANGER",
      remedies: ["fault-detection-on"],
    },
    {
      name: "a potentiometer that loses its ground",
      drawing: threeWire({ ...DIVIDER, throttleFaultBand: "no" }).build(),
      at: "T1:throttle-2",
      message: "open",
      severity: "DANGER",
    },
    {
      name: "5 kohm falling to nothing: two pins that touch read full, fault detection or not",
      drawing: twoWire({ ...FALLING, throttleFaultBand: "yes" }, true).build(),
      at: "T1:throttle-2",
      message: "short",
      severity: "DANGER",
      except: {
        connector: "A plug of one pin for each wire keeps the two apart; the pins of the controller stay neighbours.",
      },
    },
  ],
  passes: [
    {
      name: "two wires with fault detection",
      drawing: twoWire({ ...RISING, throttleFaultBand: "yes" }).build(),
      at: "T1:throttle-2",
    },
    {
      name: "no fault detection, but a contact of the pedal in the interlock",
      drawing: pedal(twoWire({ ...RISING, throttleFaultBand: "no" }), { actuator: "throttle-pedal" }).build(),
      at: "T1:throttle-2",
    },
    {
      name: "a covered potentiometer with resistors at both ends",
      drawing: ended({ ...BANDED, throttleFaultBand: "yes" }).build(),
      at: "T1:throttle-2",
    },
  ],
  notChecked: [
    {
      name: "fault detection not stated",
      drawing: twoWire(RISING).build(),
      at: "T1:throttle-2",
      reason: "unstated",
      missing: ["T1.throttleFaultBand"],
    },
    {
      name: "nobody says what moves the contact in the interlock",
      drawing: pedal(twoWire({ ...RISING, throttleFaultBand: "no" }), {}).build(),
      at: "T1:throttle-2",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no throttle drawn", drawing: cart().build() },
    { name: "a motor on a contactor", drawing: boat().build() },
    { name: "no drive", drawing: supplies(2).build() },
  ],
});
