/**
 * What parts are electrically: the same elements in every condition and state, ends that exist, figures that can be
 * solved; and for the kinds of switching, sensing and consuming the figures themselves, worked by hand.
 */
import { describe, expect, it } from "vitest";
import { KINDS, kindOf } from "../../../core/parts/catalogue.ts";
import type { PartKind, PartState } from "../../../core/parts/define.ts";
import { CHASSIS, type Element } from "../../../core/parts/element.ts";
import { readValues } from "../../../core/parts/values.ts";
import { conditionIn, CONDITIONS } from "./operating-conditions.ts";

function elements(
  name: string,
  parameters: Readonly<Record<string, string>> = {},
  state?: PartState,
  position?: string,
): readonly Element[] {
  const kind = kindOf(name);
  if (kind === undefined) throw new Error(`there is no kind ${name}`);
  const values = readValues(kind, parameters);
  const condition = conditionIn("ready");
  return kind.circuit({
    values,
    condition,
    position: position ?? kind.control?.at(condition, values) ?? "",
    state: state ?? kind.initial?.(values) ?? {},
    wired: () => true,
    motorCurrent: undefined,
  });
}

const named = (list: readonly Element[], name: string): Element => {
  const found = list.find((each) => each.name === name);
  if (found === undefined) throw new Error(`there is no element ${name}`);
  return found;
};

const ohms = (element: Element): number => {
  if (!("resistance" in element)) throw new Error(`${element.name} has no resistance`);
  return element.resistance;
};

/** Parameters that change which elements there are, beside the defaults. */
const EXTRA: readonly Readonly<Record<string, string>>[] = [
  {},
  { isolated: "no", taps: "3", poles: "2", contacts: "2", positions: "5", structure: "frame" },
  { suppression: "zener", aux: "break", bodyDiode: "no", outputType: "high-side", economiser: "yes" },
];

/** Some states that a part may be in: flags on and off. */
function statesOf(kind: PartKind, parameters: Readonly<Record<string, string>>): readonly PartState[] {
  const initial = kind.initial?.(readValues(kind, parameters)) ?? {};
  const flipped = Object.fromEntries(
    Object.entries(initial).map(([name, value]) => [name, typeof value === "boolean" ? !value : value]),
  );
  return [initial, flipped];
}

const CASES = [...KINDS.values()].flatMap((kind) => EXTRA.map((parameters) => ({ kind, parameters })));

describe("elements of every kind", () => {
  it.each(CASES)("$kind.kind with $parameters keeps its elements in every condition", ({ kind, parameters }) => {
    const values = readValues(kind, parameters);
    const lists = CONDITIONS.flatMap((condition) =>
      statesOf(kind, parameters).map((state) =>
        kind.circuit({
          values,
          condition,
          position: kind.control?.at(condition, values) ?? "",
          state,
          wired: () => true,
          motorCurrent: undefined,
        }),
      ),
    );
    const shape = (list: readonly Element[]): string =>
      list.map(({ name, type, a, b, role }) => `${name} ${type} ${a} ${b} ${role}`).join("\n");
    expect(lists.length).toBe(22);
    for (const list of lists) expect(shape(list)).toBe(shape(lists[0] ?? []));

    const ends = new Set(kind.terminals(values).map((terminal) => terminal.id));
    for (const list of lists) {
      expect(new Set(list.map((each) => each.name)).size).toBe(list.length);
      for (const element of list) {
        for (const end of [element.a, element.b]) {
          expect(ends.has(end) || end.startsWith(":") || end === CHASSIS || end.startsWith("#structure:"), end).toBe(
            true,
          );
        }
        expect(element.a).not.toBe(element.b);
        if ("resistance" in element) {
          expect(element.resistance).toBeGreaterThan(0);
          expect(Number.isFinite(element.resistance)).toBe(true);
        }
      }
    }
    const names = new Set((lists[0] ?? []).map((each) => each.name));
    for (const coil of kind.coils?.(values) ?? []) expect(names.has(coil.element)).toBe(true);
    for (const contact of kind.contacts?.(values) ?? []) {
      expect(names.has(contact.element)).toBe(true);
      expect(Object.keys(kind.parameters)).toContain(contact.voltageParameter);
      expect(Object.keys(kind.parameters)).toContain(contact.continuousParameter);
    }
    for (const limit of kind.limits(values)) {
      expect(Object.keys(kind.parameters)).toContain(limit.parameter);
      if (limit.kind === "current-through") expect(names.has(limit.element ?? "")).toBe(true);
    }
  });
});

