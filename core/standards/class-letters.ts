/** First letters of designations by what an object is for: IEC 81346-2 (2009 classes). */
import type { Source } from "./source.ts";

export const CLASS_LETTER_SOURCE: Source = { text: "IEC 81346-2:2009, classes of objects", known: "seen" };

/** Purpose and what it covers in a converted vehicle. */
export const CLASS_LETTERS = {
  A: "several purposes without a main one: panel, assembly",
  B: "turns a physical quantity into a signal: sensor, shunt, throttle",
  C: "stores energy or information: capacitor",
  E: "cools, heats, lights: heater, headlamp",
  F: "protects: fuse, circuit-breaker, arrester",
  G: "generates a flow of energy: battery, generator",
  K: "processes signals: relay, timer, control unit",
  M: "moves things: motor, pump, actuator",
  P: "shows information: meter, lamp, buzzer",
  Q: "switches a flow of energy: contactor, disconnect",
  R: "limits or steadies: resistor, diode, choke",
  S: "turns a hand's movement into a signal: switch, key, push-button",
  T: "changes energy of one kind: controller, charger, converter",
  U: "holds in position: bracket, insulator",
  V: "processes material: filter",
  W: "conducts: cable, conductor, busbar",
  X: "connects: terminal, plug, splice, chassis point",
} as const;
export type ClassLetter = keyof typeof CLASS_LETTERS;
