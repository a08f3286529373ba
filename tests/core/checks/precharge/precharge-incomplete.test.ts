import { prechargeIncomplete } from "../../../../core/checks/precharge/precharge-incomplete.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "500 V" };

interface Timed {
  readonly blocks?: number;
  /** null leaves it unstated. */
  readonly resistance?: string | null;
  readonly capacitance?: string | null;
  readonly delay?: string | null;
}

const stated = (name: string, value: string | null): Readonly<Record<string, string>> =>
  value === null ? {} : { [name]: value };

/** String, fuse, contactor Q1 that the timer K2 closes; R1 behind the relay K1 across it, on the key. */
const timed = ({ blocks = 12, resistance = "100 ohm", capacitance = "10 mF", delay = "3.3 s" }: Timed) =>
  supplies(blocks)
    .part("F1", "fuse", { rating: "400 A" })
    .part("Q1", "contactor", COIL)
    .part("K1", "relay", RELAY)
    .part("R1", "resistor", { power: "50 W", ...stated("resistance", resistance) })
    .part("K2", "timer-relay", { supplyVoltage: "12 V", mode: "on-delay", ...stated("delay", delay) })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", ...stated("inputCapacitance", capacitance) })
    .wires(POWER, `G${String(blocks)}:+ - F1:1`, "F1:2 - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-")
    .wires(
      SMALL,
      "Q1:line - K1:common",
      "K1:no - R1:1",
      "R1:2 - Q1:load",
      "S1:ignition - K1:coil+",
      "K1:coil- - X9:stud",
    )
    .wires(SMALL, "S1:ignition - K2:supply+", "K2:supply- - X9:stud", "S1:ignition - K2:common", "K2:no - Q1:coil+")
    .wires(SMALL, "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

checkTable(prechargeIncomplete, {
  fails: [
    {
      name: "144 V, 7200 uF and 750 ohm closed after one time constant, as reported",
      drawing: timed({ resistance: "750 ohm", capacitance: "7200 uF", delay: "5.4 s" }).build(),
      at: "Q1",
      message: "early",
      severity: "WARNING",
      // V (1 - exp(-t/RC)) of twelve blocks at 12.7 V; timer and contactor take 0.13 s more than the delay.
      value: 152.4 * (1 - Math.exp(-(5.4 + 0.13) / 5.4)),
      limit: 0.9 * 152.4,
    },
    {
      name: "a heater that draws while the resistor fills",
      drawing: timed({ resistance: "100 ohm", capacitance: "10 mF", delay: "9 s" })
        .part("E1", "heater", { voltage: "144 V", power: "345.6 W" })
        .wires(SMALL, "T1:B+ - E1:+", "E1:- - T1:B-")
        .build(),
      at: "Q1",
      message: "early",
      severity: "WARNING",
      // A divider of 60 ohm and 100 ohm.
      value: (152.4 * 60) / 160,
    },
    {
      name: "144 V, 10 mF and 100 ohm: 93 % after 2.7 time constants",
      drawing: timed({ delay: "2.66 s" }).build(),
      at: "Q1",
      message: "nearly",
      severity: "NOTICE",
    },
    {
      name: "far from full, but so small that next to nothing rushes in",
      drawing: timed({ resistance: "100 kohm", capacitance: "30 uF", delay: "3 s" }).build(),
      at: "Q1",
      message: "nearly",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "144 V, 10 mF and 100 ohm: 95 % after three time constants", drawing: timed({}).build(), at: "Q1" },
    {
      name: "400 V, 50 ohm, 3 mF after half a second",
      drawing: timed({ blocks: 32, resistance: "50 ohm", capacitance: "3 mF", delay: "0.6 s" }).build(),
      at: "Q1",
    },
    {
      name: "resistor across the contactor for good",
      drawing: cart({ blocks: 8, resistor: "470 ohm" }).build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "resistance unstated",
      drawing: timed({ resistance: null }).build(),
      at: "Q1",
      reason: "resistance",
      missing: ["R1.resistance"],
    },
    {
      name: "capacitance unstated",
      drawing: timed({ capacitance: null }).build(),
      at: "Q1",
      reason: "capacitance",
      missing: ["T1.inputCapacitance"],
    },
    {
      name: "delay unstated",
      drawing: timed({ delay: null }).build(),
      at: "Q1",
      reason: "delay",
      missing: ["K2.delay"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: timed({})
        .part("K9", "relay", RELAY)
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [
    { name: "no pre-charge", drawing: cart({ blocks: 8 }).build() },
    { name: "no capacitors", drawing: supplies(2).build() },
  ],
});
