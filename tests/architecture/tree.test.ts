/** What a reader may rely on in every folder: short files, named after what they hold, each folder introduced. */
import { readFileSync } from "node:fs";
import * as path from "node:path";
import { describe, expect, it } from "vitest";
import { CORE_ORDER } from "./import-rules.mjs";
import { PLANTED, ROOT } from "./stage.mjs";
import { trackedFiles } from "./tracked-files.mjs";
import { barrels, dumpingGrounds, foreignWords, longFiles, unknownFolders, withoutIntroduction } from "./tree.ts";
import type { SourceFile } from "./tree.ts";

const TEXT = /\.(ts|tsx|mjs|json|md|csv|svg|html|css|loomwright|yml)$/;

/** This folder names the words it forbids, and plants what it looks for. */
const OWN = ["tests/architecture/planted/", "tests/architecture/tree.ts"];

function load(files: readonly string[], root: string): SourceFile[] {
  return files
    .filter((file) => TEXT.test(file))
    .map((file) => ({
      name: path.relative(root, file).split(path.sep).join("/"),
      text: readFileSync(file, "utf8"),
    }));
}

const files = load(trackedFiles(), ROOT).filter(({ name }) => !OWN.some((own) => name.startsWith(own)));
const planted: SourceFile[] = [
  { name: "core/quantity/utils.ts", text: "export const one = 1;\n" },
  { name: "core/helpers/number.ts", text: "export const one = 1;\n" },
  { name: "core/parts/index.ts", text: 'export * from "./fuse.ts";\n' },
  { name: "core/parts/fuse.ts", text: "// line\n".repeat(401) },
  { name: "core/parts/README.md", text: "line\n".repeat(41) },
  { name: "core/project/read.ts", text: 'const path = "/wo' + 'rk/main";\n' },
];

describe("the tree", () => {
  it("is read at all", () => {
    expect(files.length).toBeGreaterThan(30);
    expect(PLANTED.startsWith(ROOT)).toBe(true);
  });

  it("names no file or folder after nothing in particular", () => {
    expect(dumpingGrounds(files)).toEqual([]);
    expect(dumpingGrounds(planted)).toEqual(["core/quantity/utils.ts", "core/helpers/number.ts"]);
  });

  it("has no file that only hands on what other files export", () => {
    expect(barrels(files)).toEqual([]);
    expect(barrels(planted)).toEqual(["core/parts/index.ts"]);
  });

  it("keeps every source file within 400 lines", () => {
    expect(longFiles(files)).toEqual([]);
    expect(longFiles(planted)).toEqual(["core/parts/fuse.ts: 401 lines"]);
  });

  it("introduces every folder of core in at most 40 lines", () => {
    expect(withoutIntroduction(files)).toEqual([]);
    expect(withoutIntroduction(planted)).toEqual([
      "core/quantity: no README.md",
      "core/helpers: no README.md",
      "core/parts: README.md has 41 lines",
      "core/project: no README.md",
    ]);
  });

  it("knows no folder of core beside those of the one line, and host", () => {
    expect(unknownFolders(files, [...CORE_ORDER, "host"])).toEqual([]);
    expect(unknownFolders(planted, [...CORE_ORDER, "host"])).toEqual(["core/helpers"]);
  });

  it("holds no path of one machine, no registry's address and no word about how it was made", () => {
    expect(foreignWords(files)).toEqual([]);
    expect(foreignWords(planted)).toHaveLength(1);
  });
});
