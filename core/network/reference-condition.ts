/**
 * The condition in which parts are asked for their elements when the network is laid out: *ready*, everything in and
 * plugged together. Which elements a part has, and where they end, is the same in every condition.
 */
import type { Condition } from "../parts/condition.ts";

export const REFERENCE_CONDITION: Condition = {
  state: "ready",
  disconnect: "in",
  key: "on",
  emergencyStop: "released",
  throttle: "idle",
  brake: "free",
  selector: "a",
  parkingBrake: "free",
  seat: "seated",
  cover: "closed",
  door: "closed",
  gear: "in",
  clutch: "up",
  button: "released",
  toggle: "on",
  inertia: "normal",
  connector: "plugged",
  temperature: "closed",
  mains: "unplugged",
  pack: "rest",
  capacitors: "steady",
  timers: "elapsed",
  drive: "none",
  set: {},
};
