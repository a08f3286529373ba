import { polarisedContactReversed } from "../../../../core/checks/polarity/polarised-contact-reversed.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

type Parameters = Readonly<Record<string, string>>;

/** A heater behind a two-pole contactor; `second` says which way round its pole in the minus lead lies. */
const heating = (contactor: Parameters, second: readonly [string, string]) =>
  supplies(4)
    .part("Q1", "contactor", { ...COIL, poles: "2", ...contactor })
    .part("E1", "heater", { voltage: "48 V", power: "500 W" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - E1:+", `E1:- - Q1:${second[0]}`, `Q1:${second[1]} - G1:-`)
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

const FORWARDS = ["line-2", "load-2"] as const;
const BACKWARDS = ["load-2", "line-2"] as const;

/** The cart with a throttle, so that it drives and, where its controller does, brakes into the battery. */
const driving = (contactor: Parameters, controller: Parameters) =>
  cart({ blocks: 4, contactor, controller, resistor: "100 ohm" })
    .part("B2", "throttle-two-wire", { resistanceIdle: "0 ohm", resistanceFull: "5 kohm" })
    .wires(SMALL, "B2:1 - T1:throttle-1", "B2:2 - T1:throttle-2");

checkTable(polarisedContactReversed, {
  fails: [
    {
      name: "the pole in the minus lead of a two-pole contactor lies with line to the battery",
      drawing: heating({ polarised: "yes" }, BACKWARDS).build(),
      at: "Q1",
      message: "reversed",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "a breaker with line to the load",
      drawing: supplies(4)
        .part("F1", "circuit-breaker", { rating: "63 A", polarised: "yes" })
        .part("E1", "heater", { voltage: "48 V", power: "500 W" })
        .wires(POWER, "G4:+ - F1:load", "F1:line - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      message: "reversed",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "charger behind the main contactor",
      drawing: supplies(4)
        .part("Q1", "contactor", { ...COIL, polarised: "yes" })
        .part("S5", "micro-switch", { actuator: "charge-flap" })
        .part("E1", "heater", { voltage: "48 V", power: "500 W" })
        .part("T3", "charger", {
          mainsPlug: "yes",
          isolated: "yes",
          outputVoltageMax: "58 V",
          outputCurrentMax: "40 A",
        })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-", "T3:out+ - Q1:load", "T3:out- - G1:-")
        .wires(SMALL, "S1:ignition - Q1:coil+", "F9:2 - S5:common", "S5:no - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
      at: "Q1",
      message: "both",
      severity: "WARNING",
      remedies: [],
    },
  ],
  passes: [
    { name: "not polarised", drawing: heating({ polarised: "no" }, BACKWARDS).build(), at: "Q1" },
    { name: "both poles with the current", drawing: heating({ polarised: "yes" }, FORWARDS).build(), at: "Q1" },
    {
      name: "nobody says whether it is polarised, and the current agrees",
      drawing: heating({}, FORWARDS).build(),
      at: "Q1",
    },
    {
      name: "a breaker with line to the battery",
      drawing: supplies(4)
        .part("F1", "circuit-breaker", { rating: "63 A", polarised: "yes" })
        .part("E1", "heater", { voltage: "48 V", power: "500 W" })
        .wires(POWER, "G4:+ - F1:line", "F1:load - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
    },
  ],
  notChecked: [
    {
      name: "nobody says whether it is polarised, and the current runs from load to line",
      drawing: heating({}, BACKWARDS).build(),
      at: "Q1",
      reason: "polarised",
      missing: ["Q1.polarised"],
    },
    {
      name: "nobody says whether the controller brakes into the battery",
      drawing: driving({ polarised: "yes" }, {}).build(),
      at: "Q1",
      reason: "regeneration",
      missing: ["T1.regeneration"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: heating({ polarised: "yes" }, FORWARDS)
        .part("K9", "relay", COIL)
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [{ name: "no contactor", drawing: supplies(2).build() }],
});
