/** What the studies say beside a part or wire: figures worked out here by themselves, and what is missing by name. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { workedOut } from "../../../core/documents/worked-out/of-selected.ts";
import type { WorkedRow, WorkedSection } from "../../../core/documents/worked-out/worked-out.ts";
import type { Project } from "../../../core/project/document.ts";
import { wireSizes } from "../../../core/studies/wire-sizes.ts";
import { demos } from "../../demos/demo-files.ts";
import { drawing } from "../../harness/drawing.ts";

const sections = (project: Project, name: string): readonly WorkedSection[] => {
  const part = project.parts.find(({ designation }) => designation === name);
  const wire = project.wires.find(({ number }) => number === name);
  const about = part === undefined ? { wire: wire?.id ?? "" } : { part: part.id };
  return [...workedOut(analyse(project), about)];
};
const rows = (project: Project, name: string): readonly WorkedRow[] =>
  sections(project, name).flatMap((section) => section.rows);
const demo = (name: string): Project => {
  const found = demos.find((each) => each.name === name);
  if (found === undefined) throw new Error(`there is no demo ${name}`);
  return found.project;
};
const row = (project: Project, name: string, label: string): WorkedRow => {
  const found = rows(project, name).find((each) => each.label === label);
  if (found === undefined) throw new Error(`nothing is said of ${label}`);
  return found;
};

/** A 12 V battery that feeds a heater of 120 W through a fuse. */
const heater = (size: string | undefined, capacity?: string): Project =>
  drawing()
    .part("G1", "battery-block", {
      chemistry: "agm-lead",
      cells: "6",
      resistance: "6 mohm",
      ...(capacity === undefined ? {} : { capacity }),
    })
    .part("F1", "fuse", { rating: "20 A", voltageDc: "32 V", interrupting: "2000 A", curve: "blade" })
    .part("E1", "load", { voltage: "12 V", power: "120 W", purpose: "other" })
    .defaults({ length: "1 m", insulation: { temperature: "105 °C" }, ...(size === undefined ? {} : { size }) })
    .wire("G1:+", "F1:1")
    .wire("F1:2", "E1:+")
    .wire("E1:-", "G1:-")
    .build();

describe("beside a wire", () => {
  it("stands its ampacity: 2/0 AWG of 105 °C carries 330 A (33 CFR 183.425, table 5)", () => {
    const { text, sources } = row(heater("2/0 AWG"), "W2", "Ampacity as drawn");
    expect(text).toBe("330 A");
    expect(sources?.map((source) => source.text)).toEqual(["33 CFR 183.425, table 5"]);
  });

  it("stands what protects it and the size that the study proposes, decided as `size` says it", () => {
    const project = heater("6 mm2");
    const study = wireSizes(analyse(project)).find(({ conductor }) => conductor.wire.number === "W2");
    expect(row(project, "W2", "What protects it").text).toBe("F1 (20 A) before it");
    expect(row(project, "W2", "Smallest, metric").text).toBe(study?.metric?.size.text);
    expect(row(project, "W2", "Smallest, AWG").text).toBe(study?.gauge?.size.text);
    expect(row(project, "W2", "Smallest, metric").inputs?.join()).toContain("105 °C (stated)");
  });

  it("stands the voltage lost in the loop: current times resistance of three metres of copper, hot", () => {
    // 6 mm2, class 5: 3.30 mohm/m at 20 °C (IEC 60228); at 105 °C times 1 + 0.00393 (105 - 20) = 1.334 (IEC 60228 annex).
    const ohms = 3 * 3.3e-3 * 1.334;
    const { note = "" } = row(heater("6 mm2"), "W2", "Voltage lost, wire hot");
    const lost = Number(/^([\d.]+) V out and back to E1/.exec(note)?.[1]);
    // The battery stands a little above 12 V and the load takes its power: between 9 A and 11 A.
    expect(lost / ohms).toBeGreaterThan(9);
    expect(lost / ohms).toBeLessThan(11);
    expect(note).toContain("at most 1.2 V (10 % of 12 V)");
  });

  it("asks for the size where none is stated, and guesses none", () => {
    const { text, lacks } = row(heater(undefined), "W2", "Ampacity as drawn");
    expect(text).toBe("not known");
    expect(lacks).toEqual([{ text: "W2.size", field: { wire: "w2", field: "size" } }]);
  });

  it("with a loose end says that it carries nothing", () => {
    const project = drawing().part("G1", "battery-block", {}).wire("G1:+", null).build();
    expect(rows(project, "W1").map(({ text }) => text)).toEqual(["none: one end of it is loose"]);
  });
});

