import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportWireList } from "../../../core/exchange/export-wire-list.ts";
import { importWireList } from "../../../core/exchange/import-wire-list.ts";
import type { Project } from "../../../core/project/document.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { processorTime } from "../project/processor-time.ts";
import { TEST_KINDS } from "../project/test-kinds.ts";

const asItIs = (project: Project): Project => project;
const importList = (wires: string, parts: string) => importWireList(wires, parts, TEST_KINDS, asItIs);

function imported(wires: string, parts: string): Project {
  const result = importList(wires, parts);
  if (!result.ok) throw new Error(result.problems.map(({ file, line, text }) => `${file} ${line}: ${text}`).join("\n"));
  return result.project;
}
function problems(wires: string, parts: string): readonly string[] {
  const result = importList(wires, parts);
  if (result.ok) throw new Error("It was imported.");
  for (const { text } of result.problems) {
    expect(text).toMatch(/^[^\n]+[.?]$/);
    expect(text).not.toMatch(/\b(error|invalid|undefined|NaN)\b/i);
  }
  return result.problems.map(({ file, line, text }) => `${file} ${line}: ${text}`);
}

const PARTS = [
  "designation,kind,parameters,zone,enclosure,x,y",
  'G1,battery-block,chemistry=agm-lead; capacity=150 Ah,battery-box,Battery box,10,"20,5"',
  "F1,fuse,rating=125 A; finish-2=booted,Under the seat,,,",
  "Q1,contactor,,battery-box,Battery box,,",
  "",
].join("\r\n");
const WIRES = [
  "number,from,to,size,length,colour,insulation,cable,core,sheath,zone,conduit,lug-from,lug-to,boot-from,boot-to,note",
  "10,G1:+,F1:1,2/0,40 cm,orange,XLPE 600 V 90 C,,,yes,battery-box; engine,split,M8,m10,yes,no,Short",
  ',F1:2,Q1:line,50 mm2,"0,3 m",,600 V,Main,2,,,,,,,,',
].join("\n");

describe("a list becomes a drawing", () => {
  const project = imported(WIRES, PARTS);

  test("parts, with zones and enclosures made as they are named", () => {
    expect(project.zones).toEqual([
      { id: "z1", kind: "battery-box" },
      { id: "z2", kind: "other", name: "Under the seat" },
      { id: "z3", kind: "engine" },
    ]);
    expect(project.enclosures).toEqual([{ id: "e1", name: "Battery box" }]);
    expect(project.parts[0]).toEqual({
      id: "p1",
      designation: "G1",
      kind: "battery-block",
      parameters: { chemistry: "agm-lead", capacity: "150 Ah" },
      views: [],
      zone: "z1",
      enclosure: "e1",
      panel: { x: 10, y: 20.5 },
    });
    expect(project.parts[1]?.parameters).toEqual({ rating: "125 A", "finish-2": "booted" });
    expect(project.parts[1]).not.toHaveProperty("panel");
  });

  test("wires, with everything that the columns say, and nothing where a cell is empty", () => {
    expect(project.wires).toEqual([
      {
        id: "w1",
        number: "10",
        ends: [
          ["p1", "+"],
          ["p2", "1"],
        ],
        size: "2/0 AWG",
        length: expect.stringMatching(/^(0\.4 m|40 cm)$/) as string,
        colour: "OG",
        insulation: { material: "XLPE", volts: "600 V", temperature: "90 °C" },
        sheath: true,
        zones: ["z1", "z3"],
        conduit: "split",
        lugs: ["M8", "M10"],
        boots: [true, false],
        note: "Short",
      },
      {
        id: "w2",
        number: "",
        ends: [
          ["p2", "2"],
          ["p3", "line"],
        ],
        size: "50 mm2",
        length: "0.3 m",
        insulation: { volts: "600 V" },
        cable: "c1",
        core: "2",
      },
    ]);
  });

  test("the drawing can be saved and read back", () => {
    expect(readProject(writeProject(project), TEST_KINDS)).toEqual({ ok: true, project, notes: [] });
  });

  test("without a column for numbers the wires are numbered", () => {
    const lean = imported("from,to\nG1:+,F1:1\nF1:2,G1:-\n", PARTS);
    expect(lean.wires.map(({ number }) => number)).toEqual(["W1", "W2"]);
  });

  test("the summary says what there is, and which parts stand alone", () => {
    expect(importList("from,to\nG1:+,F1:1\n", PARTS)).toMatchObject({
      summary: "3 parts and 1 wire on 1 sheet; no wire goes to Q1.",
    });
  });

  test("spreadsheets with semicolons, decimal commas, a byte order mark and capital headers", () => {
    const parts = "\uFEFFKind;Designation;X;Y\r\nbattery-block;G1;1,5;2\r\nfuse;F1;;\r\n";
    const project = imported("\uFEFFTo;From;Length;Size\r\nF1:1;G1:+;0,4 m;2,5 mm²\r\n", parts);
    expect(project.wires[0]).toMatchObject({
      ends: [
        ["p1", "+"],
        ["p2", "1"],
      ],
      length: "0.4 m",
      size: "2.5 mm2",
    });
    expect(project.parts[0]?.panel).toEqual({ x: 1.5, y: 2 });
  });
});

