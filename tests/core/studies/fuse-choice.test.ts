import { describe, expect, test } from "vitest";
import { chooseFuse } from "../../../core/studies/fuse-choice.ts";
import type { FuseQuestion } from "../../../core/studies/fuse-choice.ts";

const celsius = (degrees: number): number => degrees + 273.15;
const question = (changes: Partial<FuseQuestion> = {}): FuseQuestion => ({
  continuous: 160,
  nominal: 96,
  highest: 118,
  cable: 330,
  prospective: 2000,
  ...changes,
});
const chosen = (changes: Partial<FuseQuestion>) => chooseFuse(question(changes)).answer;

describe("rating", () => {
  // NEC 210.20: a continuous load is at most 80 % of the device, 125 % the other way round.
  test("80 % rule", () => {
    expect(chosen({ continuous: 160 })).toMatchObject({ rating: 200, decides: "continuous" });
    expect(chosen({ continuous: 161 }).rating).toBe(225);
  });

  test("hot air takes half a per cent for each kelvin above 25 C", () => {
    // 160 A / 0.8 / 0.825 = 242 A.
    expect(chosen({ ambient: celsius(60) }).rating).toBe(250);
  });

  test("an inrush that the class may open on asks for a larger one", () => {
    // ISO 8820-3 blade: 200 % may open from 0.15 s on, 160 % from 0.25 s on, 110 % not within 100 h.
    const blade = { continuous: 8, nominal: 12, highest: 16, cable: 40, prospective: 500 } as const;
    expect(chosen(blade)).toMatchObject({ rating: 10, fuseClass: "blade" });
    expect(chosen({ ...blade, inrush: [{ current: 20, time: 0.1 }] }).rating).toBe(10);
    expect(chosen({ ...blade, inrush: [{ current: 20, time: 1 }] })).toMatchObject({ rating: 20, decides: "inrush" });
  });

  test("without a published curve it is not known what an inrush does", () => {
    const study = chooseFuse(question({ inrush: [{ current: 400, time: 5 }] }));
    expect(study.answer.fuseClass).toBe("traction-gR");
    expect(study.open).toEqual([{ what: "inrush", lacks: ["points"] }]);
  });
});

describe("cable behind it", () => {
  // 33 CFR 183.455(c): below 50 V 150 % of the ampacity; from 50 V on the ampacity, or the next standard size.
  test.each([
    [12, 60, 90],
    [72, 60, 60],
    [72, 245, 250],
  ])("at %i V a cable of %i A may have %i A before it", (nominal, cable, most) => {
    expect(chosen({ nominal, cable }).most).toBe(most);
  });

  test("too thin a cable does not fit, and the rating still is what the load needs", () => {
    expect(chosen({ cable: 120 })).toMatchObject({ rating: 200, most: 125, fits: false });
    expect(chosen({ cable: 330 }).fits).toBe(true);
  });
});

describe("class, voltage and interrupting rating", () => {
  test("a blade fuse up to 58 V, 100 A and 1000 A (ISO 8820-3)", () => {
    const low = { continuous: 20, nominal: 12, highest: 16, cable: 60, prospective: 900 } as const;
    expect(chosen(low).fuseClass).toBe("blade");
    expect(chosen({ ...low, prospective: 1500 }).fuseClass).toBe("bolted-strip");
    expect(chosen({ ...low, highest: 58.4 }).fuseClass).toBe("traction-gR");
    expect(chosen({ ...low, prospective: undefined }).fuseClass).toBe("bolted-strip");
  });

  test("it has to break the pack's highest voltage and the short-circuit current", () => {
    expect(chosen({})).toMatchObject({ voltageDc: 118, interrupting: 2000 });
  });
});

test("what is unknown is named and nothing is made up for it", () => {
  const study = chooseFuse(question({ continuous: undefined, cable: undefined, prospective: undefined }));
  expect(study.answer).toMatchObject({ rating: undefined, most: undefined, fits: undefined, interrupting: undefined });
  expect(study.open).toEqual([
    { what: "rating", lacks: ["continuous"] },
    { what: "cable", lacks: ["cable"] },
    { what: "interrupting", lacks: ["prospective"] },
  ]);
});
