/** The condition of the vehicle in one operating state: every control by name (the table of `DEVELOPERS.md`, "Operating states"). */
export type StateName = string;

export const BUILT_IN_STATES = [
  "stored",
  "parked",
  "key-on",
  "pre-charging",
  "ready",
  "driving",
  "driving-low",
  "reversing",
  "regenerating",
  "emergency-stop",
  "charging",
] as const;

export interface Condition {
  readonly state: StateName;
  readonly disconnect: "out" | "in";
  readonly key: "off" | "accessory" | "on" | "start";
  readonly emergencyStop: "released" | "pressed";
  readonly throttle: "idle" | "full";
  readonly brake: "free" | "pressed";
  readonly selector: "centre" | "a" | "b";
  readonly parkingBrake: "set" | "free";
  readonly seat: "empty" | "seated";
  readonly cover: "closed" | "open";
  readonly door: "closed" | "open";
  readonly gear: "neutral" | "in";
  readonly clutch: "up" | "pressed";
  readonly button: "released" | "pressed";
  readonly toggle: "off" | "on";
  readonly inertia: "normal" | "tripped";
  readonly connector: "plugged" | "unplugged";
  readonly temperature: "closed" | "open";
  readonly mains: "unplugged" | "plugged";
  readonly pack: "rest" | "loaded" | "low" | "taking-current" | "on-charge";
  /** Built-in states before transitions exist: empty, steady, or a stated part of steady. */
  readonly capacitors: "empty" | "steady" | "kept" | "part";
  readonly timers: "by-circuit" | "not-elapsed" | "elapsed";
  /** Motion demanded of a controller, derived from the state: forward drive, reverse, regeneration or none. */
  readonly drive: "none" | "forward" | "reverse" | "regeneration";
  /** Controls set by hand, by part id: these win over the fields above. */
  readonly set: Readonly<Record<string, string>>;
}
