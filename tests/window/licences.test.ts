/** What is shipped carries the licence of everything in it. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { NOTICES, bundledPackages, noticesText } from "../harness/make-licences.mjs";

it("the notices name every package that is bundled, word for word (node tests/harness/make-licences.mjs)", async () => {
  const packages = await bundledPackages();
  expect(packages).toContain("node_modules/react-dom");
  expect(readFileSync(NOTICES, "utf8")).toBe(await noticesText());
}, 30_000);
