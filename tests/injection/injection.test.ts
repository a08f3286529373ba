/** A handful of the injection for every day: one place of each kind of mistake on a demo or a generated vehicle. */
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { demos, isFaulty } from "../demos/demo-files.ts";
import { falseAlarms, judge, MISTAKES } from "./measure.ts";
import { generated } from "./vehicles.ts";
import type { Vehicle } from "./vehicles.ts";

const vehicles: readonly Vehicle[] = [...demos.filter((demo) => !isFaulty(demo)), generated(2), generated(5)];

describe("mistakes", () => {
  test("are of at least 40 kinds, each expected of checks that exist", () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(40);
    expect(new Set(MISTAKES.map(({ id }) => id)).size).toBe(MISTAKES.length);
    const ids = CHECKS.map(({ id }) => id);
    for (const { expects } of MISTAKES) expect(ids).toEqual(expect.arrayContaining([...expects]));
  });

  test.each(MISTAKES.map((mistake) => [mistake.id, mistake] as const))(
    "%s is found by its check at its place",
    (_, mistake) => {
      const verdicts = vehicles.flatMap(({ project }) =>
        mistake
          .sites(project)
          .slice(0, 1)
          .map((site) => judge(project, mistake, site)),
      );
      expect(verdicts.length, "no vehicle offers a place").toBeGreaterThan(0);
      expect(verdicts[0]).toBe("found");
    },
  );
});

describe("vehicles without a mistake", () => {
  test.each(vehicles.map((vehicle) => [vehicle.name, vehicle] as const))("%s: nothing above NOTICE", (_, vehicle) => {
    expect(falseAlarms(vehicle)).toEqual([]);
  });
});
