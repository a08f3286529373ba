import { describe, expect, it } from "vitest";
import { inflate, overlap } from "../../../core/geometry/boxes.ts";
import type { Box, Primitive } from "../../../core/geometry/display.ts";
import { CAUTION } from "../../../core/drawing/frame.ts";
import { drawSheet, type DrawnSheet } from "../../../core/drawing/sheet.ts";
import { placeParts } from "../../../core/layout/place.ts";
import { lineBox, type TextLine } from "../../../core/layout/text-line.ts";
import type { Project, Sheet } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { farmPickup, yardTug } from "../layout/vehicles.ts";

const textsOf = (drawn: DrawnSheet): readonly string[] =>
  drawn.list.flatMap((item) => (item.draw === "text" ? [item.text] : []));

const oneFuse = (change: Partial<Project> = {}): Project => ({ ...drawing().part("F1", "fuse").build(), ...change });

const dots = (drawn: DrawnSheet): readonly Primitive[] =>
  drawn.list.filter((item) => item.draw === "circle" && item.fill === "ink" && item.pen === "hair");

describe.each([
  ["48 V yard tug", yardTug],
  ["96 V pickup with a 12 V side", farmPickup],
] as const)("the sheets of the %s", (_name, vehicle) => {
  const project = placeParts(vehicle());
  const sheets = project.sheets.map((sheet) => drawSheet(project, sheet.id));

  it("name every part and every wire", () => {
    const all = sheets.flatMap(textsOf);
    for (const part of project.parts) expect(all).toContain(part.designation);
    const words = new Set(all.flatMap((text) => text.split(" ")));
    for (const wire of project.wires) expect(words.has(wire.number), wire.number).toBe(true);
  });

  it("use no text smaller than 1.8 mm, and below 2.5 mm only for pins, captions and the inside of symbols", () => {
    for (const drawn of sheets)
      for (const mark of drawn.marks.filter(({ what }) => what === "wire"))
        for (const item of drawn.list.slice(mark.first, mark.end))
          if (item.draw === "text") expect(item.size).toBe(2.5);
  });

  it("keep wire texts clear of each other and of designations, but for a few in crowded places", () => {
    let [all, covered] = [0, 0];
    for (const drawn of sheets) {
      const boxes = (what: "wire" | "part", least: number): Box[] =>
        drawn.marks
          .filter((mark) => mark.what === what)
          .flatMap((mark) => drawn.list.slice(mark.first, mark.end))
          .flatMap((item) => (item.draw === "text" && item.size >= least ? [lineBox(item as TextLine)] : []));
      const wires = boxes("wire", 2.5);
      const labels = boxes("part", 2.5);
      wires.forEach((box, index) => {
        all += 1;
        const tight = inflate(box, -0.2);
        if ([...wires.slice(index + 1), ...labels].some((other) => overlap(tight, other))) covered += 1;
      });
    }
    expect(all).toBeGreaterThan(20);
    expect(covered / all).toBeLessThan(0.03);
  });

  it("mark each part and wire in the list, in order and apart from each other", () => {
    for (const drawn of sheets) {
      drawn.marks.forEach((mark, index) => {
        expect(mark.first).toBeGreaterThanOrEqual(drawn.marks[index - 1]?.end ?? 0);
        expect(mark.end).toBeLessThanOrEqual(drawn.list.length);
      });
      expect(drawn.marks.some(({ what }) => what === "part")).toBe(true);
    }
  });

  it("are drawn alike every time", () => {
    const again = placeParts(vehicle());
    expect(again.sheets.map((sheet) => drawSheet(again, sheet.id))).toEqual(sheets);
  });
});

describe("title block (fields of ISO 7200, memory)", () => {
  it("shows vehicle, title, owner, number, author, approved, date, revision, sheet and the caution", () => {
    const title = {
      vehicle: "Yard tug 3",
      title: "Traction and control",
      owner: "Village workshop",
      number: "VW-017",
      author: "A. Fitter",
      approvedBy: "B. Inspector",
      date: "2026-11-25",
      revision: "C",
    };
    const all = textsOf(drawSheet(oneFuse({ title }), "s1"));
    for (const value of Object.values(title)) expect(all).toContain(value);
    expect(all).toContain("1 / 1");
    expect(all).toContain(CAUTION);
  });

  it("is 180 mm wide in the lower right corner of the frame, on every paper", () => {
    for (const paper of ["A3", "A4", "Letter", "Tabloid"] as const)
      for (const orientation of ["landscape", "portrait"] as const) {
        const sheet: Sheet = { id: "s1", name: "One", paper, orientation };
        const drawn = drawSheet(oneFuse({ sheets: [sheet] }), "s1");
        const outlines = drawn.list.flatMap((item) =>
          item.draw === "line" && item.pen === "frame" ? [item.points] : [],
        );
        const widths = outlines.map((points) => {
          const xs = points.map(([x]) => x);
          return [Math.max(...xs) - Math.min(...xs), Math.max(...xs)];
        });
        const [frame, block] = widths;
        expect(block?.[0]).toBeCloseTo(Math.min(180, frame?.[0] ?? 0));
        expect(block?.[1]).toBeCloseTo(frame?.[1] ?? 0);
      }
  });

  it("cuts a value that is too long for its field", () => {
    const all = textsOf(drawSheet(oneFuse({ title: { title: "Very long ".repeat(500) } }), "s1"));
    const cut = all.find((text) => text.startsWith("Very long"));
    expect(cut?.endsWith("…")).toBe(true);
    expect(cut?.length).toBeLessThan(80);
  });
});

