import { prechargeResistorOverload } from "../../../../core/checks/precharge/precharge-resistor-overload.ts";
import { capacitorEnergy } from "../../../../core/standards/precharge.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL } from "../switching/vehicle.ts";
import { always, byController, onKey, relayOnKey, timed } from "./precharged.ts";

/** Eight flooded blocks of six cells at 2.47 V. */
const VOLTS = 8 * 6 * 2.47;
const WIREWOUND = { resistance: "100 ohm", power: "50 W", pulseEnergy: "300 J" } as const;

checkTable(prechargeResistorOverload, {
  fails: [
    {
      name: "film resistor that stands 5 J ahead of 2 mF",
      drawing: byController(
        { resistance: "100 ohm", power: "50 W", pulseEnergy: "5 J" },
        { prechargeTimeout: "3 s" },
      ).build(),
      at: "R1",
      message: "pulse",
      severity: "WARNING",
      remedies: ["larger-resistor"],
      value: capacitorEnergy(2e-3, VOLTS),
      limit: 5,
    },
    {
      name: "144 V, 10 mF and 100 ohm, as worked in print: 104 J at 144 V",
      drawing: byController(
        { resistance: "100 ohm", power: "250 W", pulseEnergy: "60 J" },
        { prechargeTimeout: "5 s", inputCapacitance: "10 mF" },
      ).build(),
      at: "R1",
      message: "pulse",
      severity: "WARNING",
      remedies: ["larger-resistor"],
      // E = C V²/2 as in the worked example, at this pack's highest voltage
      value: 103.68 * (VOLTS / 144) ** 2,
    },
    {
      name: "a heater that draws through the resistor until the timer closes the main contactor",
      drawing: timed({ resistance: "100 ohm", power: "50 W", pulseEnergy: "30 J" })
        .part("E1", "heater", { voltage: "96 V", power: "100 W" })
        .wires(SMALL, "Q1:line - K1:common", "K2:nc - K1:coil+", "K1:coil- - X9:stud")
        .wires(SMALL, "Q1:load - E1:+", "E1:- - T1:B-")
        .build(),
      at: "R1",
      message: "pulse",
      severity: "WARNING",
      remedies: ["larger-resistor"],
      limit: 30,
    },
    {
      name: "relay that stays in with the key, main contactor that waits for the bus",
      drawing: relayOnKey(WIREWOUND).build(),
      at: "R1",
      message: "shorted",
      severity: "WARNING",
      remedies: ["larger-resistor"],
      value: VOLTS ** 2 / 100,
      limit: 50,
    },
    {
      name: "the same behind a fuse that the short does not open",
      drawing: relayOnKey(WIREWOUND, "5 A").build(),
      at: "R1",
      message: "shorted",
      severity: "WARNING",
      remedies: ["larger-resistor"],
    },
  ],
  passes: [
    {
      name: "controller with a time limit",
      drawing: byController(WIREWOUND, { prechargeTimeout: "3 s" }).build(),
      at: "R1",
    },
    {
      name: "resistor that stands the full voltage for good, nothing else stated",
      drawing: onKey({ resistance: "1 kohm", power: "20 W" }).build(),
      at: "R1",
    },
    { name: "fuse that the short opens", drawing: relayOnKey(WIREWOUND, "500 mA").build(), at: "R1" },
    {
      name: "resistor across the contactor, which the key closes onto the short",
      drawing: always({ resistance: "500 ohm", power: "10 W", pulseEnergy: "60 J" }).build(),
      at: "R1",
    },
    {
      name: "the timer's break contact ends it",
      drawing: timed(WIREWOUND).wires(SMALL, "Q1:line - K1:common", "K2:nc - K1:coil+", "K1:coil- - X9:stud").build(),
      at: "R1",
    },
  ],
  notChecked: [
    {
      name: "nobody says how many ohms",
      drawing: onKey({ power: "50 W" }).build(),
      at: "R1",
      reason: "resistance",
      missing: ["R1.resistance"],
    },
    {
      name: "nobody says how many watts",
      drawing: onKey({ resistance: "100 ohm" }).build(),
      at: "R1",
      reason: "power",
      missing: ["R1.power"],
    },
    {
      name: "nobody says what pulse it stands",
      drawing: byController({ resistance: "100 ohm", power: "50 W" }, { prechargeTimeout: "3 s" }).build(),
      at: "R1",
      reason: "pulse",
      missing: ["R1.pulseEnergy"],
    },
    {
      name: "nobody says how large the capacitors are",
      drawing: byController(WIREWOUND, { prechargeTimeout: "3 s", inputCapacitance: null }).build(),
      at: "R1",
      reason: "capacitance",
      missing: ["T1.inputCapacitance"],
    },
    {
      name: "nobody says whether the controller has a time limit",
      drawing: byController(WIREWOUND).build(),
      at: "R1",
      reason: "timeout",
      missing: ["T1.prechargeTimeout"],
    },
  ],
  doesNotApply: [{ name: "no pre-charge", drawing: cart().build() }],
});
