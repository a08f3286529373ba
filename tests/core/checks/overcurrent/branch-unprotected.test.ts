/** 33 CFR 183.455(a): every ungrounded conductor has a fuse or breaker. Arrangements from reports of the field. */
import { branchUnprotected } from "../../../../core/checks/overcurrent/branch-unprotected.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing, WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SHORT, THICK, THIN } from "./cart.ts";

const PORT: WireOptions = { ...THIN, size: "18 AWG" };

/** A port board on the pack's own studs, without a fuse. */
const portBoard = (wire: WireOptions = PORT) =>
  cart({
    more: (made) => {
      made.part("E1", "load", { voltage: "48 V", power: "20 W" });
      made.wire("G8:+", "E1:+", { ...wire, number: "P1" }).wire("E1:-", "G1:-", { ...wire, number: "P2" });
    },
  }).build();

/** 12 V battery, lamp through the body, with what a test puts between them. */
function twelveVolt(between: (made: Drawing) => void, battery: Readonly<Record<string, string>> = {}): Drawing {
  const made = drawing()
    .part("G20", "battery-block", {
      duty: "auxiliary",
      chemistry: "agm-lead",
      cells: "6",
      capacity: "40 Ah",
      resistance: "8 mohm",
      ...battery,
    })
    .part("P1", "lamp", { voltage: "12 V", power: "55 W" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("X2", "chassis-point", { structure: "body" })
    .wire("G20:-", "X1:stud", { ...THIN, size: "6 AWG", number: "M1" })
    .wire("P1:-", "X2:stud", { ...THIN, number: "M2" });
  between(made);
  return made;
}

/** Two 12 V batteries that a jumper puts in series across the chassis. */
function selectorBank(): Drawing {
  const battery = {
    duty: "auxiliary",
    chemistry: "flooded-lead",
    cells: "6",
    capacity: "100 Ah",
    resistance: "5 mohm",
  };
  return drawing()
    .part("G1", "battery-block", battery)
    .part("G2", "battery-block", battery)
    .part("S1", "selector-switch", { both: "yes" })
    .part("E1", "load", { voltage: "12 V", power: "100 W" })
    .part("X1", "chassis-point", { structure: "hull" })
    .wire("G1:+", "S1:a", { ...THICK, number: "A" })
    .wire("G2:+", "S1:b", { ...THICK, number: "B" })
    .wire("S1:common", "E1:+", { ...THICK, size: "10 AWG", number: "C" })
    .wire("G1:+", "G2:-", { ...THICK, size: "2 AWG", number: "D" })
    .wires({ ...THICK, size: "2 AWG" }, "G1:- - X1:stud", "G2:- - X1:stud", "E1:- - X1:stud");
}

checkTable(branchUnprotected, {
  fails: [
    {
      name: "a port board straight on the pack of a cart",
      drawing: portBoard(),
      at: "P1",
      message: "unprotected",
      severity: "DANGER",
      remedies: ["fit-fuse"],
      limit: 20,
    },
    {
      name: "charger leads on the battery side of the disconnect, 36 V tractor",
      drawing: drawing()
        .parts(
          "battery-block",
          { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" },
          "G1",
          "G2",
          "G3",
        )
        .part("F1", "fuse", { rating: "150 A" })
        .part("Q9", "manual-disconnect")
        .part("T3", "charger", {
          mainsPlug: "yes",
          outputVoltageMax: "45 V",
          outputCurrentMax: "10 A",
          isolated: "yes",
        })
        .part("E1", "load", { voltage: "36 V", power: "500 W" })
        .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - Q9:line", "Q9:load - F1:1", "F1:2 - E1:+", "E1:- - G1:-")
        .wire("T3:out+", "G3:+", { ...THIN, size: "12 AWG", number: "C1" })
        .wire("T3:out-", "G1:-", { ...THIN, size: "12 AWG", number: "C2" })
        .build(),
      at: "C1",
      message: "unprotected",
      severity: "DANGER",
      remedies: ["fit-fuse"],
      limit: 45,
    },
    {
      name: "a 12 V battery without any fuse",
      drawing: twelveVolt((made) => made.wire("G20:+", "P1:+", { ...THIN, number: "L1" })).build(),
      at: "L1",
      message: "unprotected",
      severity: "WARNING",
      remedies: ["fit-fuse"],
    },
    {
      name: "a second lamp ahead of the fuse of the first",
      drawing: twelveVolt((made) =>
        made
          .part("F1", "fuse", { rating: "15 A" })
          .part("P2", "lamp", { voltage: "12 V", power: "21 W" })
          .wire("G20:+", "F1:1", { ...THIN, ...SHORT, number: "L1" })
          .wire("F1:2", "P1:+", { ...THIN, number: "L2" })
          .wire("G20:+", "P2:+", { ...THIN, number: "L3" })
          .wire("P2:-", "X2:stud", { ...THIN, number: "M3" }),
      ).build(),
      at: "L3",
      message: "unprotected",
      severity: "WARNING",
      remedies: ["behind-device", "fit-fuse"],
    },
    {
      name: "two batteries on a selector switch, a jumper wrong, no fuse at either",
      drawing: selectorBank().build(),
      at: "C",
      message: "unprotected",
      severity: "WARNING",
      remedies: [],
      except: { contact: "contacts in the shorted ring lower its current until the fault decides what overloads it" },
    },
    {
      name: "the key's feed taken ahead of the control fuse",
      drawing: cart({
        without: ["F2:2 - S1:battery"],
        more: (made) => {
          made.wire("G8:+", "S1:battery", { ...THIN, number: "K1" });
        },
      }).build(),
      at: "K1",
      message: "unprotected",
      severity: "DANGER",
      remedies: ["fit-fuse"],
    },
    {
      name: "a charger of 20 A on the pack of a cart, and nothing that says when it charges",
      drawing: cart({
        more: (made) => {
          made.part("T9", "charger", { isolated: "yes", outputVoltageMax: "60 V", outputCurrentMax: "20 A" });
          made.wires({ ...THIN, size: "12 AWG" }, "G8:+ - T9:out+", "T9:out- - G1:-");
        },
      }).build(),
      at: "W39",
      message: "unprotected",
      severity: "DANGER",
      remedies: ["fit-fuse"],
    },
    {
      name: "a lamp on one block of the string",
      drawing: cart({
        more: (made) => {
          made.part("P9", "lamp", { voltage: "6 V", power: "10 W" });
          made.wire("G3:+", "P9:+", { ...THIN, number: "L1" }).wire("P9:-", "G3:-", { ...THIN, number: "L2" });
        },
      }).build(),
      at: "L1",
      message: "unprotected",
      severity: "DANGER",
      remedies: ["fit-fuse"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: ["W9", "W12", "W19"] },
    {
      name: "the main fuse in the minus lead of a floating pack",
      drawing: drawing()
        .parts(
          "battery-block",
          { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" },
          "G1",
          "G2",
          "G3",
        )
        .part("F1", "fuse", { rating: "150 A" })
        .part("E1", "load", { voltage: "36 V", power: "500 W" })
        .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - E1:+", "E1:- - F1:2", "F1:1 - G1:-")
        .build(),
      at: ["W3", "W4"],
    },
    {
      name: "the only fuse between two blocks",
      drawing: drawing()
        .parts(
          "battery-block",
          { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" },
          "G1",
          "G2",
        )
        .part("F1", "fuse", { rating: "150 A" })
        .part("E1", "load", { voltage: "24 V", power: "500 W" })
        .wires(THICK, "G1:+ - F1:1", "F1:2 - G2:-", "G2:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: ["W3", "W4"],
    },
    {
      name: "an output that delivers no more than its wires carry",
      drawing: drawing()
        .part("G9", "dc-source", { voltage: "12 V", currentMax: "10 A" })
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .wires(THIN, "G9:+ - P1:+", "P1:- - G9:-")
        .build(),
      at: ["W1", "W2"],
    },
    {
      name: "a battery too small to overload the wire",
      drawing: twelveVolt((made) => made.wire("G20:+", "P1:+", { ...THIN, size: "2 AWG" }), {
        resistance: "1 ohm",
      }).build(),
      at: "W3",
    },
  ],
  notChecked: [
    {
      name: "port board on wire of unstated size",
      drawing: portBoard({ length: "1 m" }),
      at: ["P1", "P2"],
      reason: "size",
      missing: ["P1.size", "P2.size"],
    },
    {
      name: "port board on wire below the table",
      drawing: portBoard({ ...PORT, size: "0.5 mm2" }),
      at: ["P1", "P2"],
      reason: "small",
      missing: [],
    },
    {
      name: "port board on wire of a class below the table",
      drawing: portBoard({ ...PORT, insulation: { material: "PE", temperature: "50 C" } }),
      at: ["P1", "P2"],
      reason: "insulation",
      missing: [],
    },
    {
      name: "insulation of unstated class, and a fault current between its worst and its best",
      drawing: drawing()
        .part("G1", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", resistance: "30 mohm" })
        .part("E1", "load", { voltage: "12 V", power: "20 W" })
        .wires({ size: "4/0 AWG", length: "0.5 m" }, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: ["W1", "W2"],
      reason: "range",
      missing: ["W1.insulation.temperature", "W2.insulation.temperature"],
    },
    {
      name: "an output of unstated limit",
      drawing: drawing()
        .part("G9", "dc-source", { voltage: "12 V" })
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .wires(THIN, "G9:+ - P1:+", "P1:- - G9:-")
        .build(),
      at: ["W1", "W2"],
      reason: "limit",
      missing: ["G9.currentMax"],
    },
    {
      name: "a small battery and a wire of unstated length",
      drawing: twelveVolt(
        (made) => made.wire("G20:+", "P1:+", { size: "2 AWG", insulation: { temperature: "105 C" } }),
        { resistance: "1 ohm" },
      ).build(),
      at: ["M1", "M2", "W3"],
      reason: "approximate",
      missing: ["W3.length"],
    },
  ],
  doesNotApply: [
    {
      name: "nothing that could feed a fault",
      drawing: drawing()
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .part("S1", "switch")
        .wires(THIN, "P1:+ - S1:common", "P1:- - S1:out")
        .build(),
    },
    {
      name: "a fuse right at the stud and nothing behind it",
      drawing: drawing()
        .part("G1", "battery-block", { chemistry: "flooded-lead" })
        .part("F1", "fuse", { rating: "10 A" })
        .wire("G1:+", "F1:1", { ...THIN, ...SHORT })
        .build(),
    },
  ],
});
