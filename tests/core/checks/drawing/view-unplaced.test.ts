import { viewUnplaced } from "../../../../core/checks/drawing/view-unplaced.ts";
import type { Project } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart, SMALL } from "../switching/vehicle.ts";

/** The drawing with one view of a part taken off its sheet. */
function without(project: Project, designation: string, view: string): Project {
  return {
    ...project,
    parts: project.parts.map((part) =>
      part.designation === designation ? { ...part, views: part.views.filter((each) => each.view !== view) } : part,
    ),
  };
}

const lamp = (unplaced: boolean) =>
  cart().part("P1", "lamp", { voltage: "12 V" }, { unplaced }).wires(SMALL, "S1:ignition - P1:+", "P1:- - X9:stud");

checkTable(viewUnplaced, {
  fails: [
    { name: "a lamp on no sheet", drawing: lamp(true).build(), at: "P1", message: "part", severity: "NOTICE" },
    {
      name: "a spare fuse without a wire, on no sheet",
      drawing: cart().part("F7", "fuse", { rating: "5 A" }, { unplaced: true }).build(),
      at: "F7",
      message: "part",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "the coil of a contactor whose contacts are drawn",
      drawing: without(cart().build(), "Q1", "coil"),
      at: "Q1",
      message: "view",
      severity: "NOTICE",
      remedies: ["place-views"],
    },
  ],
  passes: [
    { name: "everything placed", drawing: lamp(false).build(), at: ["P1", "Q1"] },
    { name: "an auxiliary contact that is not used", drawing: without(cart().build(), "Q1", "aux"), at: "Q1" },
    { name: "one part and no wire", drawing: drawing().part("F1", "fuse").build(), at: "F1" },
  ],
  doesNotApply: [{ name: "an empty drawing", drawing: drawing().build() }],
});
