import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { loadPictures } from "./load.mjs";
import { checkPageFiles } from "./page-files.mjs";

const FOLDER = new URL("../../assets/check-pages/", import.meta.url);
const REMEDY = "write them anew with: npm run check-pages";
/** Bytes: a page is read on slow machines, too. */
const LARGEST = 16_000;
/** mm at which 2.5 mm text is still read on a picture 320 px wide. */
const WIDEST = 170;

let files: ReadonlyMap<string, string>;
let made: Awaited<ReturnType<typeof loadPictures>>;

beforeAll(async () => {
  made = await loadPictures("check-pages-test");
  files = checkPageFiles(made);
}, 120_000);

test("every check has its page and its two pictures, made from itself and its table, and none is left over", () => {
  expect(readdirSync(FOLDER).sort(), REMEDY).toEqual([...files.keys()].sort());
  const stale = [...files].filter(([file, text]) => readFileSync(new URL(file, FOLDER), "utf8") !== text);
  expect(
    stale.map(([file]) => file),
    REMEDY,
  ).toEqual([]);
});

test("equal tables make equal pictures, byte by byte", () => {
  for (const { id } of CHECKS.slice(0, 6)) {
    expect(made.picturesOf(id).wrong).toBe(files.get(`${id}-wrong.svg`));
    expect(made.picturesOf(id).right).toBe(files.get(`${id}-right.svg`));
  }
});

describe("the pictures of a check", () => {
  test.each(CHECKS.map(({ id }) => id))("%s", (id) => {
    const [wrong = "", right = ""] = [files.get(`${id}-wrong.svg`), files.get(`${id}-right.svg`)];
    expect(wrong.replace(/<(title|desc)[^]*?<\/\1>/g, ""), "wrong and right look different").not.toBe(
      right.replace(/<(title|desc)[^]*?<\/\1>/g, ""),
    );
    expect(wrong.replaceAll("-wrong-", ""), "the pen marks the place").toContain('class="pen"');
    expect(right, "the pen marks nothing that is right").not.toContain('class="pen"');
    const width = Number(/viewBox="0 0 ([\d.]+)/.exec(wrong)?.[1]);
    expect(width, "readable when it is small").toBeLessThan(WIDEST);
    expect(/viewBox="([^"]+)"/.exec(right)?.[1], "side by side at one scale").toBe(
      /viewBox="([^"]+)"/.exec(wrong)?.[1],
    );
    for (const svg of [wrong, right]) {
      expect(svg.length).toBeLessThan(LARGEST);
      expect(svg).not.toMatch(/\sstyle=|<style|<script|href/);
    }
  });
});

test("a picture of a case that does not fail, or of a right one that does, is refused", () => {
  const table = made.tables.get("coil-voltage-wrong");
  if (table === undefined) throw new Error("the table is there");
  const { fails, passes } = table.table;
  const turned = { ...table.table, fails: passes, passes: fails };
  expect(() => made.solvePair(table.check, turned as never, {})).toThrow("has no finding to show");
  const mixed = { ...table.table, passes: fails };
  expect(() => made.solvePair(table.check, mixed as never, {})).toThrow("is not right");
  expect(() => made.solvePair(table.check, table.table, { wrong: "no such case" })).toThrow("no such case");
});

test("no choice is left over from a check that is gone", () => {
  const ids = CHECKS.map(({ id }) => id);
  for (const id of Object.keys(made.CHOICES)) expect(ids).toContain(id);
});

test("ids are unique and every root that a finding may fold under exists", () => {
  const ids = CHECKS.map((check) => check.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const check of CHECKS) for (const root of check.foldsUnder ?? []) expect(ids).toContain(root);
});
