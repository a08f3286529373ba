/** All arrangements that are reported to work, by name. */
import type { Project } from "../../../core/project/document.ts";
import {
  earthedWhileCharging,
  inverter320,
  resistorAcrossSolenoid,
  stepCar,
  twoConverters,
  twoCuts,
} from "./known-good.ts";
import { monitoredCharging, splitPack, timedPrecharge, twoBoxes } from "./known-good-packs.ts";

export const KNOWN_GOOD: readonly (readonly [name: string, drawing: () => Project])[] = [
  ["resistor across the solenoid, 48 V", () => resistorAcrossSolenoid().build()],
  ["inverter of 320 V that closes its own contactor", () => inverter320().build()],
  ["series/parallel step car", () => stepCar().build()],
  ["earthed while charging", () => earthedWhileCharging().build()],
  ["two independent cuts", () => twoCuts().build()],
  ["two converters on one battery", () => twoConverters().build()],
  ["timed pre-charge", () => timedPrecharge().build()],
  ["pack of two boxes with an interlock loop", () => twoBoxes().build()],
  ["monitored charging", () => monitoredCharging().build()],
  ["split pack", () => splitPack().build()],
];
