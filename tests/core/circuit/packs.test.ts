/** Packs, duties, belonging: found from the circuit, never from names. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis, Belonging } from "../../../core/circuit/analysis.ts";
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";

const HEAVY = { size: "35 mm2", length: "0.3 m" };
const SMALL = { size: "1.5 mm2", length: "2 m" };
const BLOCK = { chemistry: "flooded-lead", cells: "6", capacity: "100 Ah" };

const series = (sketch: Drawing, first: number, last: number, reversed?: number): Drawing => {
  const [low, high] = [
    (block: number) => (block === reversed ? "+" : "-"),
    (block: number) => (block === reversed ? "-" : "+"),
  ];
  for (let block = first; block <= last; block += 1) {
    sketch.part(`G${block}`, "battery-block", BLOCK);
    if (block > first) sketch.wire(`G${block - 1}:${high(block - 1)}`, `G${block}:${low(block)}`, HEAVY);
  }
  return sketch;
};

/** A 48 V cart: four blocks, contactor, controller, motor; 12 V from a battery of its own on the body. */
const cart = (reversed?: number): Drawing =>
  series(drawing(), 1, 4, reversed)
    .part("F1", "fuse", { rating: "200 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", nominalMin: "48 V" })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .part("G9", "battery-block", BLOCK)
    .part("X1", "chassis-point", { structure: "body" })
    .part("S1", "key-switch")
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", `T1:B- - G1:${reversed === 1 ? "+" : "-"}`)
    .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "G9:- - X1:stud", "G9:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - X1:stud")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X1:stud");

const names = (analysis: Analysis) =>
  analysis.packs.map(({ duty, blocks }) => `${duty} ${blocks.map(({ part }) => part.designation).join(" ")}`);
const belonging = (analysis: Analysis, terminal: string): Belonging => {
  const [designation, id = ""] = terminal.split(":");
  const part = analysis.network.parts.find((candidate) => candidate.part.designation === designation);
  const node = analysis.network.nodeOf([part?.part.id ?? "", id]);
  return analysis.belonging(analysis.network.netOfNode[node] ?? -1);
};
const sides = (analysis: Analysis, terminal: string): string => {
  const { traction, auxiliary, chassis } = belonging(analysis, terminal);
  return [traction.length > 0 && "traction", auxiliary.length > 0 && "auxiliary", chassis && "chassis"]
    .filter(Boolean)
    .join(" ");
};
const at = (analysis: Analysis, node: number | undefined) => {
  const end = analysis.network.terminalOfNode[node ?? -1];
  return end === undefined ? undefined : analysis.network.label(end);
};

