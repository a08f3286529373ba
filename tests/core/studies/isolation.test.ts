/** The two-reading method of UN R100, annex 4, on leaks that the network solves. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { meterReadings, packIsolations } from "../../../core/studies/isolation.ts";
import { drawing } from "../../harness/drawing.ts";

/** A pack with a leak at each pole, drawn as resistors to the chassis; its own isolation next to perfect. */
function pack(volts: number, negative: string, positive: string) {
  const blocks = volts / 12;
  const project = drawing()
    .part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "nimh",
      cells: "10",
      blocks: String(blocks),
      resistance: "10 mohm",
      isolation: "100 Gohm",
    })
    .part("R1", "resistor", { resistance: negative })
    .part("R2", "resistor", { resistance: positive })
    .part("X1", "chassis-point", { structure: "body" })
    .wire("G1:-", "R1:1", { size: "1 mm2", length: "0.1 m" })
    .wire("G1:+", "R2:1", { size: "1 mm2", length: "0.1 m" })
    .wire("R1:2", "X1:stud", { size: "1 mm2", length: "0.1 m" })
    .wire("R2:2", "X1:stud", { size: "1 mm2", length: "0.1 m" })
    .build();
  const analysis = analyse(project);
  const [first] = analysis.packs;
  const state = analysis.state("parked");
  if (first === undefined || state === undefined) throw new Error("the drawing has no pack");
  /** The pack's rest voltage is not a round figure: readings are told for the wanted one. */
  const scale = volts / Math.abs(state.between(first.positive, first.negative));
  return (options: Parameters<typeof meterReadings>[3]) => {
    const made = meterReadings(analysis, first, state, options);
    if (made === undefined) throw new Error("nothing can be read");
    const { negative: v1, positive: v2, loaded, isolation, loadedPole } = made;
    return { v1: v1 * scale, v2: v2 * scale, loaded: loaded * scale, isolation, loadedPole };
  };
}

describe("worked examples of the formula", () => {
  test("300 V, 100 kohm at the negative pole, 60 kohm at the positive, ideal meter, Ro 30 kohm", () => {
    const made = pack(300, "100 kohm", "60 kohm")({ meter: Infinity, resistor: 30e3 });
    expect(made.v1).toBeCloseTo(187.5, 2);
    expect(made.v2).toBeCloseTo(112.5, 2);
    expect(made.loaded).toBeCloseTo(83.333, 2);
    expect(made.isolation / 60e3).toBeCloseTo(1, 4);
    // 200 ohm/V: above 100, below 500.
    expect(made.isolation / 300).toBeCloseTo(200, 1);
  });

  test("144 V, 200 kohm and 20 kohm, ideal meter, Ro 72 kohm", () => {
    const made = pack(144, "200 kohm", "20 kohm")({ meter: Infinity, resistor: 72e3 });
    expect(made.v1).toBeCloseTo(130.909, 2);
    expect(made.v2).toBeCloseTo(13.091, 2);
    expect(made.loaded).toBeCloseTo(104.516, 2);
    expect(made.isolation / 144).toBeCloseTo(138.9, 1);
  });

  test("the same with a meter of 10 Mohm: the readings fall, the result stays", () => {
    const made = pack(144, "200 kohm", "20 kohm")({ resistor: 72e3 });
    expect(made.v1).toBeCloseTo(130.672, 2);
    expect(made.v2).toBeCloseTo(13.067, 2);
    expect(made.loaded).toBeCloseTo(104.365, 2);
    expect(made.isolation / 20e3).toBeCloseTo(1, 4);
  });

  test("360 V, 20 kohm and 500 kohm: the positive side is loaded", () => {
    const made = pack(360, "20 kohm", "500 kohm")({ meter: Infinity, resistor: 180e3 });
    expect(made.loadedPole).toBe("positive");
    expect(made.v1).toBeCloseTo(13.846, 2);
    expect(made.v2).toBeCloseTo(346.154, 2);
    expect(made.loaded).toBeCloseTo(312.741, 2);
    expect(made.isolation / 360).toBeCloseTo(55.6, 1);
  });
});

test("stated leaks alone: both poles of 1 Mohm give half of it, in ohm per volt of the highest", () => {
  const analysis = analyse(
    drawing()
      .part("G1", "battery-pack", {
        duty: "traction",
        chemistry: "lifepo4",
        cells: "4",
        blocks: "8",
        isolation: "1 Mohm",
      })
      .build(),
  );
  const [only] = packIsolations(analysis);
  expect(only).toMatchObject({ joined: false, ac: false, missing: [], limits: { least: 100, sound: 500 } });
  expect(only?.perVolt).toBeCloseTo((only?.measured?.ohms ?? 0) / (32 * 3.65), 6);
});
