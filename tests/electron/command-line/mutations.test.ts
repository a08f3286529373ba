/**
 * Files that are almost right: a valid project with one thing changed, thousands of ways. Whatever comes of it, the
 * program answers in order: it reads the file, or says in one sentence what to mend. It never breaks and never hangs.
 */
import * as path from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { main } from "../../../electron/command-line/main.ts";
import { driveCircuit, scratch } from "./loomwright.ts";

const place = scratch();
afterAll(() => place.remove());

const VALID = driveCircuit();
const SECONDS = 2;

function check(text: string | Uint8Array): { readonly exit: number; readonly out: string; readonly err: string } {
  const file = path.join(place.folder, place.file("almost.loomwright", text));
  let out = "";
  let err = "";
  const begun = performance.now();
  const exit = main(["check", file, "--json"], { out: (part) => (out += part), err: (part) => (err += part) });
  expect(performance.now() - begun).toBeLessThan(SECONDS * 1000);
  return { exit, out, err };
}

function expectAnswer(text: string | Uint8Array): void {
  const { exit, out, err } = check(text);
  expect(err).not.toMatch(/itself failed/);
  if (exit === 2) {
    expect(out).toBe("");
    expect(err.trimEnd().split("\n")).toHaveLength(1);
    expect(err).not.toMatch(/\b(error|invalid)\b/i);
  } else {
    expect(err).toBe("");
    const { notChecked } = JSON.parse(out);
    const broke = notChecked.filter(({ why }: { why: string }) => /stopped on this drawing/.test(why));
    expect(broke).toEqual([]);
  }
}

type Json = null | boolean | number | string | Json[] | { [name: string]: Json };

/** Every place in a document, as the path that leads there. */
function paths(value: Json, here: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (value === null || typeof value !== "object") return [here];
  const inner = Array.isArray(value)
    ? value.flatMap((item, index) => paths(item, [...here, index]))
    : Object.entries(value).flatMap(([name, item]) => paths(item, [...here, name]));
  return [here, ...inner];
}

function replaced(value: Json, at: readonly (string | number)[], put: Json | undefined): Json {
  const [first, ...rest] = at;
  if (first === undefined) return put ?? null;
  if (Array.isArray(value)) {
    if (rest.length === 0 && put === undefined) return value.filter((_, index) => index !== first);
    return value.map((item, index) => (index === first ? replaced(item, rest, put) : item));
  }
  if (value === null || typeof value !== "object") return value;
  const entries = Object.entries(value).flatMap(([name, item]): [string, Json][] => {
    if (name !== first) return [[name, item]];
    return rest.length === 0 && put === undefined ? [] : [[name, replaced(item, rest, put)]];
  });
  return Object.fromEntries(entries);
}

const document: Json = JSON.parse(VALID);
const everywhere = paths(document).slice(1);

/** What might stand in a place by mistake, quantities among it that are too large, negative or not a number at all. */
const anything: fc.Arbitrary<Json | undefined> = fc.oneof(
  fc.constant(undefined),
  fc.constantFrom<Json>(
    null,
    true,
    0,
    -1,
    1e308,
    "",
    "p1",
    "p99",
    "w1",
    "-5 A",
    "1e300 V",
    "0 mm2",
    "0 m",
    "NaN",
    [],
    {},
  ),
  fc.constantFrom<Json>("battery-block", "fuse", "dc-controller", "contactor", "splice", "motor", "+", "-"),
  fc.string(),
  fc.jsonValue({ maxDepth: 3 }).map((value): Json => JSON.parse(JSON.stringify(value))),
);

describe("a project file with one thing changed", () => {
  it("the file itself is fine", () => {
    expect(check(VALID).exit).not.toBe(2);
  });

  it("any value replaced or removed", () => {
    const change = fc.tuple(fc.constantFrom(...everywhere), anything);
    fc.assert(
      fc.property(change, ([at, put]) => expectAnswer(JSON.stringify(replaced(document, at, put)))),
      { numRuns: 1000 },
    );
  }, 30_000);

  it("any stretch of characters cut out, doubled or overwritten", () => {
    const spot = fc.nat(VALID.length - 1);
    const stretch = fc.record({
      at: spot,
      length: fc.nat(40),
      put: fc.oneof(
        fc.string(),
        spot.map((from) => VALID.slice(from, from + 40)),
      ),
    });
    fc.assert(
      fc.property(stretch, ({ at, length, put }) => expectAnswer(VALID.slice(0, at) + put + VALID.slice(at + length))),
      { numRuns: 500 },
    );
  });

  it("any byte changed", () => {
    const bytes = Buffer.from(VALID, "utf8");
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.nat(255), (at, value) => {
        const other = Uint8Array.from(bytes);
        other[at] = value;
        expectAnswer(other);
      }),
      { numRuns: 300 },
    );
  });
});
