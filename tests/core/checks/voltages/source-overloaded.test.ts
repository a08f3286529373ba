import { sourceOverloaded } from "../../../../core/checks/voltages/source-overloaded.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart, THICK } from "../overcurrent/cart.ts";

const BLOCKS = ["G1", "G2", "G3", "G4", "G5", "G6", "G7", "G8"] as const;
/** Every block, and the battery of the 12 V side, with ratings. */
const rated = (pack: Parameters, others: Readonly<Record<string, Parameters>> = {}) =>
  cart({
    parts: {
      ...Object.fromEntries(BLOCKS.map((block) => [block, pack])),
      G20: { dischargeMax: "100 A", chargeMax: "100 A" },
      ...others,
    },
  }).build();

/** A lithium pack in one symbol behind a monitor, a heater as its load, a charger on the monitor's charge port. */
const monitored = (monitor: Parameters, charger: string | null = "40 A", pack: Parameters = {}) =>
  drawing()
    .part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "lifepo4",
      cells: "16",
      capacity: "100 Ah",
      resistance: "10 mohm",
      dischargeMax: "200 A",
      chargeMax: "100 A",
      ...pack,
    })
    .part("B1", "battery-monitor", { isolated: "yes", ...monitor })
    .part("E1", "heater", { voltage: "51 V", power: "5.1 kW" })
    .part("T3", "charger", {
      mainsPlug: "yes",
      chemistry: "lifepo4",
      outputVoltageMax: "58 V",
      outputCurrentMax: charger,
      isolated: "yes",
    })
    .wires(THICK, "G1:+ - E1:+", "E1:- - B1:P-", "B1:B- - G1:-", "T3:out+ - G1:+", "T3:out- - B1:C-")
    .build();

checkTable(sourceOverloaded, {
  fails: [
    {
      name: "blocks for 100 A behind a drive of 150 A: one finding for the string",
      drawing: rated({ dischargeMax: "100 A", chargeMax: "40 A" }),
      at: "G1",
      message: "discharge",
      severity: "WARNING",
      limit: 100,
    },
    {
      name: "a charger of 15 A on blocks for 10 A",
      drawing: rated({ dischargeMax: "300 A", chargeMax: "10 A" }),
      at: "G1",
      message: "charge",
      severity: "WARNING",
      value: 15,
      limit: 10,
    },
    {
      name: "one weaker block in the string",
      drawing: rated(
        { dischargeMax: "300 A", chargeMax: "40 A" },
        { G3: { dischargeMax: "120 A", chargeMax: "40 A" } },
      ),
      at: "G3",
      message: "discharge",
      severity: "WARNING",
      limit: 120,
    },
    {
      name: "a monitor for 60 A before a load of 100 A",
      drawing: monitored({ currentDischarge: "60 A", currentCharge: "50 A" }),
      at: "B1",
      message: "discharge",
      severity: "WARNING",
      limit: 60,
    },
  ],
  passes: [
    {
      name: "blocks for all of it",
      drawing: rated({ dischargeMax: "300 A", chargeMax: "40 A" }),
      at: ["G1", "G8"],
    },
    {
      name: "a monitor for all of it",
      drawing: monitored({ currentDischarge: "150 A", currentCharge: "50 A" }),
      at: ["G1", "B1"],
    },
    {
      name: "a small battery for a small lamp",
      drawing: drawing()
        .part("G20", "battery-block", {
          duty: "auxiliary",
          chemistry: "agm-lead",
          resistance: "20 mohm",
          dischargeMax: "10 A",
        })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(THICK, "G20:+ - P1:+", "P1:- - G20:-")
        .build(),
      at: "G20",
    },
  ],
  notChecked: [
    {
      name: "blocks of unstated limits",
      drawing: rated({}),
      at: [...BLOCKS],
      reason: "limit",
      missing: BLOCKS.flatMap((block) => [`${block}.chargeMax`, `${block}.dischargeMax`]),
    },
    {
      name: "a drive of unknown current",
      drawing: rated(
        { dischargeMax: "300 A", chargeMax: "40 A" },
        { T1: { currentContinuous: null }, M1: { currentContinuous: null } },
      ),
      at: [...BLOCKS],
      reason: "current",
      missing: ["M1.currentContinuous", "T1.currentContinuous"],
    },
    {
      name: "a lamp of unknown power on a tiny battery",
      drawing: drawing()
        .part("G20", "battery-block", {
          duty: "auxiliary",
          chemistry: "agm-lead",
          resistance: "20 mohm",
          dischargeMax: "0.5 A",
        })
        .part("P1", "lamp", { voltage: "12 V" })
        .wires(THICK, "G20:+ - P1:+", "P1:- - G20:-")
        .build(),
      at: "G20",
      reason: "range",
      missing: ["P1.power"],
    },
  ],
  doesNotApply: [
    {
      name: "a battery that nothing is connected to",
      drawing: drawing().part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" }).build(),
    },
  ],
});