describe("coils", () => {
  it("takes the coil's resistance as stated, or voltage squared by power", () => {
    expect(ohms(named(elements("contactor", { coilVoltage: "12 V", coilPower: "12 W" }), "coil"))).toBeCloseTo(12, 9);
    expect(ohms(named(elements("contactor", { coilVoltage: "96 V", coilPower: "48 W" }), "coil"))).toBeCloseTo(192, 9);
    expect(ohms(named(elements("relay", { coilVoltage: "12 V", coilResistance: "85 ohm" }), "coil"))).toBe(85);
    // The measured automotive relay: 120 ohm at 12 V.
    expect(ohms(named(elements("relay", { coilVoltage: "12 V" }), "coil"))).toBeCloseTo(120, 9);
  });

  it("tells the checks nothing about a coil that nobody stated", () => {
    const kind = kindOf("contactor");
    const spec = kind?.coils?.(readValues(kind, {}))[0];
    expect(spec).toMatchObject({ element: "coil", nominal: undefined, resistance: undefined, pickUp: undefined });
    const stated = kind?.coils?.(readValues(kind, { coilVoltage: "24 V" }))[0];
    expect(stated?.pickUp).toBeCloseTo(16.8, 9);
    expect(stated?.dropOut).toBeCloseTo(4.8, 9);
  });

  it("puts the cathode of a built-in diode at coil+, and a zener behind about the supply voltage", () => {
    const diode = named(elements("relay", { coilVoltage: "12 V", suppression: "diode" }), "suppression");
    expect(diode).toMatchObject({ type: "diode", a: "coil-", b: "coil+", drop: 0.7 });
    expect(named(elements("relay", { coilVoltage: "12 V", suppression: "zener" }), "suppression")).toMatchObject({
      type: "diode",
      a: "coil-",
      b: "coil+",
      drop: 12.7,
    });
    expect(elements("relay", { suppression: "none" }).some((each) => each.name === "suppression")).toBe(false);
  });

  it("asks for polarity only where the coil has electronics or a diode inside", () => {
    const kind = kindOf("contactor");
    const pairs = (parameters: Readonly<Record<string, string>>) =>
      kind?.supplyPairs(readValues(kind, parameters)).filter((pair) => pair.polarised).length;
    expect(pairs({})).toBe(0);
    expect(pairs({ suppression: "bidirectional" })).toBe(0);
    expect(pairs({ suppression: "diode" })).toBe(1);
    expect(pairs({ economiser: "yes" })).toBe(1);
  });

  it("draws less through an economiser once it has pulled in", () => {
    const parameters = { coilVoltage: "12 V", coilPower: "36 W", economiser: "yes" };
    expect(ohms(named(elements("contactor", parameters, { coil: false }), "coil"))).toBeCloseTo(4, 9);
    // Hold power is cut by 70-85 %: at least 30 % is kept.
    expect(ohms(named(elements("contactor", parameters, { coil: true, saving: false }), "coil"))).toBeCloseTo(4, 9);
    expect(ohms(named(elements("contactor", parameters, { coil: true, saving: true }), "coil"))).toBeCloseTo(
      4 / 0.3,
      9,
    );
  });
});

