/** Arrangements that are reported to work get nothing above a notice from the checks on controls. */
import { expect, test } from "vitest";
import { CHECKS } from "../../../../core/checks/catalogue.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { KNOWN_GOOD } from "../known-good-list.ts";

const CONTROLS = CHECKS.filter(({ id, group }) => group === "controls" || id === "regeneration-into-open-contact");

test("there are checks on controls to ask", () => {
  expect(CONTROLS.length).toBeGreaterThan(10);
});

test.each(KNOWN_GOOD)("%s", (_, draw) => {
  const analysis = analyse(draw());
  const told = CONTROLS.flatMap((check) => {
    const outcome = runCheck(check, analysis);
    expect(outcome.broke).toBeNull();
    return outcome.failures.map(({ message, severity, where }) => ({ check: check.id, message, severity, where }));
  });
  expect(told.filter(({ severity }) => severity !== "NOTICE")).toEqual([]);
});