describe("every problem with its file and line, and nothing imported", () => {
  test.each([
    [WIRES, "", ["parts 1: The parts list is empty. Its first line names the columns: designation, kind and others."]],
    ["from\nF1:1", PARTS, ['wires 1: There is no column "to". Add it to the first line.']],
    ["from,to,lenght\nG1:+,F1:1,1 m", PARTS, ['wires 1: There is no column called "lenght". Did you mean length?']],
    ["from,to,to\nG1:+,F1:1,", PARTS, ['wires 1: The column "to" stands twice. Take one of the two out.']],
    [
      "from,to\nG1:+,F1:1,5 m",
      PARTS,
      ['wires 2: "5 m" stands beyond the last column. Put a cell that holds "," in double quotes.'],
    ],
    ["from,to\nG1:+,F1:9", PARTS, ["wires 2: Column to: F1 (fuse) has no terminal 9. Did you mean 1?"]],
    [
      "from,to\nG1:+,F7:1",
      PARTS,
      ["wires 2: Column to: there is no part F7 in the parts list. Add it there, or mend it here."],
    ],
    [
      "from,to\nG1,F1:1",
      PARTS,
      [
        'wires 2: Column from: "G1" names no terminal. Write part and terminal with a colon between them, such as F1:1.',
      ],
    ],
    [
      "from,to,length\nG1:+,F1:1,\n,F1:2,0.5",
      PARTS,
      [
        "wires 3: Column from: the cell is empty. Write part and terminal with a colon between them, such as F1:1.",
        expect.stringMatching(/^wires 3: Column length: "0.5" cannot be taken: .*unit/),
      ],
    ],
    [
      "from,to,lug-to,sheath,insulation\nG1:+,F1:1,big,maybe,600",
      PARTS,
      [
        'wires 2: Column insulation: "600" holds a figure without V or C behind it. Write it like XLPE 600 V 90 C.',
        'wires 2: Column sheath: "maybe" is neither yes nor no. Write one of the two, or leave the cell empty.',
        'wires 2: Column lug-to: "big" is no lug hole. Write it like M8 or 5/16 in.',
      ],
    ],
    [
      WIRES,
      PARTS.replace("fuse,rating", "fuze,rating"),
      ['parts 3: Column kind: there is no kind of part called "fuze". Did you mean fuse?'],
    ],
    [
      WIRES,
      PARTS.replace("rating=125 A", "rating=125 V"),
      [expect.stringMatching(/^parts 3: Column parameters, parameter rating: "125 V" cannot be taken: /)],
    ],
    [
      WIRES,
      PARTS.replace("rating=125 A", "ratng=125 A"),
      ["parts 3: Column parameters, parameter ratng: fuse has no such parameter. Did you mean rating?"],
    ],
    [
      WIRES,
      PARTS.replace("Q1", "F1"),
      [
        "parts 4: F1 stands in line 3 already. Give one of the two another designation.",
        expect.stringMatching(/^wires 3: Column to: there is no part Q1/),
      ],
    ],
    [
      "from,to\nG1:+,F1:1",
      "designation,kind,x,y\nG1,battery-block,a,\nF1,fuse,5,\nfuse 2,fuse,,",
      [
        'parts 2: Column x: "a" is no number of millimetres. Write it like 40 or 40.5.',
        "parts 2: Columns x and y: only one of the two is filled. Fill in both, or leave both empty.",
        "parts 3: Columns x and y: only one of the two is filled. Fill in both, or leave both empty.",
        'parts 4: Column designation: "fuse 2" is none. Write letters and a number, such as F1 or Q12a.',
      ],
    ],
    [
      WIRES,
      'designation,kind\n"G1,battery-block\n',
      ['parts 2: A cell begins with " but has no closing ". Add it at the end of the cell.'],
    ],
    [
      WIRES,
      PARTS.replace("Under the seat", `${"x".repeat(10_001)}`),
      ["parts 3: In one cell, this text has 10,001 characters; at most 10,000 are allowed. Shorten it."],
    ],
  ])("%#", (wires, parts, expected) => expect(problems(wires, parts)).toEqual(expected));

  test("a value that cannot be read is the one problem, not the terminals that depend on it", () => {
    const parts = "designation,kind,parameters\nX1,busbar,positions=many\nX2,busbar,positions=6\n";
    expect(problems("from,to\nX1:9,X2:6\n", parts)).toEqual([
      expect.stringMatching(/^parts 2: Column parameters, parameter positions: "many" cannot be taken: /),
    ]);
  });

  test("lists beyond the limits are refused in one sentence, quickly", () => {
    const time = processorTime(() => {
      expect(problems(`from,to\n${"G1:+,F1:1\n".repeat(60_001)}`, PARTS)).toEqual([
        "wires 1: The list has more than 60,000 wires. Split the list.",
      ]);
      expect(problems("x".repeat(20_000_001), PARTS)).toEqual([
        expect.stringMatching(/^wires 1: The file is 21 MB long/),
      ]);
    });
    expect(time).toBeLessThan(2000);
  });

  test("mutations of a good list are imported or refused, never more", () => {
    const cut = fc.tuple(fc.nat(700), fc.nat(20), fc.string({ maxLength: 3 }));
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 3 }), fc.boolean(), (edits, which) => {
        let [wires, parts] = [WIRES, PARTS];
        for (const [at, length, put] of edits) {
          const mutate = (text: string): string => text.slice(0, at) + put + text.slice(at + length);
          if (which) wires = mutate(wires);
          else parts = mutate(parts);
        }
        const result = importList(wires, parts);
        if (!result.ok) expect(problems(wires, parts).length).toBeGreaterThan(0);
        else expect(readProject(writeProject(result.project), TEST_KINDS)).toMatchObject({ ok: true });
      }),
      { numRuns: 500 },
    );
  });
});

describe("out and in again", () => {
  test("the list of an imported drawing gives the same drawing", () => {
    const project = imported(WIRES, PARTS);
    const list = exportWireList(project);
    expect(list.leftOut).toEqual([]);
    expect(imported(list.wires, list.parts)).toEqual(project);
  });

  test("a wire with a loose end cannot be in the list, and is named", () => {
    const project = imported(WIRES, PARTS);
    const [first] = project.wires;
    if (first === undefined) throw new Error("no wire");
    const list = exportWireList({ ...project, wires: [{ ...first, ends: [first.ends[0], null] }] });
    expect(list.wires.trim().split("\r\n")).toHaveLength(1);
    expect(list.leftOut).toEqual(["Wire 10 has a loose end and is not in the list."]);
  });

  test("a cell that a spreadsheet would run as a formula is guarded, and comes back as it was", () => {
    const list = exportWireList(imported(WIRES.replace("Short", "=1+1"), PARTS));
    expect(list.wires).toContain(",'=1+1\r\n");
    expect(imported(list.wires, list.parts).wires[0]?.note).toBe("=1+1");
  });
});
