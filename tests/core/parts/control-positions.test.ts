/**
 * Which contacts stand closed in which operating state, for every kind that a hand or the vehicle moves. Columns are
 * the states in their order; the rows are worked out by hand from the table of controls.
 */
import { describe, expect, it } from "vitest";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { Condition } from "../../../core/parts/condition.ts";
import { readValues } from "../../../core/parts/values.ts";
import { conditionIn, CONDITIONS } from "./operating-conditions.ts";

/** stored parked key-on pre-charging ready driving driving-low reversing regenerating emergency-stop charging; 1 = closed */
const CASES: readonly (readonly [
  kind: string,
  parameters: Readonly<Record<string, string>>,
  element: string,
  closed: string,
])[] = [
  ["manual-disconnect", {}, "contact", "01111111111"],
  ["manual-disconnect", { poles: "2" }, "contact-2", "01111111111"],
  ["key-switch", {}, "accessory", "00111111110"],
  ["key-switch", {}, "ignition", "00111111110"],
  ["key-switch", {}, "start", "00000000000"],
  ["emergency-stop", {}, "contact", "11111111101"],
  ["emergency-stop", { contact: "make" }, "contact", "00000000010"],
  ["emergency-stop", { contacts: "2" }, "contact-2", "11111111101"],
  ["selector-switch", {}, "a", "00001110110"],
  ["selector-switch", {}, "b", "00000001000"],
  ["selector-switch", { centre: "no" }, "a", "11111110111"],
  ["push-button", { contact: "make" }, "contact", "00110000000"],
  ["push-button", {}, "contact", "00110000000"],
  ["push-button", { contact: "break" }, "contact", "11001111111"],
  ["switch", {}, "contact", "00111111110"],
  ["switch", { poles: "2" }, "contact-2", "00111111110"],
  ["inertia-switch", {}, "nc", "11111111111"],
  ["inertia-switch", {}, "no", "00000000000"],
  ["connector", {}, "pin-1", "11111111111"],
  ["temperature-switch", {}, "contact", "11111111111"],
  ["micro-switch", { actuator: "throttle-pedal" }, "no", "00000111010"],
  ["micro-switch", { actuator: "throttle-pedal" }, "nc", "11111000101"],
  ["micro-switch", { actuator: "brake-pedal" }, "no", "00000000100"],
  ["micro-switch", { actuator: "parking-brake" }, "no", "11110000001"],
  ["micro-switch", { actuator: "clutch" }, "no", "00000000000"],
  ["micro-switch", { actuator: "seat" }, "no", "00111111110"],
  ["micro-switch", { actuator: "cover" }, "no", "11111111111"],
  ["micro-switch", { actuator: "door" }, "nc", "00000000000"],
  ["micro-switch", { actuator: "gear" }, "no", "00001111110"],
  ["micro-switch", { actuator: "charge-flap" }, "no", "00000000001"],
  ["micro-switch", {}, "no", "00000000000"],
];

function elementsOf(
  name: string,
  parameters: Readonly<Record<string, string>>,
  condition: Condition,
  position?: string,
) {
  const kind = kindOf(name);
  if (kind === undefined) throw new Error(`there is no kind ${name}`);
  const values = readValues(kind, parameters);
  return kind.circuit({
    values,
    condition,
    position: position ?? kind.control?.at(condition, values) ?? "",
    state: kind.initial?.(values) ?? {},
    wired: () => true,
    motorCurrent: undefined,
  });
}

const closed = (
  ...[name, parameters, element, condition, position]: [
    string,
    Readonly<Record<string, string>>,
    string,
    Condition,
    string?,
  ]
) => {
  const found = elementsOf(name, parameters, condition, position).find((each) => each.name === element);
  if (found?.type !== "contact") throw new Error(`${name} has no contact ${element}`);
  return found.closed;
};

describe("contacts in the operating states", () => {
  it.each(CASES)("%s %j: %s", (name, parameters, element, row) => {
    expect(CONDITIONS).toHaveLength(11);
    expect(CONDITIONS.map((condition) => (closed(name, parameters, element, condition) ? "1" : "0")).join("")).toBe(
      row,
    );
  });

  it("joins what the key joins in each of its positions", () => {
    const joined = (position: string): string =>
      ["accessory", "ignition", "start"]
        .filter((element) => closed("key-switch", {}, element, conditionIn("stored"), position))
        .join(" ");
    expect(["off", "accessory", "on", "start"].map(joined)).toEqual([
      "",
      "accessory",
      "accessory ignition",
      "ignition start",
    ]);
  });

  it("joins both wires in the both position of a battery selector", () => {
    for (const side of ["a", "b"]) {
      expect(closed("selector-switch", { both: "yes" }, side, conditionIn("stored"), "both")).toBe(true);
    }
  });

  it("offers every position in which a control can stand", () => {
    const offered = (name: string, parameters: Readonly<Record<string, string>>) => {
      const kind = kindOf(name);
      return kind?.control?.positions(readValues(kind, parameters)).join(" ");
    };
    expect(offered("selector-switch", {})).toBe("a centre b");
    expect(offered("selector-switch", { centre: "no", both: "yes" })).toBe("a b both");
    expect(offered("key-switch", {})).toBe("off accessory on start");
  });

  it("opens a connector's pins and an inertia switch when they are set by hand", () => {
    expect(closed("connector", {}, "pin-2", conditionIn("driving"), "unplugged")).toBe(false);
    expect(closed("inertia-switch", {}, "nc", conditionIn("driving"), "tripped")).toBe(false);
    expect(closed("inertia-switch", {}, "no", conditionIn("driving"), "tripped")).toBe(true);
  });
});

describe("throttles in the operating states", () => {
  const ohms = (name: string, parameters: Readonly<Record<string, string>>, element: string): readonly number[] =>
    ["ready", "driving"].map((state) => {
      const found = elementsOf(name, parameters, conditionIn(state)).find((each) => each.name === element);
      if (found?.type !== "resistance") throw new Error(`${name} has no resistance ${element}`);
      return found.resistance;
    });

  it("goes from 0 to 5 kohm by default, as the published two-wire inputs expect, and the other way when stated", () => {
    const [idle, full] = ohms("throttle-two-wire", {}, "throttle");
    expect(idle).toBeLessThan(0.01);
    expect(full).toBe(5000);
    expect(ohms("throttle-two-wire", { resistanceIdle: "5 kohm", resistanceFull: "100 ohm" }, "throttle")).toEqual([
      5000, 100,
    ]);
  });

  it("keeps the track of a three-wire throttle whole while the wiper moves", () => {
    const upper = ohms("throttle-three-wire", {}, "upper");
    const lower = ohms("throttle-three-wire", {}, "lower");
    for (const index of [0, 1]) expect((upper[index] ?? 0) + (lower[index] ?? 0)).toBeCloseTo(5000, 2);
    expect(lower[0]).toBeLessThan(0.01);
    expect(upper[1]).toBeLessThan(0.01);
  });
});
