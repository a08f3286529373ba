/** Wires and fuses of small drawings, sized. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Project } from "../../../core/project/document.ts";
import { readProject } from "../../../core/project/read.ts";
import { fuseSizes } from "../../../core/studies/fuse-sizes.ts";
import { wireSizes } from "../../../core/studies/wire-sizes.ts";
import type { WireSize } from "../../../core/studies/wire-sizes.ts";
import { drawing } from "../../harness/drawing.ts";
import type { WireOptions } from "../../harness/drawing.ts";

const CABLE = { insulation: { material: "XLPE", temperature: "105 °C" }, sheath: false } as const;

interface Options {
  readonly power?: string | null;
  readonly rating?: string | null;
  readonly fuse?: Readonly<Record<string, string>>;
  readonly lead?: WireOptions;
  readonly wire?: WireOptions;
}

/** A 12 V battery, a fuse, a heater: W1 battery to fuse, W2 fuse to heater, W3 back. */
function heater({ power = "240 W", rating = "30 A", fuse = {}, lead = {}, wire = {} }: Options = {}): Project {
  const stated = (name: string, value: string | null) => (value === null ? {} : { [name]: value });
  return drawing()
    .part("G1", "battery-block", {
      duty: "auxiliary",
      chemistry: "agm-lead",
      cells: "6",
      resistance: "5 mohm",
      capacity: "60 Ah",
    })
    .part("F1", "fuse", {
      curve: "blade",
      voltageDc: "32 V",
      interrupting: "5 kA",
      ...stated("rating", rating),
      ...fuse,
    })
    .part("E1", "heater", { voltage: "12 V", ...stated("power", power) })
    .wire("G1:+", "F1:1", { ...CABLE, size: "6 mm2", length: "0.1 m", ...lead })
    .wire("F1:2", "E1:+", { ...CABLE, size: "6 mm2", length: "2 m", ...wire })
    .wire("E1:-", "G1:-", { ...CABLE, size: "6 mm2", length: "2.1 m" })
    .build();
}
const sized = (project: Project, wire: string): WireSize => {
  const found = wireSizes(analyse(project)).find(({ conductor }) => conductor.wire.id === wire);
  if (found === undefined) throw new Error(`there is no wire ${wire}`);
  return found;
};
const fuseOf = (project: Project) => {
  const [only] = fuseSizes(analyse(project));
  if (only === undefined) throw new Error("there is no fuse");
  return only;
};

