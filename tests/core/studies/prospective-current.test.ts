import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { readProject } from "../../../core/project/read.ts";
import { gaugeArea } from "../../../core/quantity/size.ts";
import { temperatureAfter } from "../../../core/studies/adiabatic.ts";
import {
  currentBehind,
  currentsAtPoles,
  prospectiveFaults,
  selectivity,
} from "../../../core/studies/prospective-current.ts";
import { devices } from "../../../core/studies/words/devices.ts";
import { drawing } from "../../harness/drawing.ts";
import { readFileSync } from "node:fs";

describe("current of a short between the poles (Ohm's law)", () => {
  // 12 blocks of 12.7 V and 6 mohm, 11 links of 0.1 mohm, 4 m of 2/0 AWG (0.2557 ohm/km): 2056 A.
  test("a string with its links and leads", () => {
    const made = drawing();
    for (let block = 1; block <= 12; block += 1) {
      made.part(`G${String(block)}`, "battery-block", {
        duty: "traction",
        chemistry: "flooded-lead",
        cells: "6",
        resistance: "6 mohm",
        chargeState: "100 %",
      });
    }
    // A link of 0.1 mohm: two joints of 50 uohm, and next to no length.
    for (let block = 1; block < 12; block += 1) {
      made.wire(`G${String(block)}:+`, `G${String(block + 1)}:-`, { size: "2/0 AWG", length: "1 mm" });
    }
    made
      .part("F1", "fuse", { rating: "200 A" })
      .part("E1", "load", { voltage: "144 V", power: "10 kW" })
      .wire("G12:+", "F1:1", { size: "2/0 AWG", length: "2 m" })
      .wire("F1:2", "E1:+", { size: "2/0 AWG", length: "10 mm" })
      .wire("E1:-", "G1:-", { size: "2/0 AWG", length: "2 m" });
    const analysis = analyse(made.build());
    const [device] = [...devices(analysis).values()];
    const poles = currentsAtPoles(analysis)[0];
    // 152.4 V over 72 mohm and 1.1 mohm of links.
    expect(poles?.current.most).toBeCloseTo(152.4 / 0.0731, -1);
    if (device === undefined) throw new Error("the drawing has no fuse");
    const behind = currentBehind(analysis, device);
    // The fuse's own resistance of 0.5 mohm and two joints more lie in this loop.
    const ohms = 0.0731 + 0.002 * 0.2557 + 2 * 50e-6 + 0.1 / 200;
    expect(behind?.most).toBeCloseTo(152.4 / ohms, -1);
    expect(behind?.least).toBe(behind?.most);
  });

  // 24 blocks of 6.35 V and 3 mohm without links: 2117 A, as one block by itself.
  test("a string of alike blocks gives what one block gives", () => {
    const made = drawing().part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "flooded-lead",
      cells: "3",
      blocks: "24",
      resistance: "3 mohm",
      jumperResistance: "0 mohm",
      chargeState: "100 %",
    });
    const analysis = analyse(made.build());
    expect(currentsAtPoles(analysis)[0]?.current.most).toBeCloseTo(2117, -1);
  });
});

const blade = (rating: string) => ({ rating, curve: "blade", voltageDc: "32 V", interrupting: "1 kA" });

/** A 12 V battery, two blade fuses in a row, a lamp at the end of 5 m of 14 AWG. */
function twoFuses(near: string, far: string, resistance: string | null = "20 mohm") {
  return analyse(
    drawing()
      .part("G1", "battery-block", {
        duty: "auxiliary",
        chemistry: "agm-lead",
        cells: "6",
        capacity: "60 Ah",
        ...(resistance === null ? {} : { resistance }),
      })
      .part("F1", "fuse", blade(near))
      .part("F2", "fuse", blade(far))
      .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
      .wire("G1:+", "F1:1", { size: "10 AWG", length: "0.1 m" })
      .wire("F1:2", "F2:1", { size: "10 AWG", length: "1 m" })
      .wire("F2:2", "P1:+", {
        size: "14 AWG",
        length: "5 m",
        insulation: { material: "XLPE", temperature: "125 °C" },
      })
      .wire("P1:-", "G1:-", { size: "14 AWG", length: "5 m" })
      .build(),
  );
}
const atLamp = (analysis: ReturnType<typeof twoFuses>) => {
  const found = prospectiveFaults(analysis).find(({ fault }) => fault.consumer?.part.designation === "P1");
  if (found === undefined) throw new Error("no fault at the lamp");
  return found;
};

