import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCsv, writeCsv } from "../../../core/exchange/csv.ts";

const cells = (text: string): readonly (readonly string[])[] => {
  const reading = readCsv(text);
  if (!reading.ok) throw new Error(reading.text);
  return reading.rows.map((row) => row.cells);
};
const lines = (text: string): readonly number[] => {
  const reading = readCsv(text);
  return reading.ok ? reading.rows.map((row) => row.line) : [];
};

describe("reading (the rules of RFC 4180, section 2, by number)", () => {
  test.each([
    [
      "1: records on lines of their own",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "2: the last line end may be missing",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "5: quotes or none",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "6: line ends and commas within quotes",
      '"aaa","b\r\nbb","c,cc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\r\nbb", "c,cc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["7: a quote is written twice", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("%s", (_, text, rows) => expect(cells(text)).toEqual(rows));
});

describe("what spreadsheets do", () => {
  test.each([
    [
      "semicolons, decimal commas",
      "from;length\nF1:1;0,4 m\n",
      [
        ["from", "length"],
        ["F1:1", "0,4 m"],
      ],
    ],
    [
      "tabs",
      "from\tto\nF1:1\tF1:2",
      [
        ["from", "to"],
        ["F1:1", "F1:2"],
      ],
    ],
    [
      "a byte order mark",
      "\uFEFFfrom,to\na,b",
      [
        ["from", "to"],
        ["a", "b"],
      ],
    ],
    ["a declared separator", "sep=;\r\na,b;c\r\n", [["a,b", "c"]]],
    [
      "old line ends",
      "a,b\rc,d\r",
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
    [
      "empty rows",
      "a,b\n,\n\n  ,\nc,d",
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
    [
      "an empty last cell",
      "a,b\nc,",
      [
        ["a", "b"],
        ["c", ""],
      ],
    ],
    ["space around cells", ' a , "b c" ,d\n', [["a", "b c", "d"]]],
    ["a guard against formulas", "a\n'-12 V\n'plain", [["a"], ["-12 V"], ["'plain"]]],
    ["semicolons within quotes do not decide", '"a;b;c",d\n', [["a;b;c", "d"]]],
  ])("%s", (_, text, rows) => expect(cells(text)).toEqual(rows));

  test("lines are those of the file, whatever stands within quotes", () => {
    expect(lines('\uFEFFsep=,\na,b\n"c\nc",d\n\ne,f\n')).toEqual([2, 3, 6]);
  });
});

test.each([
  ['a,b\n"c,d\ne', 2, /has no closing "/],
  ['a,b\nc,d\n"e"f,g', 3, /between the closing " of a cell and the next separator/],
])("%#: one sentence with its line", (text, line, sentence) => {
  expect(readCsv(text)).toEqual({ ok: false, line, text: expect.stringMatching(sentence) as string });
});

describe("writing", () => {
  test("quotes where they are needed, an apostrophe before what a spreadsheet would run", () => {
    expect(writeCsv([["a", "b,c", 'd"e', "=1+1", "-5 V", "+", "@x", " y", "'=z"]])).toBe(
      `a,"b,c","d""e",'=1+1,'-5 V,'+,'@x," y",''=z\r\n`,
    );
  });

  test("what is written reads back, whatever the cells hold", () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom('"', ",", ";", "\n", "'=", "''-", "\t", " ", "-"),
      fc.string().map((text) => `=${text}`),
    );
    const table = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(table, (rows) => {
        // A header keeps the commas in the majority, and gives every row something to show.
        const whole = [["h", "h", "h"], ...rows.map((row) => ["x", ...row])];
        expect(cells(writeCsv(whole))).toEqual(whole);
      }),
      { numRuns: 1000 },
    );
  });

  test("any text at all is read or refused, never more", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('"', ",", ";", "\n", "\r", "a", " ", "'") }), (text) => {
        const reading = readCsv(text);
        if (!reading.ok) expect(reading.text).toMatch(/\.$/);
      }),
      { numRuns: 2000 },
    );
  });
});
