import { expect, test } from "vitest";
import { lugMisfit } from "../../../../core/checks/connections/lug-misfit.ts";
import { metricThread } from "../../../../core/standards/stud-sizes.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

/** Battery post (M8) to a contactor (M8), then to a plain lamp. */
const lead = (first: string | null, second: string | null) =>
  drawing()
    .part("G1", "battery-block", { chemistry: "agm-lead" })
    .part("Q1", "contactor")
    .wire("G1:+", "Q1:line", { lugs: [first, second], size: "35 mm2", length: "1 m" })
    .build();

checkTable(lugMisfit, {
  fails: [
    {
      name: "an M6 lug on the contactor",
      drawing: lead("M8", "M6"),
      at: "W1",
      message: "small",
      severity: "NOTICE",
      remedies: ["fit-lug"],
    },
    {
      name: "an M10 lug on the battery",
      drawing: lead("M10", "M8"),
      at: "W1",
      message: "large",
      severity: "NOTICE",
      remedies: ["fit-lug"],
    },
    {
      name: "a quarter-inch lug",
      drawing: lead("1/4 in", "5/16 in"),
      at: "W1",
      message: "small",
      severity: "NOTICE",
      remedies: ["fit-lug"],
    },
    {
      name: "three eighths",
      drawing: lead('3/8"', "M8"),
      at: "W1",
      message: "large",
      severity: "NOTICE",
      remedies: ["fit-lug"],
    },
  ],
  passes: [
    { name: "M8 on M8", drawing: lead("M8", "M8"), at: ["W1"] },
    { name: "five sixteenths on M8", drawing: lead("5/16 in", "M8"), at: ["W1"] },
    {
      name: "an M6 lug on a controller's case",
      drawing: drawing()
        .part("T1", "dc-controller")
        .part("X1", "chassis-point")
        .wire("T1:case", "X1:stud", { lugs: ["M6", "M8"] })
        .build(),
      at: ["W1"],
    },
  ],
  notChecked: [
    { name: "one lug unstated", drawing: lead("M8", null), at: "W1", reason: "unknown", missing: ["W1.lugs"] },
    {
      name: "a size outside the convention",
      drawing: lead("M8", "7/16"),
      at: "W1",
      reason: "unread",
      missing: ["W1.lugs"],
    },
  ],
  doesNotApply: [
    {
      name: "spade terminals",
      drawing: drawing().part("S1", "switch").part("P1", "lamp").wire("S1:out", "P1:+").build(),
    },
  ],
});

test("inch sizes go with the metric lug of the trade's convention", () => {
  // Convention: No. 10 = M5, 1/4 in = M6, 5/16 in = M8, 3/8 in = M10, 1/2 in = M12 (common practice, from memory).
  const pairs: readonly (readonly [string, number | undefined])[] = [
    ["#10", 5],
    ["1/4 in", 6],
    ["5/16 in", 8],
    ['3/8"', 10],
    ["1/2", 12],
    ["M8", 8],
    ["9/16 in", undefined],
    ["eight", undefined],
  ];
  for (const [text, size] of pairs) expect(metricThread(text), text).toBe(size);
});