describe("packs", () => {
  it("tell the traction string from the 12 V battery", () => {
    const analysis = analyse(cart().build());
    expect(names(analysis)).toEqual(["traction G1 G2 G3 G4", "auxiliary G9"]);
    const [pack] = analysis.packs;
    expect([at(analysis, pack?.negative), at(analysis, pack?.positive)]).toEqual(["G1:-", "G4:+"]);
    // Rested and full: 12.70 V a block (published table of open-circuit voltages of flooded lead-acid).
    expect(pack?.rest).toBeCloseTo(4 * 12.7, 0);
    // Absorption 2.40-2.47 V, equalising 2.58-2.67 V a cell.
    expect((pack?.highest ?? 0) / 24).toBeGreaterThanOrEqual(2.4);
    expect((pack?.highest ?? 0) / 24).toBeLessThanOrEqual(2.47);
    expect((pack?.equalising ?? 0) / 24).toBeGreaterThanOrEqual(2.58);
    expect((pack?.equalising ?? 0) / 24).toBeLessThanOrEqual(2.67);
    expect(pack?.lowest).toBeLessThan(pack?.rest ?? 0);
  });

  it("give a 12 V battery's highest and lowest too, though it rests in every state", () => {
    const [, auxiliary] = analyse(cart().build()).packs;
    expect(auxiliary?.rest).toBeCloseTo(12.7, 1);
    expect((auxiliary?.highest ?? 0) / 6).toBeGreaterThanOrEqual(2.4);
    expect(auxiliary?.lowest).toBeCloseTo(11.31, 1);
  });

  it("stay one with a block reversed; negative is the lowest terminal by the EMFs", () => {
    const analysis = analyse(cart(1).build());
    expect(names(analysis)).toEqual(["traction G1 G2 G3 G4", "auxiliary G9"]);
    expect(at(analysis, analysis.packs[0]?.negative)).toBe("G1:-");
    expect(analysis.packs[0]?.rest).toBeCloseTo(3 * 12.7, 0);
  });

  it("are found though a jumper is still missing", () => {
    const project = cart().build();
    const analysis = analyse({ ...project, wires: project.wires.filter(({ id }) => id !== "w2") });
    expect(names(analysis)).toEqual(["traction G1 G2", "traction G3 G4", "auxiliary G9"]);
  });

  it("leave the 12 V battery auxiliary though its minus is tied to the pack's, by wire or chassis", () => {
    expect(names(analyse(cart().wire("G9:-", "T1:B-", HEAVY).build()))).toEqual([
      "traction G1 G2 G3 G4",
      "auxiliary G9",
    ]);
    expect(names(analyse(cart().wire("G1:-", "X1:stud", HEAVY).build()))).toEqual([
      "traction G1 G2 G3 G4",
      "auxiliary G9",
    ]);
  });

  it("of two strings in parallel are one", () => {
    const sketch = series(cart(), 11, 14).wires(HEAVY, "G14:+ - F1:1", "G11:- - T1:B-");
    const analysis = analyse(sketch.build());
    expect(names(analysis)).toEqual(["traction G1 G2 G3 G4 G11 G12 G13 G14", "auxiliary G9"]);
    expect(analysis.packs[0]?.rest).toBeCloseTo(4 * 12.7, 0);
  });

  it("of two controllers apart are two", () => {
    const sketch = series(cart(), 11, 12)
      .part("T2", "dc-controller", { logicFeed: "isolated-12v" })
      .wires(HEAVY, "G12:+ - T2:B+", "G11:- - T2:B-");
    expect(names(analyse(sketch.build()))).toEqual(["traction G1 G2 G3 G4", "traction G11 G12", "auxiliary G9"]);
  });

  it("drive a motor that only contactors switch", () => {
    const sketch = series(drawing(), 1, 4)
      .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "12 W" })
      .part("S1", "switch")
      .part("M1", "motor-series", { currentContinuous: "120 A" })
      .wires(HEAVY, "G4:+ - Q1:line", "Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
      .wires(SMALL, "G4:+ - S1:common", "S1:out - Q1:coil+", "Q1:coil- - G1:-");
    expect(names(analyse(sketch.build()))).toEqual(["traction G1 G2 G3 G4"]);
  });

  it("follow what is stated", () => {
    const analysis = analyse(
      drawing()
        .part("G1", "battery-block", { ...BLOCK, duty: "traction" })
        .build(),
    );
    expect(names(analysis)).toEqual(["traction G1"]);
  });

  it("are none in a drawing without batteries", () => {
    const analysis = analyse(drawing().part("T1", "dc-controller").part("X1", "chassis-point").build());
    expect(analysis.packs).toEqual([]);
    expect(analysis.supplies).toEqual([]);
  });
});