describe("wires", () => {
  test("the current is the worst state's, and a device before it counts", () => {
    const own = sized(heater(), "w2");
    // 240 W at 12 V, a little more on a full battery.
    expect(own.current).toBeGreaterThan(20);
    expect(own.current).toBeLessThan(22);
    expect(own.protection).toMatchObject({ how: "device", rating: 30 });
    // 33 CFR 183.425: 16 AWG of 105 C carries 25 A, but a short of some 600 A for 0.1 s (ISO 8820-3) asks for
    // sqrt(I2t)/134.8 = 1.4 mm2 and more.
    expect(own.gauge).toMatchObject({ size: { text: "14 AWG" }, decides: "short-circuit" });
    expect(own.tooThinFor).toEqual([]);
    expect(own.open).toEqual([]);
  });

  test("ahead of the fuse it is the fuse behind that ends its overloads", () => {
    expect(sized(heater(), "w1").protection).toMatchObject({ how: "ahead", rating: 30 });
  });

  test("a larger fuse asks for a thicker wire", () => {
    const own = sized(heater({ rating: "80 A", wire: { size: "2.5 mm2" } }), "w2");
    // 80 A need 53.3 A of ampacity: 10 AWG (60 A), 6 mm2.
    expect(own.gauge).toMatchObject({ size: { text: "10 AWG" }, decides: "device" });
    expect(own.metric).toMatchObject({ size: { text: "6 mm2" }, decides: "device" });
    expect(own.tooThinFor).toContain("device");
  });

  test("a long way asks for one that keeps the voltage", () => {
    const own = sized(heater({ wire: { length: "12 m" } }), "w2");
    expect(own.metric?.decides).toBe("voltage-drop");
    // 10 % of 12 V at 20 A over 12 m and back 2.1 m.
    expect(own.metric?.size.area).toBeGreaterThan(4e-6);
    expect(sized(heater({ wire: { length: "12 m", size: "1.5 mm2" } }), "w2").tooThinFor).toContain("voltage-drop");
  });

  test("a hot engine bay counts", () => {
    const project = (kind: "engine" | "outside") =>
      drawing()
        .zone(kind, "bay")
        .part("G1", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "5 mohm" })
        .part("E1", "heater", { voltage: "12 V", power: "360 W" })
        .part("F1", "fuse", { rating: "40 A", curve: "blade", curvePoints: "2:1 s; 6:0.01 s; 20:0.001 s" })
        .wire("G1:+", "F1:1", { ...CABLE, size: "6 mm2", length: "0.1 m" })
        .wire("F1:2", "E1:+", { ...CABLE, size: "6 mm2", length: "0.3 m", zones: ["bay"] })
        .wire("E1:-", "G1:-", { ...CABLE, size: "6 mm2", length: "0.3 m" })
        .build();
    // Some 32 A: 14 AWG (35 A), in an engine space 35 x 0.85 = 29.75 A, so 12 AWG.
    expect(sized(project("outside"), "w2").gauge?.size.text).toBe("14 AWG");
    expect(sized(project("engine"), "w2").gauge?.size.text).toBe("12 AWG");
  });

  test("a wire without length or insulation names the fields", () => {
    const project = heater({ wire: { length: null, insulation: {} } });
    const own = sized(project, "w2");
    expect(own.open).toContainEqual({ what: "voltage-drop", missing: [{ wire: "w2", field: "length" }] });
    expect(own.open).toContainEqual({ what: "insulation", missing: [{ wire: "w2", field: "insulation.temperature" }] });
  });

  test("a fuse of unstated rating leaves open what it asks for", () => {
    const own = sized(heater({ rating: null }), "w2");
    expect(own.open.map(({ what }) => what)).toEqual(expect.arrayContaining(["device", "short-circuit"]));
    expect(own.open[0]?.missing).toContainEqual({ part: "p2", parameter: "rating" });
  });

  test("a drive of unknown current is not sized by a made-up one", () => {
    const project = drawing()
      .part("G1", "battery-pack", {
        duty: "traction",
        chemistry: "lifepo4",
        cells: "4",
        blocks: "8",
        resistance: "20 mohm",
      })
      .part("F1", "fuse", { rating: "200 A", curve: "traction-gR" })
      .part("T1", "dc-controller", { logicFeed: "pack-fed" })
      .part("M1", "motor-series", {})
      .wire("G1:+", "F1:1", { ...CABLE, length: "1 m" })
      .wire("F1:2", "T1:B+", { ...CABLE, length: "1 m" })
      .wire("T1:B-", "G1:-", { ...CABLE, length: "1 m" })
      .wire("F1:2", "T1:logic+", { ...CABLE, length: "1 m" })
      .wire("T1:B+", "M1:A1", { ...CABLE, length: "1 m" })
      .wire("M1:A2", "M1:S1", { ...CABLE, length: "1 m" })
      .wire("M1:S2", "T1:M-", { ...CABLE, length: "1 m" })
      .build();
    const own = sized(project, "w2");
    expect(own.current).toBeUndefined();
    expect(own.open.find(({ what }) => what === "ampacity")?.missing).toEqual(
      expect.arrayContaining([{ part: "p3", parameter: "currentContinuous" }]),
    );
  });
});

describe("fuses", () => {
  test("rating, voltage and breaking capacity for the load and its wires", () => {
    const own = fuseOf(heater());
    // Some 21 A: 21/0.8 = 26 A, the next standard rating is 30 A.
    expect(own.study.answer).toMatchObject({ rating: 30, fuseClass: "blade", fits: true });
    // 6 mm2 of 105 C is read as 10 AWG, 60 A, 150 % below 50 V.
    expect(own.study.answer.most).toBe(90);
    expect(own.fallsShort).toEqual([]);
    expect(own.wires.map(({ wire }) => wire.id)).toEqual(["w2", "w3"]);
  });

  test.each([
    [{ rating: "20 A" }, "load"],
    [{ rating: "150 A" }, "cable"],
    [{ fuse: { voltageDc: "12 V" } }, "voltage"],
    [{ fuse: { interrupting: "200 A" } }, "interrupting"],
  ] as const)("as drawn %o falls short: %s", (options, shortfall) => {
    expect(fuseOf(heater(options)).fallsShort).toEqual([shortfall]);
  });
});