describe("beside a battery", () => {
  it("stands the short-circuit current at its poles: rest voltage over its resistance", () => {
    const project = heater("6 mm2", "60 Ah");
    const rest = Number.parseFloat(row(project, "G1", "Voltage").text);
    const amperes = Number.parseFloat(row(project, "G1", "Short at its poles").text);
    expect(amperes / (rest / 6e-3)).toBeGreaterThan(0.97);
    expect(amperes / (rest / 6e-3)).toBeLessThan(1.03);
  });

  it("stands how long it lasts: half to all of 60 Ah at some 10 A", () => {
    const lasts = rows(heater("6 mm2", "60 Ah"), "G1").find(({ label }) => label.startsWith("Lasts in"));
    const [, least, most] = /^between ([\d.]+) h and ([\d.]+) h$/.exec(lasts?.text ?? "") ?? [];
    const amperes = Number(/at ([\d.]+) A/.exec(lasts?.note ?? "")?.[1]);
    expect(Number(least) / (30 / amperes)).toBeCloseTo(1, 1);
    expect(Number(most) / (60 / amperes)).toBeCloseTo(1, 1);
  });

  it("asks for a capacity that nobody stated", () => {
    const { text, lacks } = row(heater("6 mm2"), "G1", "Flat after");
    expect(text).toBe("not known");
    expect(lacks?.map((each) => each.text)).toContain("G1.capacity");
  });
});

describe("beside the parts of the pre-charge", () => {
  const pickup = demo("farm-pickup-96v");

  it("stands the heat of one charge, C U2 / 2 of 1600 uF at 117.6 V", () => {
    expect(row(pickup, "R1", "Heat of one full charge").text).toBe(`${(0.5 * 1.6e-3 * 117.6 ** 2).toFixed(1)} J`);
    // With the bus shorted the whole pack stands across 120 ohm.
    expect(row(pickup, "R1", "Bus shorted for good").text).toBe(`${(117.6 ** 2 / 120).toFixed(0)} W`);
  });

  it("stands when the bus reaches 95 %: three time constants of 120 ohm and 1600 uF", () => {
    const seconds = -Math.log(0.05) * 120 * 1.6e-3;
    expect(row(pickup, "Q1", "Reaches its share").text).toBe(
      `after ${(Number(seconds.toPrecision(2)) * 1000).toFixed(0)} ms`,
    );
  });

  it("stands what the contactor closed onto and what rushed through it", () => {
    const { note } = row(pickup, "Q1", "Across its contact at closing");
    expect(note).toMatch(/^after [\d.]+ m?s; inrush [\d.]+ A, then/);
  });
});

describe("on every demo", () => {
  for (const { name, project } of demos) {
    it(`${name}: whatever is selected is told in figures and words, never in half of one`, () => {
      const analysis = analyse(project);
      const abouts = [
        ...project.parts.map(({ id }) => ({ part: id })),
        ...project.wires.map(({ id }) => ({ wire: id })),
      ];
      let told = 0;
      for (const about of abouts)
        for (const { title, rows: own } of workedOut(analysis, about)) {
          expect(own.length, title).toBeGreaterThan(0);
          for (const { label, text, note = "", inputs = [] } of own) {
            told += 1;
            const all = [label, text, note, ...inputs].join(" | ");
            expect(all).not.toMatch(/NaN|undefined|Infinity|beyond measure|null|e[-+]\d/);
            expect(text).not.toBe("");
          }
        }
      expect(told).toBeGreaterThan(project.wires.length);
    });
  }
});