describe("wires", () => {
  const three = drawing()
    .part("F1", "fuse")
    .part("F2", "fuse")
    .part("F3", "fuse")
    .wire("F1:2", "F2:1", { size: "35 mm2", colour: "OG" })
    .wire("F1:2", "F3:1", { size: "2/0 AWG", colour: "BK" })
    .build();

  it("of one net that part from each other have a dot there; a single wire has none", () => {
    expect(dots(drawSheet(three, "s1"))).toHaveLength(1);
    const single = { ...three, wires: three.wires.slice(0, 1) };
    expect(dots(drawSheet(single, "s1"))).toHaveLength(0);
  });

  it("that cross without touching have no dot", () => {
    const crossing = drawing().part("F1", "fuse").part("F2", "fuse").part("F3", "fuse").part("F4", "fuse");
    const built = crossing.wire("F1:2", "F2:1").wire("F3:2", "F4:1").build();
    const places = [
      [60, 100, 0],
      [160, 100, 0],
      [115, 60, 90],
      [115, 140, 90],
    ] as const;
    const project: Project = {
      ...built,
      parts: built.parts.map((part, index) => {
        const [x, y, turn] = places[index] ?? [0, 0, 0];
        return { ...part, views: part.views.map((view) => ({ ...view, x, y, turn })) };
      }),
    };
    expect(dots(drawSheet(project, "s1"))).toHaveLength(0);
  });

  it("carry number, size as typed with a raised two, and colour, where there is room", () => {
    const spread = three.parts.map((part, index) => ({
      ...part,
      views: part.views.map((view) => ({ ...view, x: 60 + 40 * index, y: 60 + 40 * index })),
    }));
    const all = textsOf(drawSheet({ ...three, parts: spread }, "s1"));
    expect(all.some((text) => text.startsWith("W1") && text.includes("35 mm²") && text.endsWith("OG"))).toBe(true);
    expect(all.some((text) => text.startsWith("W2") && text.includes("2/0 AWG"))).toBe(true);
  });

  it("are 0.7 mm where they carry the traction circuit and 0.25 mm elsewhere, if the analysis says which", () => {
    const pens = (options: Parameters<typeof drawSheet>[2]): readonly (string | undefined)[] => {
      const drawn = drawSheet(three, "s1", options);
      return drawn.marks
        .filter(({ what }) => what === "wire")
        .flatMap((mark) => drawn.list.slice(mark.first, mark.end))
        .flatMap((item) => (item.draw === "line" && item.fill === undefined ? [item.pen] : []));
    };
    expect(pens({ traction: (wire) => wire === "w1" })).toEqual(["traction", "control"]);
    expect(pens({})).toEqual(["symbol", "symbol"]);
  });
});

describe("parts", () => {
  it("show their principal stated values beside the designation, the coil its volts, defaults not", () => {
    const project = drawing()
      .part("Q1", "contactor", { currentContinuous: "200 A", contactVoltage: "96 V", coilVoltage: "12 V" })
      .part("Q2", "contactor")
      .build();
    const all = textsOf(drawSheet(project, "s1"));
    expect(all).toContain("200 A  96 V");
    expect(all).toContain("12 V");
    expect(all.filter((text) => text === "Q2")).toHaveLength(3);
    expect(all.filter((text) => / [AV]$/.test(text))).toHaveLength(2);
  });

  it("that stand on no sheet are listed at its foot, not drawn; so are wires that hang on none that does", () => {
    const project = drawing().part("F1", "fuse").part("F2", "fuse", {}, { unplaced: true }).wire("F2:1", null).build();
    const drawn = drawSheet(project, "s1");
    expect(textsOf(drawn)).toContain("Not drawn: F2, wire W1");
    expect(drawn.marks.some(({ name }) => name.startsWith("F2"))).toBe(false);
  });
});

it("an unknown sheet is refused", () => {
  expect(() => drawSheet(oneFuse(), "s9")).toThrow("no sheet s9");
});
