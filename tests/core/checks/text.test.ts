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

describe("figures as people say them", () => {
  const of = (value: number, dimension: "time" | "length" | "current"): string =>
    say("{x}", { x: { value, dimension } });
  test("long times and short lengths", () => {
    expect(of(1_379_808, "time")).toBe("16 days");
    expect(of(23_900, "time")).toBe("6.6 hours");
    expect(of(256, "time")).toBe("4.3 minutes");
    expect(of(71.3, "time")).toBe("71.3 s");
    expect(of(0.0627, "length")).toBe("63 mm");
    expect(of(0.3932, "length")).toBe("393 mm");
  });
  test("a current corrected for its place has three digits", () => {
    expect(of(29.75, "current")).toBe("29.8 A");
  });
  test("only the figures that read alike get another digit", () => {
    const facts = {
      amps: { value: 152.341, dimension: "current" },
      limit: { value: 151.967, dimension: "current" },
      volts: { value: 76.1342, dimension: "voltage" },
    } as const;
    expect(say("{amps}, {limit}, {volts}", facts)).toBe("152.3 A, 152 A, 76.1 V");
  });
});

describe("lists", () => {
  const sketch = drawing();
  for (let block = 1; block <= 12; block++) sketch.part(`G${block}`, "battery-block", {});
  for (let block = 1; block < 12; block++) sketch.wire(`G${block}:+`, `G${block + 1}:-`);
  const project = sketch.build();
  const wired = new Names(project, ["parked", "driving"]);
  const parts = (...numbers: number[]) => numbers.map((number) => ({ part: `p${number}` }));
  const wires = (...numbers: number[]) => numbers.map((number) => ({ wire: `w${number}` }));

  test("what follows one another is told by its ends", () => {
    expect(wired.places(parts(1, 2, 3, 4, 12))).toBe("G1 to G4 and G12");
    expect(wired.places(parts(1, 2))).toBe("G1 and G2");
    expect(wired.places(parts(3, 2, 1))).toBe("G3, G2 and G1");
  });
  test("wires are called so once", () => {
    expect(wired.places(wires(7))).toBe("wire W7");
    expect(wired.places(wires(7, 3))).toBe("wires W7 and W3");
    expect(wired.places(wires(1, 2, 3, 9))).toBe("wires W1 to W3 and W9");
    expect(wired.places([...wires(1), ...parts(2), ...wires(2, 4)])).toBe("wire W1, G2, wires W2 and W4");
  });
  test("a wire without a number is told by its ends", () => {
    const [first, ...rest] = project.wires;
    const bare = new Names({ ...project, wires: [{ ...first!, number: "" }, ...rest] });
    expect(bare.places(wires(1, 2))).toBe("wire from G1:+ to G2:- and wire W2");
  });
  test("long lists are cut and the rest counted, runs by all they hold", () => {
    expect(wired.places(parts(1, 3, 5, 7, 9, 10, 11, 12))).toBe("G1, G3, G5, G7 and G9 to G12");
    expect(wired.places(parts(12, 10, 8, 6, 4, 1, 2, 3))).toBe("G12, G10, G8, G6, G4 and G1 to G3");
    expect(wired.places(parts(12, 10, 8, 6, 4, 11, 1, 2, 3))).toBe("G12, G10, G8, G6, G4 and 4 more");
  });
  test("all states are every state", () => {
    expect(wired.states(["driving", "parked", "parked with S1 on"])).toBe("every state");
    expect(wired.states(["driving"])).toBe("driving");
    expect(names.states(["parked", "driving"])).toBe("parked and driving");
  });
});
