import fc from "fast-check";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { decodeUtf8, tooLarge } from "../../../core/project/bytes.ts";
import { newProject } from "../../../core/project/new-project.ts";
import { readProject } from "../../../core/project/read.ts";
import { processorTime } from "./processor-time.ts";
import { TEST_KINDS } from "./test-kinds.ts";

const WHOLE = readFileSync(new URL("../../files/v0001/whole.loomwright", import.meta.url), "utf8");

/** The first problem: what the command line prints. */
function problem(text: string): string {
  const result = readProject(text, TEST_KINDS);
  if (result.ok) throw new Error("It was read.");
  expect(result.problems.length).toBeGreaterThan(0);
  for (const sentence of result.problems) {
    expect(sentence).toMatch(/^[^\n]+[.?]$/);
    expect(sentence).not.toMatch(/\b(error|invalid|undefined|NaN|object Object)\b|ZodError|Unexpected token/i);
    expect(sentence.length).toBeLessThan(500);
  }
  return result.problems[0] ?? "";
}

const replaced = (from: string, to: string): string => {
  expect(WHOLE).toContain(from);
  return WHOLE.replace(from, to);
};
const project = (change: object): string => JSON.stringify({ ...newProject(), ...change });
const parts = (...entries: object[]): string => project({ parts: entries });
const FUSE = { id: "p1", designation: "F1", kind: "fuse" };

describe("files that are no project", () => {
  test.each([
    ["", "The file is empty. Choose another file, or take the last good copy."],
    ["  \n", "The file is empty. Choose another file, or take the last good copy."],
    ["from,to\nF1:1,F2:1\n", /^This is not a project file: one begins with/],
    ["[]", /^This is not a project file: one begins with/],
    ['{"format":"something-else","version":1}', /^This is not a project file: its "format" must be/],
    [WHOLE.slice(0, 900), /^The file ends in the middle of its text, in line \d+: the end of it is missing\./],
    [WHOLE.slice(0, WHOLE.indexOf("Village") + 3), /^The file ends in the middle of its text, in line 4/],
    [replaced('"version":1,', '"version":1'), /^Line 4, column 1: a comma or a closing bracket must stand here\./],
    [replaced('"version":1', "'version':1"), /^Line 3, column 1: a name in double quotes must stand here\./],
    [replaced('"version":1', '"version":NaN'), /^Line 3, column 11: a value must stand here\./],
    [`${WHOLE}}`, /^Line \d+, column 1: nothing more after the end of the project must stand here\./],
    [
      replaced('"version":1', '"version":1,"version":1'),
      'Line 3: the name "version" stands twice in one pair of braces. Take one of the two out.',
    ],
  ])("%#", (text, sentence) => {
    if (typeof sentence === "string") expect(problem(text)).toBe(sentence);
    else expect(problem(text)).toMatch(sentence);
  });
});

describe("versions", () => {
  test.each([
    [2, /^This project was saved by a newer Loomwright \(file version 2; this one reads up to version 1\)\. Open it/],
    [0, /^The project, version: there never was a file version 0\. Set it to 1\./],
    ["1", /^The project, version: this must be a whole number, such as 1\./],
    [1.5, /^The project, version: this must be a whole number/],
    [undefined, /^The project: its version is missing\. Add "version":1\./],
  ])("%s", (version, sentence) => expect(problem(project({ version }))).toMatch(sentence));
});

