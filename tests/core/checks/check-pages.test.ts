import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { checkPage } from "../../../core/checks/page.ts";

const folder = new URL("../../../assets/check-pages/", import.meta.url);

test("every check has its page, made from its metadata, and no page is left over", () => {
  const pages = readdirSync(folder).filter((file) => file.endsWith(".md"));
  expect(pages.sort()).toEqual(CHECKS.map((check) => `${check.id}.md`).sort());
  for (const check of CHECKS) expect(readFileSync(new URL(`${check.id}.md`, folder), "utf8")).toBe(checkPage(check));
});

test("ids are unique and every root that a finding may fold under exists", () => {
  const ids = CHECKS.map((check) => check.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const check of CHECKS) for (const root of check.foldsUnder ?? []) expect(ids).toContain(root);
});
