/** A handful of the injection for every day: one place of each kind of mistake on a demo or a generated vehicle. */
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { demos, isFaulty } from "../demos/demo-files.ts";
import { falseAlarms, judge, MISTAKES } from "./measure.ts";
import { generated } from "./vehicles.ts";
import type { Vehicle } from "./vehicles.ts";

const vehicles: readonly Vehicle[] = [...demos.filter((demo) => !isFaulty(demo)), generated(2), generated(5)];

describe("mistakes", () => {
  test("are of at least 100 kinds, each expected of checks that exist, at least 95 of them in all", () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(100);
    expect(new Set(MISTAKES.flatMap(({ expects }) => expects)).size).toBeGreaterThanOrEqual(95);
    expect(new Set(MISTAKES.map(({ id }) => id)).size).toBe(MISTAKES.length);
    const ids = CHECKS.map(({ id }) => id);
    for (const { expects } of MISTAKES) expect(ids).toEqual(expect.arrayContaining([...expects]));
  });

  test.each(MISTAKES.map((mistake) => [mistake.id, mistake] as const))(
    "%s is found by its check at its place",
    (_, mistake) => {
      for (const { project } of vehicles) {
        const [site] = mistake.sites(project);
        if (site === undefined) continue;
        expect(judge(project, mistake, site)).toBe("found");
        return;
      }
      expect.unreachable("no vehicle offers a place");
    },
  );
});

describe("vehicles without a mistake", () => {
  test.each(vehicles.map((vehicle) => [vehicle.name, vehicle] as const))("%s: nothing above NOTICE", (_, vehicle) => {
    expect(falseAlarms(vehicle)).toEqual([]);
  });
});