describe("shape, with place and remedy", () => {
  test.each([
    [
      replaced('"size":"2/0 AWG"', '"size":35'),
      'Wire W1, size: this must be text such as "5 kohm", or null if it is known to be unknown.',
    ],
    [
      replaced('"length":', '"lenght":'),
      'Wire W1: there is no field "lenght". Did you mean length? Otherwise take it out, or move it into "extra".',
    ],
    [replaced('"kind":"fuse",', ""), /^Part F1, kind: this is missing; it must be text/],
    [replaced('"ends":[["p6","out"],null]', '"ends":[["p6","out"]]'), /^Wire w2, ends: this must be a list of two/],
    [replaced('["p2","1"]', '["p2"]'), /^Wire W1, end B: this must be a part's id and one of its terminals/],
    [replaced('["p2","1"]', '["p2","ä"]'), /^Wire W1, end B: this must be a terminal: letters, digits/],
    [
      replaced('"designation":"F1"', '"designation":"fuse 1"'),
      /^Part fuse 1, designation: this must be one to three capital letters/,
    ],
    [replaced('"x":25,"y":57.5', '"x":25,"y":57.4'), "Part G1, view main, y: this must be a multiple of 2.5 mm."],
    [replaced('"x":25,"y":57.5', '"x":25,"y":1e300'), /^Part G1, view main, y: this must be within 100000 mm/],
    [replaced('"x":25,"y":57.5', '"x":25,"y":1e999'), /^Part G1, view main, y: this number is too large/],
    [replaced('"turn":90', '"turn":45'), "Part G1, view main, turn: this must be 0, 90, 180 or 270."],
    [replaced('"paper":"A3"', '"paper":"A5"'), "Sheet 1, paper: this must be one of A4, A3, Letter, Tabloid."],
    [replaced('"author":', '"autor":'), /^Title block: there is no field "autor"\. Did you mean author\?/],
    [replaced('"boots":[true,false]', '"boots":[true,"no"]'), "Wire W1, boots, end B: this must be true or false."],
    [replaced('"id":"p2"', '"id":"two"'), /^Part F1, id: this must be the id of a part: the letter p and a number/],
    [project({ parts: {} }), "The project, parts: this must be a list in square brackets."],
    [project({ parts: [null] }), "Part number 1 of the list: this must be a part in braces."],
    [project({ title: "x" }), "Title block: this must be the title block in braces."],
    [
      replaced('"note":"Spare in the cab"', `"note":"${"x".repeat(10_001)}"`),
      "Part F1, note: this text has 10,001 characters; at most 10,000 are allowed. Shorten it.",
    ],
    [
      replaced('"note":"Spare in the cab"', '"note":"\\u0000"'),
      /^Part F1, note: the text .* holds a character that cannot be shown/,
    ],
    [
      replaced('"note":"Spare in the cab"', '"note":"\\ud800"'),
      /^Part F1, note: the text .* holds a character that cannot be shown/,
    ],
    [
      replaced('"by":"hand"', '"__proto__":{"x":1}'),
      'The project, extra: "__proto__" cannot be used as a name. Take it out, or give it another name.',
    ],
    [
      replaced('"rating":"125 A"', '"constructor":"125 A"'),
      /^Part F1, parameters: "constructor" cannot be used as a name/,
    ],
  ])("%#", (text, sentence) => {
    if (typeof sentence === "string") expect(problem(text)).toBe(sentence);
    else expect(problem(text)).toMatch(sentence);
  });
});

describe("references and values", () => {
  test.each([
    [
      replaced('["p2","1"]', '["p9","1"]'),
      "Wire W1, end B: there is no part with id p9. Connect this end to a part that there is, or write null for a loose end.",
    ],
    [replaced('["p2","1"]', '["p2","3"]'), "Wire W1, end B: F1 (fuse) has no terminal 3. Did you mean 1?"],
    [
      replaced('"kind":"contactor"', '"kind":"contacter"'),
      'Part Q1: there is no kind of part called "contacter". Did you mean contactor?',
    ],
    [
      replaced('"rating":"125 A"', '"ratng":"125 A"'),
      "Part F1, parameter ratng: fuse has no such parameter. Did you mean rating?",
    ],
    [replaced('"rating":"125 A"', '"rating":"125 V"'), /^Part F1, parameter rating: "125 V" cannot be taken: .*\.$/],
    [
      replaced('"chemistry":"agm-lead"', '"chemistry":"zinc"'),
      'Part G1, parameter chemistry: "zinc" cannot be taken: choose one of agm-lead, lifepo4.',
    ],
    [replaced('"finish-2"', '"finish-7"'), /^Part F1, parameter finish-7: fuse has no such parameter/],
    [replaced('"colour":"OG"', '"colour":"mauve"'), /^Wire W1, colour: "mauve" is no colour of IEC 60757\./],
    [replaced('"M8"', '"big"'), /^Wire W1, lugs, end A: "big" is no lug hole\. Write it like M8 or 5\/16 in\./],
    [replaced('"length":"0.4 m"', '"length":"0.4"'), /^Wire W1, length: "0.4" cannot be taken: .*unit/],
    [
      replaced('"id":"p5"', '"id":"p2"'),
      "Part Q1: another part already has the id p2. Give this one an id of its own, such as p7.",
    ],
    [
      replaced('"id":"w2"', '"id":"w1"'),
      /^Wire w1: another wire already has the id w1\. Give this one an id of its own, such as w2\./,
    ],
    [replaced('"cable":"c1"', '"cable":"c4"'), /^Wire w2, cable: there is no cable with id c4/],
    [replaced('"zones":["z1","z3"]', '"zones":["z1","z2"]'), /^Wire W1, zones: there is no zone with id z2/],
    [replaced('"enclosure":"e1"', '"enclosure":"e2"'), /^Part G1, enclosure: there is no enclosure with id e2/],
    [replaced('"routes":[{"sheet":"s1"', '"routes":[{"sheet":"s9"'), /^Wire W1, routes: there is no sheet with id s9/],
    [
      replaced('"view":"coil","sheet":"s2"', '"view":"coil","sheet":"s3"'),
      /^Part Q1, view coil: there is no sheet with id s3/,
    ],
    [
      replaced('"view":"coil"', '"view":"contact"'),
      "Part Q1: its view contact is placed twice. Take one of the two places out.",
    ],
    [
      replaced('"view":"coil"', '"view":"magnet"'),
      'Part Q1: contactor has no view called "magnet". Choose from: contact, coil.',
    ],
    [replaced('"covers":["+"]', '"covers":["x"]'), /^Part G1, covers: G1 \(battery-block\) has no terminal x/],
    [
      replaced('"set":{"p6":"on"}', '"set":{"p6":"open"}'),
      'State limp-home: S1 has no position "open". Choose from: off, on.',
    ],
    [
      replaced('"set":{"p6":"on"}', '"set":{"p2":"on"}'),
      "State limp-home: F1 (fuse) has nothing to move. Take this entry out.",
    ],
    [replaced('"name":"limp-home"', '"name":"driving"'), /^State driving: a built-in state has this name already/],
    [
      parts(FUSE, { ...FUSE, id: "p2", parameters: { rating: "x" } }),
      /^Part F1, parameter rating: "x" cannot be taken/,
    ],
  ])("%#", (text, sentence) => {
    if (typeof sentence === "string") expect(problem(text)).toBe(sentence);
    else expect(problem(text)).toMatch(sentence);
  });

  test("a value that cannot be read is the one problem, not the terminals that depend on it", () => {
    const busbar = { id: "p1", designation: "X1", kind: "busbar", parameters: { positions: "many" } };
    const text = project({ parts: [busbar], wires: [{ id: "w1", number: "1", ends: [["p1", "9"], null] }] });
    const result = readProject(text, TEST_KINDS);
    expect(result.ok ? [] : result.problems).toEqual([
      expect.stringMatching(/^Part X1, parameter positions: "many" cannot be taken: /),
    ]);
  });

  test("equal ids come before broken references, these before values", () => {
    const text = replaced('"rating":"125 A"', '"rating":"x"')
      .replace('["p2","1"]', '["p9","1"]')
      .replace('"id":"w2"', '"id":"w1"');
    const result = readProject(text, TEST_KINDS);
    if (result.ok) throw new Error("It was read.");
    expect(result.problems.map((sentence) => sentence.slice(0, 20))).toEqual([
      "Wire w1: another wir",
      "Wire W1, end B: ther",
      "Part F1, parameter r",
    ]);
  });
});

describe("things that contain themselves", () => {
  test.each([
    [
      replaced('"name":"Battery box","zone":"z1"', '"name":"Battery box","zone":"e1"'),
      /^Enclosure Battery box, zone: this must be the id of a zone/,
    ],
    [
      replaced('"name":"Battery box",', '"name":"Battery box","enclosure":"e1",'),
      /^Enclosure Battery box: there is no field "enclosure"/,
    ],
    [replaced('"id":"c1",', '"id":"c1","cable":"c1",'), /^Cable Key loom: there is no field "cable"/],
    [
      replaced('"from":"driving"', '"from":"limp-home"'),
      "State limp-home: it starts from itself. Start it from a built-in state, such as driving.",
    ],
    [
      project({ extra: { within: newProject() } }),
      "The project, extra, within: a whole project stands inside this project. Take it out, into a file of its own.",
    ],
    [parts({ ...FUSE, extra: [newProject()] }), /^Part F1, extra, entry 1: a whole project stands inside this project/],
  ])("%#", (text, sentence) => {
    if (typeof sentence === "string") expect(problem(text)).toBe(sentence);
    else expect(problem(text)).toMatch(sentence);
  });
});

/** Runs within the two seconds that a person may be asked to wait. */
function quickly<T>(run: () => T): T {
  const results: T[] = [];
  expect(processorTime(() => results.push(run()))).toBeLessThan(2000);
  return results[0] as T;
}

describe("too much", () => {
  test("nesting up to the limit is read, one more is not, and a very deep file does not exhaust the stack", () => {
    const nested = (depth: number): string =>
      project({ extra: 0 }).replace('"extra":0', `"extra":${"[".repeat(depth)}${"]".repeat(depth)}`);
    expect(readProject(nested(19), TEST_KINDS).ok).toBe(true);
    expect(problem(nested(20))).toMatch(/^Line 1: braces and brackets stand more than 20 deep/);
    expect(quickly(() => problem(nested(5_000_000)))).toMatch(/more than 20 deep/);
    expect(quickly(() => problem(`{"a":`.repeat(1_000_000)))).toMatch(/more than 20 deep/);
  });

  test("20 MB is the limit, known before the bytes are read", () => {
    expect(tooLarge(20_000_000)).toBeUndefined();
    expect(tooLarge(50_000_000)).toMatch(/^The file is 50 MB long; .* at most 20 MB\. Choose another file/);
    expect(quickly(() => problem(" ".repeat(50_000_000)))).toMatch(/^The file is 50 MB long/);
  });

  test.each([
    ["one long text", `{"a":"${"x".repeat(19_000_000)}"}`],
    ["one long number", `{"a":${"1".repeat(19_000_000)}}`],
    ["a long text without end", `{"a":"${"\\n".repeat(9_000_000)}`],
    ["many empty lists", `{"format":"loomwright-project","version":1,"extra":[${"[],".repeat(6_000_000)}[]]}`],
    [
      "many numbers, but not too many",
      `{"format":"loomwright-project","version":1,"extra":[${"0,".repeat(2_900_000)}0]}`,
    ],
  ])("%s is answered quickly", (_, text) => {
    expect(quickly(() => problem(text))).toMatch(/\.$/);
  });

  test("more parts and wires than allowed", () => {
    const many = (count: number): object[] =>
      Array.from({ length: count }, (_, index) => ({ ...FUSE, id: `p${index + 1}` }));
    const wires = Array.from({ length: 60_001 }, (_, index) => ({
      id: `w${index + 1}`,
      number: "",
      ends: [null, null],
    }));
    expect(problem(parts(...many(20_001)))).toBe(
      "The project has 20,001 parts; at most 20,000 are allowed. Split the drawing into several projects.",
    );
    expect(problem(project({ wires }))).toBe(
      "The project has 60,001 wires; at most 60,000 are allowed. Split the drawing into several projects.",
    );
    expect(quickly(() => readProject(project({ parts: many(20_000), wires: wires.slice(1) }), TEST_KINDS)).ok).toBe(
      true,
    );
  });

  test("a file wrong in every line is answered quickly and not at length", () => {
    const wrong = Array.from({ length: 60_000 }, (_, index) => ({
      id: `w${index + 1}`,
      number: "",
      ends: [["p9", "x"], null],
      a: 1,
    }));
    const result = quickly(() => readProject(project({ wires: wrong }), TEST_KINDS));
    expect(result.ok ? 0 : result.problems.length).toBe(101);
  });
});

describe("bytes", () => {
  const decode = (bytes: Uint8Array): string =>
    new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  const bytes = (...given: number[]): Uint8Array => new Uint8Array(given);

  test("UTF-8 with and without byte order mark", () => {
    expect(decodeUtf8(new TextEncoder().encode("Ω µ 𝄞"), decode)).toEqual({ ok: true, text: "Ω µ 𝄞" });
    expect(decodeUtf8(new TextEncoder().encode("\uFEFFa"), decode)).toEqual({ ok: true, text: "a" });
  });

  test.each([
    [
      bytes(0x61, 0x0a, 0xe4, 0x62),
      /^Line 2 of the file holds characters that are not UTF-8 text\. Save it again as UTF-8/,
    ],
    [bytes(0xff, 0xfe, 0x61, 0), /^The file is saved as UTF-16 text\. Save it again as UTF-8\./],
    [bytes(0xed, 0xa0, 0x80), /^Line 1/],
    [bytes(0xc0, 0x80), /^Line 1/],
    [bytes(0xe2, 0x82), /^Line 1/],
  ])("%#", (given, sentence) => {
    const result = decodeUtf8(given, decode);
    expect(result.ok ? "" : result.problems[0]).toMatch(sentence);
  });

  test("what it takes for UTF-8 is what the platform's decoder takes for it", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 6 }), (given) => {
        let platform = true;
        try {
          decode(given);
        } catch {
          platform = false;
        }
        fc.pre(!(given[0] === 0xfe && given[1] === 0xff) && !(given[0] === 0xff && given[1] === 0xfe));
        expect(decodeUtf8(given, decode).ok).toBe(platform);
      }),
      { numRuns: 3000 },
    );
  });
});

