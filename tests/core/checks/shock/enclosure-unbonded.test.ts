import { enclosureUnbonded } from "../../../../core/checks/shock/enclosure-unbonded.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { HEAVY } from "../pack.ts";

const PACK = { duty: "traction", chemistry: "lifepo4", cells: "4", resistance: "40 mohm" };
const STRAP = { size: "16 mm2", length: "0.5 m" };

/** A pack and a heater with a metal case; two points on the body, one on the motor. */
const heater = (blocks = "8", more: Parameters = {}) =>
  drawing()
    .part("G1", "battery-pack", { ...PACK, blocks, ...more })
    .part("E1", "heater", { voltage: "100 V", power: "1 kW" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("X2", "chassis-point", { structure: "body" })
    .part("X3", "chassis-point", { structure: "motor" })
    .wires(HEAVY, "G1:+ - E1:+", "E1:- - G1:-")
    .wires(STRAP, "X1:stud - X2:stud");

const bonded = (options: WireOptions, to = "X1:stud") => heater().wire("E1:case", to, options).build();

/** The heater in a box of this metal, with a strap in it that leads to the body or not. */
const boxed = (conductive: boolean | null | undefined, strap: boolean) => {
  const sketch = drawing()
    .enclosure("heater box", conductive === undefined ? {} : { conductive })
    .part("G1", "battery-pack", { ...PACK, blocks: "8" })
    .part("F1", "fuse", { rating: "20 A" }, { enclosure: "heater box" })
    .part("E1", "heater", { voltage: "100 V", power: "1 kW" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("X2", "earth-bond", {}, { enclosure: "heater box" })
    .wires(HEAVY, "G1:+ - F1:1", "F1:2 - E1:+", "E1:- - G1:-")
    .wires(STRAP, "E1:case - X1:stud");
  return (strap ? sketch.wires(STRAP, "X2:stud - X1:stud") : sketch).build();
};

checkTable(enclosureUnbonded, {
  fails: [
    {
      name: "a case that nothing is wired to",
      drawing: heater().build(),
      at: "E1:case",
      message: "open",
      severity: "WARNING",
      limit: 0.1,
      remedies: ["bond-case"],
    },
    {
      name: "a case on the motor's metal, which is not joined to the body",
      drawing: bonded(STRAP, "X3:stud"),
      at: "E1:case",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "a case bonded by 5 m of 0.75 mm2",
      // IEC 60228 class 5: 26 ohm a km, beside two joints.
      drawing: bonded({ size: "0.75 mm2", length: "5 m" }),
      at: "E1:case",
      message: "high",
      severity: "WARNING",
      value: 0.1301,
      remedies: [],
    },
    {
      name: "a metal box whose strap leads nowhere",
      drawing: boxed(true, false),
      at: "F1",
      message: "enclosure",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "a case bonded by a short strap", drawing: bonded(STRAP), at: "E1:case" },
    { name: "a case bonded by 3 m of 0.75 mm2", drawing: bonded({ size: "0.75 mm2", length: "3 m" }), at: "E1:case" },
    { name: "a metal box with its strap on the body", drawing: boxed(true, true), at: ["E1:case", "F1"] },
    { name: "a plastic box", drawing: boxed(false, false), at: ["E1:case", "F1"] },
  ],
  notChecked: [
    {
      name: "a bond of unstated length",
      drawing: bonded({ size: "16 mm2" }),
      at: "E1:case",
      reason: "approximate",
      missing: ["W4.length"],
    },
    {
      name: "a bare case on 48 V of unstated chemistry",
      drawing: heater("4", { chemistry: null }).build(),
      at: "E1:case",
      reason: "voltage",
      missing: ["G1.chemistry"],
    },
    {
      name: "a box of which nobody said whether it is of metal",
      drawing: boxed(undefined, false),
      at: "F1",
      reason: "conductive",
      missing: ["heater box.conductive"],
    },
  ],
  doesNotApply: [{ name: "an unbonded case at 48 V", drawing: heater("4").build() }],
});
