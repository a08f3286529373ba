import { expect, test } from "vitest";
import { wireUnnumbered } from "../../../../core/checks/drawing/wire-unnumbered.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { Names } from "../../../../core/checks/text.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const lamp = (first: string, second: string) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" })
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wire("G20:+", "P1:+", { size: "1 mm2", length: "1 m", number: first })
    .wire("P1:-", "G20:-", { size: "1 mm2", length: "1 m", number: second })
    .build();

checkTable(wireUnnumbered, {
  fails: [
    {
      name: "one of two",
      drawing: lamp("W1", ""),
      at: "from P1:- to G20:-",
      message: "none",
      severity: "NOTICE",
      remedies: ["number-wires"],
    },
    {
      name: "both",
      drawing: lamp("", ""),
      at: "from G20:+ to P1:+",
      message: "none",
      severity: "NOTICE",
      remedies: ["number-wires"],
    },
    {
      name: "a number of blanks",
      drawing: lamp("  ", "W7"),
      at: "from G20:+ to P1:+",
      message: "none",
      severity: "NOTICE",
      remedies: ["number-wires"],
      except: { rename: "A new name takes the place of the blanks." },
    },
  ],
  passes: [
    { name: "counted", drawing: lamp("W1", "W2"), at: ["W1", "W2"] },
    { name: "by another scheme", drawing: lamp("12-07", "31-07"), at: ["12-07", "31-07"] },
    { name: "a number shared by two, which another check tells", drawing: lamp("W1", "W1"), at: "W1" },
  ],
  doesNotApply: [{ name: "no wire at all", drawing: drawing().part("P1", "lamp").build() }],
});

test("numbers count on from the highest in use", () => {
  const project = lamp("", "W7");
  const [failure] = runCheck(wireUnnumbered, analyse(project)).failures;
  const mended = failure?.remedies?.[0]?.apply(project);
  expect(mended?.wires.map(({ number }) => number)).toEqual(["W8", "W7"]);
});

test("a wire without a number is named by its ends", () => {
  const names = new Names(lamp("", "W7"));
  expect(names.place({ wire: "w1" })).toBe("wire from G20:+ to P1:+");
  expect(names.place({ wire: "w2" })).toBe("wire W7");
});