describe("what passes until a device clears", () => {
  test("I2t and temperature of the wire behind the fuse", () => {
    const found = atLamp(twoFuses("30 A", "10 A"));
    const far = found.devices.find(({ device }) => device.part.part.designation === "F2");
    // More than 6 times 10 A: at most 0.1 s (ISO 8820-3).
    expect(found.current.most).toBeGreaterThan(60);
    expect(far?.clears?.most).toBe(0.1);
    const thin = found.conductors.find(({ conductor }) => conductor.wire.id === "w3");
    const energy = found.current.most ** 2 * 0.1;
    expect((thin?.letThrough ?? 0) / energy).toBeCloseTo(1, 6);
    expect(thin?.heatsTo).toBeCloseTo(temperatureAfter(gaugeArea(14), 398.15, energy), 3);
  });

  test("a battery of unstated resistance gives a range and names the field", () => {
    const found = atLamp(twoFuses("30 A", "10 A", null));
    expect(found.current.least).toBeLessThan(found.current.most);
    expect(found.missing).toContainEqual({ part: "p1", parameter: "resistance" });
  });

  test("a breaker without a curve: not known when it clears, and nothing is made up", () => {
    const analysis = analyse(
      drawing()
        .part("G1", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "20 mohm" })
        .part("F1", "circuit-breaker", { rating: "20 A" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wire("G1:+", "F1:line", { size: "10 AWG", length: "0.1 m" })
        .wire("F1:load", "P1:+", { size: "10 AWG", length: "1 m" })
        .wire("P1:-", "G1:-", { size: "10 AWG", length: "1 m" })
        .build(),
    );
    const found = atLamp(analysis);
    expect(found.cleared).toBeUndefined();
    expect(found.conductors.map(({ letThrough, heatsTo }) => [letThrough, heatsTo])).toEqual(
      found.conductors.map(() => [undefined, undefined]),
    );
  });
});

describe("selectivity", () => {
  const verdicts = (near: string, far: string) =>
    selectivity(twoFuses(near, far)).flatMap(({ at, verdict, nearest }) =>
      at.fault.consumer?.part.designation === "P1" ? [`${nearest.device.part.part.designation} ${verdict}`] : [],
    );

  // Some 110 A: 10 A blade within 0.1 s; 60 A blade (1.8 times) not before 0.15 s (ISO 8820-3).
  test("the small one at the load clears first", () => {
    expect(verdicts("60 A", "10 A")).toEqual(["F2 selective"]);
  });
  test("the wrong way round it is lost", () => {
    expect(verdicts("10 A", "60 A")).toEqual(["F2 lost"]);
  });
  test("two alike: not known", () => {
    expect(verdicts("15 A", "15 A")).toEqual(["F2 unknown"]);
  });
});

test("the demo pickup: wherever the devices state a curve it is known when a short is cleared", () => {
  const read = readProject(readFileSync("demo-projects/farm-pickup-96v/farm-pickup-96v.loomwright", "utf8"));
  if (!read.ok) throw new Error("the demo cannot be read");
  const found = prospectiveFaults(analyse(read.project));
  const withCurve = found.filter(({ devices: own }) =>
    own.some(({ device }) => device.part.values.text("curvePoints") !== undefined),
  );
  expect(withCurve.length).toBeGreaterThan(20);
  for (const { current, cleared } of withCurve) {
    expect(current.least).toBeLessThanOrEqual(current.most);
    expect(cleared).toBeDefined();
  }
});
