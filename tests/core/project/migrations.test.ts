import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CURRENT_VERSION, migrate, MIGRATIONS } from "../../../core/project/migrations/chain.ts";
import type { Migration } from "../../../core/project/migrations/chain.ts";
import { readProject } from "../../../core/project/read.ts";
import { TEST_KINDS } from "./test-kinds.ts";

/** A step as there might have been: version 0 called the lists "components" and "cables". */
const PLANTED: Migration = {
  from: 0,
  step: ({ components, cables, ...rest }) => ({ ...rest, parts: components, wires: cables }),
};
const OLD = JSON.stringify({
  format: "loomwright-project",
  version: 0,
  title: {},
  sheets: [],
  components: [{ id: "p1", designation: "F1", kind: "fuse" }],
  cables: [],
});

describe("older versions", () => {
  test("a planted step brings its version up, and a note says so", () => {
    const result = readProject(OLD, TEST_KINDS, [PLANTED]);
    expect(result).toMatchObject({
      ok: true,
      project: { version: 1, parts: [{ id: "p1", designation: "F1" }] },
      notes: ["The file was of version 0; it was read as version 1."],
    });
  });

  test("without the step the file is refused", () => {
    expect(readProject(OLD, TEST_KINDS)).toEqual({
      ok: false,
      problems: ["The project, version: there never was a file version 0. Set it to 1."],
    });
  });

  test("steps run one after the other, each on what the one before left, and leave their input alone", () => {
    const seen: unknown[] = [];
    const step = (from: number): Migration => ({
      from,
      step: (document) => {
        seen.push(document["version"]);
        return { ...document, [`by${from}`]: true };
      },
    });
    const document = Object.freeze({ version: -1, kept: "yes" });
    expect(migrate(document, [step(0), step(-1)])).toMatchObject({
      ok: true,
      document: { version: CURRENT_VERSION, kept: "yes", "by-1": true, by0: true },
    });
    expect(seen).toEqual([-1, 0]);
  });

  test("a file that is broken after migration is refused like any other", () => {
    const broken = readProject(OLD.replace('"kind":"fuse"', '"kind":"fuze"'), TEST_KINDS, [PLANTED]);
    expect(broken).toMatchObject({ ok: false, problems: [expect.stringMatching(/^Part F1: there is no kind/)] });
  });
});

describe("the chain itself", () => {
  const folder = new URL("../../../core/project/migrations/", import.meta.url);
  const steps = readdirSync(folder).filter((name) => /^\d{4}-.*\.ts$/.test(name));

  test("there is one step file for each version before the current one, and none imports anything", () => {
    expect(MIGRATIONS.map(({ from }) => from)).toEqual(
      Array.from({ length: CURRENT_VERSION - 1 }, (_, index) => index + 1),
    );
    expect(steps).toHaveLength(MIGRATIONS.length);
    for (const name of steps) expect(readFileSync(new URL(name, folder), "utf8")).not.toMatch(/^\s*import\b/m);
  });

  test("files of every version up to the current one are kept, and all of them can be read", () => {
    const files = new URL("../../files/", import.meta.url);
    const versions = readdirSync(files).filter((name) => /^v\d{4}$/.test(name));
    expect(versions).toHaveLength(CURRENT_VERSION);
    for (const version of versions) {
      for (const name of readdirSync(new URL(`${version}/`, files))) {
        const text = readFileSync(new URL(`${version}/${name}`, files), "utf8");
        expect(readProject(text, TEST_KINDS)).toMatchObject({ ok: true });
      }
    }
  });
});