describe("mutations of a valid file", () => {
  const cut = fc.tuple(fc.nat(WHOLE.length), fc.nat(40));

  test("characters changed, taken out, repeated: an answer, never a crash", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(cut, fc.string({ maxLength: 4 })), { minLength: 1, maxLength: 4 }), (edits) => {
        let text = WHOLE;
        for (const [[at, length], put] of edits) text = text.slice(0, at) + put + text.slice(at + length);
        const result = readProject(text, TEST_KINDS);
        if (!result.ok) problem(text);
      }),
      { numRuns: 400 },
    );
  });

  test("values exchanged for others of any sort", () => {
    const places: (readonly (string | number)[])[] = [];
    const collect = (value: unknown, path: readonly (string | number)[]): void => {
      if (path.length > 0) places.push(path);
      if (typeof value !== "object" || value === null) return;
      for (const [key, entry] of Object.entries(value))
        collect(entry, [...path, Array.isArray(value) ? Number(key) : key]);
    };
    collect(JSON.parse(WHOLE), []);
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue({ maxDepth: 3 }), (path, value) => {
        const document = JSON.parse(WHOLE) as Record<string, unknown>;
        let node = document as Record<string | number, unknown>;
        for (const key of path.slice(0, -1)) node = node[key] as Record<string | number, unknown>;
        node[path.at(-1) ?? ""] = value;
        const text = JSON.stringify(document);
        const result = readProject(text, TEST_KINDS);
        if (!result.ok) problem(text);
      }),
      { numRuns: 600 },
    );
  });

  test("any text at all", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json({ maxDepth: 25 })), (text) => {
        expect(readProject(text, TEST_KINDS).ok).toBe(false);
      }),
    );
  });
});
