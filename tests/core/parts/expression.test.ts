/** What an output follows: the small language, its order of binding, and texts that try to be more than that. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { holds, readExpression, type Surroundings } from "../../../core/parts/expression.ts";

const around = (
  state: string,
  fed: readonly string[] = [],
  volts: Readonly<Record<string, number>> = {},
): Surroundings => ({
  state,
  isFed: (pin) => fed.includes(pin),
  between: (a, b) => (volts[a] ?? 0) - (volts[b] ?? 0),
});

function is(text: string, surroundings: Surroundings): boolean {
  const reading = readExpression(text);
  if (!reading.ok) throw new Error(`${text}: ${reading.why}`);
  return holds(reading.expression, surroundings);
}

describe("an expression", () => {
  it("knows states by name, with their hyphens", () => {
    expect(is("driving", around("driving"))).toBe(true);
    expect(is("driving", around("driving-low"))).toBe(false);
    expect(is("pre-charging or key-on", around("key-on"))).toBe(true);
  });

  it("knows inputs, and volts between them and against supply-", () => {
    expect(is("in-2", around("ready", ["in-2"]))).toBe(true);
    expect(is("volts(in-1, in-2) > 5 V", around("ready", [], { "in-1": 76, "in-2": 70.9 }))).toBe(true);
    expect(is("volts(in-1, in-2) > 5 V", around("ready", [], { "in-1": 76, "in-2": 71.1 }))).toBe(false);
    expect(is("volts(in-3) <= 12.6 V", around("ready", [], { "in-3": 12.6 }))).toBe(true);
    expect(is("volts(in-3)<500mV", around("ready", [], { "in-3": 0.4 }))).toBe(true);
    expect(is("volts(in-3) >= -1 V and ready", around("ready", [], { "in-3": -0.5 }))).toBe(true);
    expect(is("volts(in-3) > 5 or ready", around("ready"))).toBe(true);
  });

  it.each([
    ["in-1 or in-2 and in-3", ["in-1"], true],
    ["(in-1 or in-2) and in-3", ["in-1"], false],
    ["not in-1 and in-2", ["in-2"], true],
    ["not (in-1 and in-2)", ["in-2"], true],
    ["not not in-1", ["in-1"], true],
    ["NOT IN-1", [], true],
  ] as const)("binds not before and before or: %s", (text, fed, expected) => {
    expect(is(text, around("ready", fed))).toBe(expected);
  });

  it.each([
    ["", /missing/],
    ["and in-1", /before "and"/],
    ["in-1 in-2", /"in-2" was not expected/],
    ["(in-1", /"\)" is missing/],
    ["volts(driving) > 5 V", /compares inputs/],
    ["volts(in-1) 5 V", /comes >/],
    ["volts(in-1) > 5 ohm", /was not expected/],
    ["volts(in-1) >", /voltage/],
    ["in-1 && in-2", /was not expected/],
    ["constructor.constructor('x')()", /was not expected/],
    ["in-1; process.exit()", /was not expected/],
    ["__proto__", /missing/],
    [`${"(".repeat(40)}in-1${")".repeat(40)}`, /too many brackets/],
    [`${"not ".repeat(60)}in-1`, /too many brackets/],
    ["in-1 or ".repeat(100), /more than 300 characters/],
  ])("refuses %j in one sentence", (text, why) => {
    const reading = readExpression(text);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(reading.why).toMatch(why);
  });

  it("ends on any text, and never throws", () => {
    const pieces = fc.constantFrom(
      "in-1",
      "not",
      "and",
      "or",
      "(",
      ")",
      "volts",
      ",",
      ">",
      "<=",
      "5 V",
      "driving",
      " ",
      "-",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 80 }),
          fc.array(pieces, { maxLength: 40 }).map((list) => list.join(" ")),
        ),
        (text) => {
          const reading = readExpression(text);
          if (reading.ok) expect(holds(reading.expression, around("driving", ["in-1"]))).toBeTypeOf("boolean");
          else expect(reading.why.length).toBeGreaterThan(5);
        },
      ),
      { numRuns: 300 },
    );
  });
});
