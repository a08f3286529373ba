/** A fuse whose curve is stated blows when its time is over. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import type { Transition } from "../../../../core/circuit/transition/transition.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";

const WIRE = { size: "16 mm2", length: "0.1 m" } as const;

/** A key that puts a resistor onto a 12 V battery, through a fuse. */
function keyOn(ohms: string, fuse: Parameters): Transition {
  const project = drawing()
    .defaults(WIRE)
    .part("G1", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary", resistance: "1 mohm" })
    .part("F1", "fuse", { rating: "10 A", ...fuse })
    .part("S1", "key-switch")
    .part("R1", "resistor", { resistance: ohms })
    .wires(WIRE, "G1:+ - F1:1", "F1:2 - S1:battery", "S1:ignition - R1:1", "R1:2 - G1:-")
    .build();
  return analyse(project).transition("key-on")!;
}

const CURVE = { curvePoints: "2:100 s; 4:0.5 s; 8:0.05 s" };

describe("a fuse", () => {
  it("blows at the time of its curve, read off straight on double logarithmic paper", () => {
    const found = keyOn("0.3 ohm", CURVE);
    const blown = found.events.find(({ what }) => what === "blows")!;
    const multiple = blown.value! / 10;
    expect(multiple).toBeGreaterThan(3.8);
    expect(multiple).toBeLessThan(4.2);
    // t = t1 (t2 / t1)^(ln(m / m1) / ln(m2 / m1)), the straight line through two points on logarithmic scales.
    const [m1, t1, m2, t2] = multiple < 4 ? [2, 100, 4, 0.5] : [4, 0.5, 8, 0.05];
    const wanted = t1 * (t2 / t1) ** (Math.log(multiple / m1) / Math.log(m2 / m1));
    expect(blown.time / wanted).toBeCloseTo(1, 3);
    const opening = found.openings.find(({ part }) => part.part.designation === "F1")!;
    expect(opening.time).toBe(blown.time);
    expect(opening.current).toBeCloseTo(blown.value!, 6);
    expect(found.currents(blown.branch!).at(-1)).toBeCloseTo(0, 6);
    expect(found.trouble).toBeUndefined();
  });

  it("is waited for while it is on its way to blowing", () => {
    const found = keyOn("0.5 ohm", { curvePoints: "2:20 s; 4:0.5 s; 8:0.05 s" });
    const blown = found.events.find(({ what }) => what === "blows")!;
    expect(blown.time).toBeGreaterThan(3);
    expect(blown.time).toBeLessThan(10);
  });

  it("carries less than its curve begins with for good, and anything while no curve is stated", () => {
    expect(keyOn("0.8 ohm", CURVE).events.map(({ what }) => what)).not.toContain("blows");
    expect(keyOn("0.1 ohm", {}).events.map(({ what }) => what)).not.toContain("blows");
  });
});