describe("belonging", () => {
  it("keeps traction and 12 V apart in a sound cart", () => {
    const analysis = analyse(cart().build());
    expect(["F1:1", "Q1:load", "T1:B-", "M1:A2"].map((terminal) => sides(analysis, terminal))).toEqual([
      "traction",
      "traction",
      "traction",
      "traction",
    ]);
    expect(sides(analysis, "S1:battery")).toBe("auxiliary chassis");
    expect(sides(analysis, "Q1:coil+")).toBe("auxiliary chassis");
    expect(sides(analysis, "X1:stud")).toBe("auxiliary chassis");
  });

  it("joins them through a serial ground that is the pack's minus", () => {
    const sketch = cart();
    const project = sketch.wire("T1:serial-ground", "X1:stud", SMALL).build();
    const parts = project.parts.map((part) =>
      part.designation === "T1" ? { ...part, parameters: { ...part.parameters, serialIsolated: "no" } } : part,
    );
    expect(sides(analyse({ ...project, parts }), "X1:stud")).toBe("traction auxiliary chassis");
    // Not a word about the port: nothing is tied, nothing is joined.
    expect(sides(analyse(project), "X1:stud")).toBe("auxiliary chassis");
  });

  it("counts a stated leak for isolation, not for belonging", () => {
    const project = cart().build();
    const parts = project.parts.map((part) =>
      part.designation === "T1" ? { ...part, parameters: { ...part.parameters, isolation: "1 kohm" } } : part,
    );
    expect(sides(analyse({ ...project, parts }), "X1:stud")).toBe("auxiliary chassis");
  });

  it("reaches through a converter that is not isolated", () => {
    const converter = (isolated: string) =>
      cart()
        .part("T2", "dc-dc-converter", { isolated, inputMin: "36 V", outputCurrentMax: "30 A" })
        .wires(SMALL, "F1:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - S1:battery", "T2:out- - X1:stud");
    expect(sides(analyse(converter("yes").build()), "X1:stud")).toBe("auxiliary chassis");
    expect(sides(analyse(converter("no").build()), "X1:stud")).toBe("traction auxiliary chassis");
  });

  it("takes a converter without a battery as a supply of its own", () => {
    const sketch = series(drawing(), 1, 4)
      .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "36 V", outputCurrentMax: "30 A" })
      .part("H1", "lamp", { voltage: "12 V", power: "5 W" })
      .wires(SMALL, "G4:+ - T2:in+", "T2:in- - G1:-", "T2:out+ - H1:+", "H1:- - T2:out-");
    const analysis = analyse(sketch.build());
    expect(analysis.supplies.map(({ blocks }) => blocks.map(({ part }) => part.designation))).toEqual([["T2"]]);
    expect(belonging(analysis, "H1:+").auxiliary).toEqual(analysis.supplies);
  });
});

describe("the motor's current", () => {
  const amps = (sketch: Drawing) => {
    const { network, states } = analyse(sketch.build());
    const motor = network.branches.find(({ part, name }) => part?.part.designation === "M1" && name === "armature");
    return Math.abs(states.find(({ name }) => name === "driving")?.currents[motor?.index ?? -1] ?? NaN);
  };

  it("is what the motor on the controller's output carries for good", () => {
    expect(amps(cart())).toBeCloseTo(120, 3);
  });
});

describe("halves that contactors put in series or side by side", () => {
  const half = { ...BLOCK, cells: "12" };
  const analysis = analyse(
    drawing()
      .part("G1", "battery-block", half)
      .part("G2", "battery-block", half)
      .parts("contactor", { coilVoltage: "12 V", coilPower: "12 W" }, "Q2", "Q3", "Q4")
      .part("M1", "motor-series", { currentContinuous: "100 A" })
      .wires(HEAVY, "G2:+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
      .wires(HEAVY, "G1:+ - Q2:line", "Q2:load - G2:+", "G1:- - Q3:line", "Q3:load - G2:-")
      .wires(HEAVY, "G1:+ - Q4:line", "Q4:load - G2:-")
      .build(),
  );

  it("count one on top of the other, though all contactors closed at once would short them", () => {
    const [pack] = analysis.packs;
    expect(analysis.packs.length).toBe(1);
    // 24 cells at the 2.47 V of flooded lead on charge.
    expect(pack?.highest).toBeCloseTo(24 * 2.47, 6);
    expect([at(analysis, pack?.negative), at(analysis, pack?.positive)]).toEqual(["G1:-", "G2:+"]);
  });
});

it("a plain row is rated as it will be once a reversed block is turned round", () => {
  const row = (reversed: string): ReturnType<typeof analyse> => {
    const sketch = drawing().parts(
      "battery-block",
      { chemistry: "agm-lead", cells: "6", capacity: "100 Ah", duty: "traction" },
      "G1",
      "G2",
      "G3",
    );
    const end = (block: string, sign: "+" | "-"): string =>
      `${block}:${block === reversed ? (sign === "+" ? "-" : "+") : sign}`;
    return analyse(sketch.wire(end("G1", "+"), end("G2", "-")).wire(end("G2", "+"), end("G3", "-")).build());
  };
  const [sound] = row("").packs;
  // AGM: 2.45 V a cell on charge (values from memory of makers' charge tables): 3 blocks of 6 cells.
  expect(sound?.highest).toBeCloseTo(44.1, 6);
  for (const block of ["G1", "G2", "G3"]) expect(row(block).packs[0]?.highest).toBeCloseTo(44.1, 6);
  expect(row("G2").packs[0]?.rest).toBeCloseTo((sound?.rest ?? 0) / 3, 6);
});
