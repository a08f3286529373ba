import { studCrowded } from "../../../../core/checks/connections/stud-crowded.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

/** `lamps` lamps, each with a wire of its own on both posts of the battery. */
const lamps = (count: number, plus: string, minus = "G20:-") => {
  const sketch = drawing()
    .part("G20", "battery-block", { chemistry: "agm-lead" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("X5", "terminal-strip", { positions: "1" })
    .part("Q9", "manual-disconnect")
    .wire("G20:+", "Q9:line");
  for (let lamp = 1; lamp <= count; lamp += 1) {
    sketch.part(`P${lamp}`, "lamp").wire(plus, `P${lamp}:+`).wire(minus, `P${lamp}:-`);
  }
  return sketch.build();
};

checkTable(studCrowded, {
  fails: [
    {
      name: "five and the battery's own on both posts",
      drawing: lamps(5, "G20:+"),
      at: ["G20:+", "G20:-"],
      message: "crowded",
      severity: "CAUTION",
    },
    {
      name: "five on a disconnect, two each on posts",
      drawing: lamps(5, "Q9:load", "X5:1a"),
      at: "Q9:load",
      message: "crowded",
      severity: "CAUTION",
      value: 5,
      limit: 4,
    },
    {
      name: "six on one chassis stud",
      drawing: lamps(6, "X5:1a", "X1:stud"),
      at: "X1:stud",
      message: "crowded",
      severity: "CAUTION",
      value: 6,
      limit: 4,
    },
    {
      name: "a wire with both ends on one stud brings two lugs",
      drawing: drawing()
        .part("Q9", "manual-disconnect")
        .part("P1", "lamp")
        .wires({}, "Q9:line - Q9:line", "Q9:line - Q9:line", "Q9:line - P1:+")
        .build(),
      at: "Q9:line",
      message: "crowded",
      severity: "CAUTION",
      value: 5,
    },
  ],
  passes: [
    { name: "four on each", drawing: lamps(4, "Q9:load"), at: ["Q9:load", "G20:-"] },
    { name: "two on a chassis stud", drawing: lamps(2, "G20:+", "X1:stud"), at: ["G20:+", "X1:stud"] },
    { name: "a whole tug", drawing: tug(), at: ["G1:-"] },
  ],
  doesNotApply: [
    { name: "many wires under one clamp of a strip are not on a stud", drawing: lamps(9, "X5:1a", "X5:1b") },
    {
      name: "tabs and pins alone",
      drawing: drawing().part("S1", "switch").part("P1", "lamp").wire("S1:out", "P1:+").build(),
    },
  ],
});
