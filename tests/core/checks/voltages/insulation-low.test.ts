import { insulationLow } from "../../../../core/checks/voltages/insulation-low.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const volts = (text: string) => ({ size: "10 mm2", length: "1 m", insulation: { volts: text } });

/** A pack in one symbol and a heater on it, one wire as the test says. Flooded lead: 2.47 V x 6 x 12 = 177.84 V. */
function heater(wire: { readonly insulation?: { readonly volts?: string | null } }, pack: Parameters = {}) {
  return drawing()
    .part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "flooded-lead",
      blocks: "12",
      capacity: "100 Ah",
      ...pack,
    })
    .part("E1", "heater", { voltage: "144 V", power: "2 kW" })
    .wire("G1:+", "E1:+", { size: "10 mm2", length: "1 m", ...wire })
    .wire("E1:-", "G1:-", volts("600 V"));
}

const mains = (text: string) =>
  drawing()
    .part("X2", "inlet", { inputVoltage: "230 V", currentMax: "16 A" })
    .part("T3", "charger", { chemistry: "flooded-lead", outputVoltageMax: "170 V" })
    .wire("X2:L", "T3:L", volts(text))
    .wire("X2:N", "T3:N", volts("500 V"))
    .build();

const twelve = (text: string | null) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" })
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wire("G20:+", "P1:+", { size: "1 mm2", length: "1 m", insulation: { volts: text } })
    .wire("P1:-", "G20:-", volts("60 V"))
    .build();

checkTable(insulationLow, {
  fails: [
    {
      name: "car wire for 60 V in the traction circuit",
      drawing: heater(volts("60 V")).build(),
      at: "W1",
      message: "low",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
      value: 177.84,
      limit: 60,
    },
    {
      name: "wire for 150 V: enough for the pack's name, not for its charging voltage",
      drawing: heater(volts("150 V")).build(),
      at: "W1",
      message: "low",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
    },
    {
      name: "car wire on the mains",
      drawing: mains("60 V"),
      at: "W1",
      message: "low",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
      value: 230,
    },
  ],
  passes: [
    { name: "wire for 600 V", drawing: heater(volts("600 V")).build(), at: ["W1", "W2"] },
    { name: "mains wire on the mains", drawing: mains("500 V"), at: ["W1", "W2"] },
    { name: "car wire for 60 V on the 12 V side", drawing: twelve("60 V"), at: ["W1", "W2"] },
  ],
  notChecked: [
    {
      name: "traction wire of unstated insulation",
      drawing: heater({}).build(),
      at: "W1",
      reason: "unstated",
      missing: ["W1.insulation.volts"],
    },
    {
      name: "12 V wire of unknown insulation",
      drawing: twelve(null),
      at: "W1",
      reason: "unstated",
      missing: ["W1.insulation.volts"],
    },
    {
      name: "a pack of unstated chemistry",
      drawing: heater(volts("600 V"), { chemistry: null }).build(),
      at: ["W1", "W2"],
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    {
      name: "a wire between two pieces of the vehicle's metal",
      drawing: drawing()
        .part("X1", "chassis-point", { structure: "body" })
        .part("E1", "heater", { voltage: "12 V" })
        .wire("E1:case", "X1:stud", { size: "4 mm2", length: "1 m" })
        .build(),
    },
  ],
});
