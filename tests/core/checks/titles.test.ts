import { expect, test } from "vitest";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { withTitles } from "../../../core/checks/titles.ts";

test("a check goes by its title, other hyphened words stay", () => {
  expect(withTitles("Else block-reversed says so; pre-charge and dc-dc stay.")).toBe(
    "Else “Battery block turned round” says so; pre-charge and dc-dc stay.",
  );
});

test("no page speaks of another check by its id", () => {
  const ids = CHECKS.map(({ id }) => id);
  for (const { about } of CHECKS)
    expect(ids.filter((id) => new RegExp(`(^|[^a-z-])${id}($|[^a-z-])`).test(withTitles(about)))).toEqual([]);
});
