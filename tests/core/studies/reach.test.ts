import { describe, expect, test } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import { reachStudy } from "../../../core/studies/reach.ts";
import { drawing } from "../../harness/drawing.ts";

const HEAVY = { size: "2/0 AWG", length: "0.5 m" } as const;
const SMALL = { size: "1 mm2", length: "1 m" } as const;

/** A 96 V pack behind a contactor, a controller whose signal plug hangs 40 mm from its negative stud. */
function drive(finish: "bare" | "booted" | undefined) {
  const options = finish === undefined ? {} : { finish };
  return reachStudy(
    analyse(
      drawing()
        .part("G1", "battery-pack", {
          duty: "traction",
          chemistry: "flooded-lead",
          cells: "6",
          blocks: "8",
          finish: "booted",
        })
        .part("S9", "manual-disconnect", { finish: "booted" })
        .part("S1", "key-switch", { finish: "booted" })
        .part(
          "T1",
          "dc-controller",
          { logicFeed: "pack-fed", ...options },
          { face: { "B+": [25, 40], "B-": [25, 110], "logic+": [65, 110] } },
        )
        .wires(HEAVY, "G1:+ - S9:line", "S9:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S9:load - S1:battery", "S1:ignition - T1:logic+")
        .build(),
    ),
  );
}
const named = (spot: { part: { part: { designation: string } }; terminal: { id: string } }): string =>
  `${spot.part.part.designation}:${spot.terminal.id}`;

describe("bare studs of a controller", () => {
  const study = drive("bare");

  test("a finger finds them with the pack at its highest", () => {
    const found = study.finger.find(({ spot }) => named(spot) === "T1:B+");
    expect(found?.classB).toBe(true);
    expect(found?.states).toContain("driving");
    // Eight blocks of 6 cells at 2.47 V on charge.
    expect(found?.volts).toBeCloseTo(8 * 6 * 2.47, 6);
    expect(found?.missing).toBeUndefined();
  });

  test("a spanner of 200 mm bridges the two, 70 mm apart on the face", () => {
    const bridge = study.spanner.find(({ a, b }) => named(a) === "T1:B+" && named(b) === "T1:B-");
    expect(bridge?.apart).toBeCloseTo(70, 9);
    expect(bridge?.volts).toBeCloseTo(8 * 6 * 2.47, 1);
  });

  test("the signal plug touches B- when it swings on its 100 mm", () => {
    const reach = study.plug.find(({ spot }) => named(spot) === "T1:B-");
    expect(reach?.near.some(({ threat, apart }) => threat.loose && Math.abs(apart - 40) < 1e-9)).toBe(true);
  });
});

test("booted studs are reached by nothing", () => {
  const { finger, spanner } = drive("booted");
  expect(finger).toEqual([]);
  expect(spanner).toEqual([]);
});

test("of unstated finish: listed with the field that would settle it, never as bare", () => {
  const { finger } = drive(undefined);
  expect(finger.find(({ spot }) => named(spot) === "T1:B+")?.missing).toEqual({ part: "p4", parameter: "finish" });
});
