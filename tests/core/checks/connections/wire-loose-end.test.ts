import { wireLooseEnd } from "../../../../core/checks/connections/wire-loose-end.ts";
import type { Project } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const lamp = () =>
  drawing()
    .part("G20", "battery-block", { chemistry: "agm-lead" })
    .part("P1", "lamp")
    .wire("G20:-", "P1:-")
    .defaults({ size: "1.5 mm2", length: "2 m" });

/** A plug with three pins of which the third is wired, then stated to have only two. */
const shortened = (): Project => {
  const whole = lamp().part("X2", "connector", { positions: "3" }).wires({}, "G20:+ - X2:3a", "X2:2b - P1:+").build();
  return {
    ...whole,
    parts: whole.parts.map((part) =>
      part.designation === "X2" ? { ...part, parameters: { ...part.parameters, positions: "2" } } : part,
    ),
  };
};

checkTable(wireLooseEnd, {
  fails: [
    {
      name: "the crimp on the converter's minus fell off",
      drawing: drawing()
        .part("G20", "battery-block", { chemistry: "agm-lead" })
        .part("G1", "battery-block", { chemistry: "lifepo4", cells: "32" })
        .part("T2", "dc-dc-converter", { isolated: "yes", enableInput: "none" })
        .wires({}, "G1:+ - T2:in+", "G1:- - T2:in-", "T2:out+ - G20:+")
        .wire("T2:out-", null)
        .build(),
      at: "W4",
      message: "waiting",
      severity: "WARNING",
      remedies: ["connect-loose-end"],
    },
    {
      name: "the first end is the loose one",
      drawing: lamp().wire("G20:+", "P1:+").wire(null, "P1:+").build(),
      at: "W3",
      message: "one",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "a wire between nothing and nothing",
      drawing: lamp().wire("G20:+", "P1:+").wire(null, null).build(),
      at: "W3",
      message: "both",
      severity: "WARNING",
      remedies: ["take-off-wire"],
    },
    {
      name: "a pin that the plug no longer has",
      drawing: shortened(),
      at: "W2",
      message: "gone",
      severity: "WARNING",
      remedies: [],
      except: Object.fromEntries(
        ["splice", "busbar", "connector", "contact"].map((id) => [
          id,
          "both halves of the cut wire then touch the missing pin only once",
        ]),
      ),
    },
  ],
  passes: [
    { name: "a whole tug", drawing: tug(), at: ["W1", "W10"] },
    { name: "a lamp on a battery", drawing: lamp().wire("G20:+", "P1:+").build(), at: ["W1", "W2"] },
    {
      name: "a wire back to its own terminal is not loose",
      drawing: lamp().wire("G20:+", "P1:+").wire("P1:+", "P1:+").build(),
      at: ["W3"],
    },
  ],
  doesNotApply: [{ name: "no wires yet", drawing: drawing().part("P1", "lamp").build() }],
});
