import { designationDuplicate } from "../../../../core/checks/connections/designation-duplicate.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const battery = () => drawing().part("G20", "battery-block", { chemistry: "agm-lead" });

checkTable(designationDuplicate, {
  fails: [
    {
      name: "two lamps P1",
      drawing: battery().part("P1", "lamp").wires({}, "G20:+ - P1:+", "G20:- - P1:-").twin("P1", "lamp").build(),
      at: "P1",
      message: "parts",
      severity: "CAUTION",
      remedies: ["rename-others"],
    },
    {
      name: "a fuse and a breaker both F1, and a third",
      drawing: battery().part("F1", "fuse").twin("F1", "circuit-breaker").twin("F1", "fuse").part("F2", "fuse").build(),
      at: "F1",
      message: "parts",
      severity: "CAUTION",
    },
    {
      name: "two wires 7",
      drawing: battery()
        .part("P1", "lamp")
        .wire("G20:+", "P1:+", { number: "7" })
        .wire("G20:-", "P1:-", { number: "7" })
        .build(),
      at: "7",
      message: "wires",
      severity: "CAUTION",
      remedies: ["rename-others"],
    },
  ],
  passes: [
    { name: "a whole tug", drawing: tug(), at: ["G1", "Q1", "W1"] },
    {
      name: "two wires without a number",
      drawing: battery()
        .part("P1", "lamp")
        .wire("G20:+", "P1:+", { number: "" })
        .wire("G20:-", "P1:-", { number: "" })
        .build(),
      at: ["G20", "P1"],
    },
    {
      name: "a wire may be called like a part, small and capital letters differ",
      drawing: battery()
        .part("P1", "lamp")
        .wire("G20:+", "P1:+", { number: "P1" })
        .wire("G20:-", "P1:-", { number: "p1" })
        .build(),
      at: ["P1"],
    },
  ],
  doesNotApply: [{ name: "an empty sheet", drawing: drawing().build() }],
});
