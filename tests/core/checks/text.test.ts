/** Figures in sentences: as few digits as a person reads, as many as tell two figures apart. */
import { describe, expect, test } from "vitest";
import { fill, Names } from "../../../core/checks/text.ts";
import { drawing } from "../../harness/drawing.ts";

const names = new Names(drawing().build());
const say = (text: string, facts: Parameters<typeof fill>[1]): string => fill(text, facts, names);

describe("figures in a sentence", () => {
  test("what was worked out is told with three digits", () => {
    expect(say("{gap}", { gap: { value: 0.0390437, dimension: "length" } })).toBe("39 mm");
    expect(say("{energy}", { energy: { value: 4.76529, dimension: "energy" } })).toBe("4.77 J");
    expect(say("{volts}", { volts: { value: 76.1342, dimension: "voltage" } })).toBe("76.1 V");
  });

  test("what was typed or stands in a table keeps its digits", () => {
    expect(say("{run}", { run: { value: 1.016, dimension: "length" } })).toBe("1.016 m");
    expect(say("{volts}", { volts: { value: 101.6, dimension: "voltage" } })).toBe("101.6 V");
    expect(say("{warm}", { warm: { value: 353.15, dimension: "temperature" } })).toBe("80 °C");
  });

  test("two unlike figures never read alike", () => {
    const facts = {
      amps: { value: 152.341, dimension: "current" },
      limit: { value: 151.967, dimension: "current" },
    } as const;
    expect(say("{amps} is above {limit}.", facts)).toBe("152.3 A is above 152 A.");
  });
});