describe("inrush", () => {
  /** A key that puts a battery onto 100 mF beside a load of 1 A. */
  const capacitor = (fuse: Readonly<Record<string, string>>) =>
    fuseOf(
      drawing()
        .part("G1", "battery-block", {
          duty: "auxiliary",
          chemistry: "agm-lead",
          cells: "6",
          resistance: "20 mohm",
          capacity: "60 Ah",
        })
        .part("F1", "fuse", { rating: "2 A", voltageDc: "32 V", interrupting: "1 kA", ...fuse })
        .part("S1", "key-switch")
        .part("C1", "capacitor", { capacitance: "100 mF", voltage: "25 V" })
        .part("E1", "load", { voltage: "12 V", power: "12 W", purpose: "other" })
        .wires({ ...CABLE, size: "6 mm2", length: "1 m" }, "G1:+ - F1:1", "F1:2 - S1:battery", "S1:ignition - E1:+")
        .wires({ ...CABLE, size: "6 mm2", length: "1 m" }, "E1:- - G1:-", "S1:ignition - C1:+", "C1:- - G1:-")
        .build(),
    );

  test("a surge of some hundred amperes asks for a fuse that does not melt in that time", () => {
    const own = capacitor({ curve: "bolted-strip", curvePoints: "1.35:600 s; 2:5 s; 6:0.3 s; 20:0.02 s; 100:0.01 s" });
    expect(own.question.inrush?.length).toBeGreaterThan(0);
    // The charge of 100 mF at some 12.9 V is 1.29 As: current times time of the surge is about that.
    const [surge] = own.question.inrush ?? [];
    expect((surge?.current ?? 0) * (surge?.time ?? 0)).toBeGreaterThan(1);
    expect(own.study.answer.decides).toBe("inrush");
    expect(own.study.answer.rating).toBeGreaterThan(2);
  });

  test("where no curve tells, it is left open with the field that would", () => {
    const own = capacitor({ curve: "glass" });
    expect(own.open).toContainEqual({ what: "inrush", missing: [{ part: "p2", parameter: "curvePoints" }] });
    expect(own.study.answer).toMatchObject({ rating: 2, decides: "continuous" });
  });
});

describe("sound vehicles", () => {
  test.each(["farm-pickup-96v", "yard-tug-48v"])("%s: no wire is called too thin, no fuse wrong", (name) => {
    const read = readProject(readFileSync(`demo-projects/${name}/${name}.loomwright`, "utf8"));
    if (!read.ok) throw new Error("the demo cannot be read");
    const analysis = analyse(read.project);
    expect(wireSizes(analysis).filter(({ tooThinFor }) => tooThinFor.length > 0)).toEqual([]);
    expect(wireSizes(analysis).filter(({ protection }) => protection.how === "unprotected")).toEqual([]);
    expect(fuseSizes(analysis).filter(({ fallsShort }) => fallsShort.length > 0)).toEqual([]);
    expect(fuseSizes(analysis).filter(({ open }) => open.length > 0)).toEqual([]);
  });

  test("the faulty pickup: its stud without a fuse and its 12 V fuse on the pack are seen", () => {
    const name = "farm-pickup-96v-faulty";
    const read = readProject(readFileSync(`demo-projects/${name}/${name}.loomwright`, "utf8"));
    if (!read.ok) throw new Error("the demo cannot be read");
    const analysis = analyse(read.project);
    expect(wireSizes(analysis).some(({ protection }) => protection.how === "unprotected")).toBe(true);
    expect(fuseSizes(analysis).some(({ fallsShort }) => fallsShort.includes("voltage"))).toBe(true);
  });
});
