/** A traction pack of 12 V blocks in series, which many drawings of checks begin with. */
import type { Parameters } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";

export const HEAVY = { size: "35 mm2", length: "0.3 m" } as const;
export const SMALL = { size: "1.5 mm2", length: "1 m" } as const;

/** G1 (lowest) to Gn, of stated chemistry, capacity, resistance, serving the drive. */
export function pack(
  blocks: number,
  parameters: Parameters = {},
  own: Readonly<Record<string, Parameters>> = {},
): Drawing {
  const sketch = drawing();
  for (let block = 1; block <= blocks; block += 1) {
    sketch.part(`G${block}`, "battery-block", {
      duty: "traction",
      chemistry: "flooded-lead",
      capacity: "100 Ah",
      resistance: "5 mohm",
      ...parameters,
      ...own[`G${block}`],
    });
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch;
}

/** The vehicle's own 12 V battery G200, its minus on the chassis at X1, fused at F20:2. */
export function withTwelveVolts(sketch: Drawing): Drawing {
  return sketch
    .part("G200", "battery-block", {
      duty: "auxiliary",
      chemistry: "flooded-lead",
      capacity: "60 Ah",
      resistance: "6 mohm",
    })
    .part("X1", "chassis-point", { structure: "body" })
    .part("F20", "fuse", { rating: "15 A" })
    .wires(SMALL, "G200:- - X1:stud", "G200:+ - F20:1");
}