describe("sensors and loads", () => {
  it("makes 100 microhm of a 500 A 50 mV shunt, 75 mV at 200 A makes 375", () => {
    expect(ohms(named(elements("shunt", { ratedCurrent: "500 A" }), "shunt"))).toBeCloseTo(100e-6, 12);
    expect(ohms(named(elements("shunt", { ratedCurrent: "200 A", ratedDrop: "75 mV" }), "shunt"))).toBeCloseTo(
      375e-6,
      12,
    );
    expect(named(elements("shunt"), "tie-line")).toMatchObject({ resistance: 50e-6, role: "conductor" });
  });

  it("makes a resistance of voltage and power, or of voltage and current", () => {
    expect(ohms(named(elements("lamp", { voltage: "12 V", power: "21 W" }), "load"))).toBeCloseTo(144 / 21, 9);
    expect(ohms(named(elements("heater", { voltage: "144 V", power: "1.5 kW" }), "load"))).toBeCloseTo(13.824, 9);
    expect(ohms(named(elements("pump", { voltage: "12 V", current: "8 A" }), "load"))).toBeCloseTo(1.5, 9);
  });

  it("says by a range that a power is assumed", () => {
    expect(named(elements("lamp", { voltage: "12 V", power: "21 W" }), "load")).not.toHaveProperty("range");
    const assumed = named(elements("lamp", { voltage: "12 V" }), "load");
    expect(assumed).toHaveProperty("range");
    if (assumed.type !== "resistance" || assumed.range === undefined) throw new Error("no range");
    expect(assumed.range[0]).toBeLessThan(assumed.resistance);
    expect(assumed.range[1]).toBeGreaterThan(assumed.resistance);
  });

  it("leaks 10 megohm from a heater to chassis, or what was measured", () => {
    const leakage = (parameters: Readonly<Record<string, string>>): number =>
      1 /
      elements("heater", parameters)
        .filter((each) => each.role === "leak" && each.a !== "case")
        .reduce((sum, each) => sum + 1 / ohms(each), 0);
    expect(leakage({})).toBeCloseTo(10e6, 0);
    expect(leakage({ isolation: "200 kohm" })).toBeCloseTo(200e3, 3);
  });

  it("joins an instrument's supply to what it measures only where it is stated not isolated", () => {
    for (const [name, a, b] of [
      ["gauge", "supply-", "sense-"],
      ["display", "supply-", "serial-ground"],
      ["battery-monitor", "supply-", "B-"],
    ] as const) {
      expect(named(elements(name, { isolated: "no" }), "tie")).toMatchObject({ a, b, role: "conductor" });
      for (const parameters of [{}, { isolated: "yes" }] as const) {
        expect(elements(name, parameters).some((each) => each.name === "tie")).toBe(false);
      }
    }
  });

  it("lets the body diodes of a battery monitor pass the other direction only", () => {
    const list = elements("battery-monitor", { taps: "2" });
    // Off: discharge current (in at P-) is blocked, charging through P- is not; and the reverse at C-.
    expect(named(list, "discharge-diode")).toMatchObject({ a: "B-", b: "P-" });
    expect(named(list, "charge-diode")).toMatchObject({ a: "C-", b: "B-" });
    const kind = kindOf("battery-monitor");
    expect(
      kind?.supplyPairs(readValues(kind, { taps: "2" })).filter(({ plus }) => plus.startsWith("tap")),
    ).toMatchObject([
      { plus: "tap-1", minus: "tap-0", polarised: true },
      { plus: "tap-2", minus: "tap-1", polarised: true },
    ]);
  });

  it("ties an isolation monitor to chassis through its stated internal resistance only", () => {
    const list = elements("isolation-monitor", { internalResistance: "1.2 Mohm" });
    expect(named(list, "monitor-plus")).toMatchObject({ a: "+", b: "chassis", resistance: 1.2e6, role: "sense" });
    expect(named(list, "monitor-minus")).toMatchObject({ a: "-", b: "chassis", resistance: 1.2e6 });
  });
});

describe("connections", () => {
  it("makes one net of a busbar, a splice and each place of a strip, and of a connector's mated pins", () => {
    for (const name of ["busbar", "splice", "terminal-strip", "chassis-point"]) {
      for (const element of elements(name)) expect(element).toMatchObject({ joins: true, role: "conductor" });
    }
    for (const element of elements("connector")) {
      expect(element).toMatchObject({ type: "contact", role: "conductor", closed: true, movedBy: "control" });
    }
    expect(elements("earth-bond")[0]).not.toHaveProperty("joins");
  });

  it("lies between any two studs of a bar as one joint", () => {
    const bar = elements("busbar", { positions: "3" });
    expect(bar.map((each) => [each.a, each.b])).toEqual([
      ["1", ":bar"],
      ["2", ":bar"],
      ["3", ":bar"],
    ]);
    expect(bar.slice(0, 2).reduce((sum, each) => sum + ohms(each), 0)).toBeCloseTo(50e-6, 12);
  });

  it("hangs a chassis point on its structure, on the chassis where nobody said which", () => {
    expect(elements("chassis-point", { structure: "motor" })[0]).toMatchObject({ b: "#structure:motor" });
    expect(elements("chassis-point")[0]).toMatchObject({ b: CHASSIS });
  });

  it("parts a connector pin by pin when it is pulled", () => {
    const pins = elements("connector", { positions: "2" }, {}, "unplugged");
    expect(pins.map((each) => [each.a, each.b, each.type === "contact" && each.closed])).toEqual([
      ["1a", "1b", false],
      ["2a", "2b", false],
    ]);
  });
});
