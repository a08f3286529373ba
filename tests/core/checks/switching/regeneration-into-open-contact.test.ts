import { regenerationIntoOpenContact } from "../../../../core/checks/switching/regeneration-into-open-contact.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { inverter320 } from "../known-good.ts";
import { cart, COIL, POWER, SMALL, supplies } from "./vehicle.ts";

const REGENERATES = { regeneration: "yes", regenerationCutVoltage: "80 V", voltageMax: "63 V" } as const;

/** A bike of 48 V: F1 and Q1 in the pack's lead, the coil behind the key. */
const bike = (controller: Readonly<Record<string, string>>) =>
  supplies(4)
    .part("F1", "fuse", { rating: "100 A" })
    .part("Q1", "contactor", COIL)
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "60 A", ...controller })
    .part("M1", "motor-ac", { currentContinuous: "60 A" })
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

const { regenerationCutVoltage: _cut, ...withoutCut } = REGENERATES;
const { voltageMax: _rating, ...withoutRating } = REGENERATES;

checkTable(regenerationIntoOpenContact, {
  fails: [
    {
      name: "key off while it brakes",
      drawing: bike(REGENERATES).build(),
      at: "T1:B+",
      message: "rises",
      severity: "WARNING",
      remedies: ["lower-cut"],
      value: 80,
      limit: 63,
    },
    {
      name: "a brake contact in the interlock: it brakes as the pedal is let up",
      drawing: bike(REGENERATES)
        .part("S6", "micro-switch", { actuator: "brake-pedal" })
        .wires(SMALL, "S1:ignition - S6:common", "S6:nc - T1:interlock")
        .build(),
      at: "T1:B+",
      message: "rises",
      severity: "WARNING",
      value: 80,
      limit: 63,
    },
    {
      name: "a converter on the bus that stands less than the controller",
      drawing: bike({ ...REGENERATES, regenerationCutVoltage: "62 V" })
        .part("T2", "dc-dc-converter", {
          isolated: "yes",
          inputMin: "36 V",
          inputMax: "60 V",
          outputCurrentMax: "10 A",
        })
        .wires(SMALL, "Q1:load - T2:in+", "T2:in- - G1:-", "T2:out+ - F9:1", "T2:out- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "rises",
      severity: "WARNING",
      value: 62,
      limit: 60,
    },
    {
      name: "a fuse alone between pack and controller",
      drawing: supplies(4)
        .part("F1", "fuse", { rating: "100 A" })
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "60 A", ...REGENERATES })
        .part("M1", "motor-permanent-magnet", { currentContinuous: "60 A" })
        .wires(POWER, "G4:+ - F1:1", "F1:2 - T1:B+", "T1:B- - G1:-", "T1:M+ - M1:+", "M1:- - T1:M-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "rises",
      severity: "WARNING",
      value: 80,
      limit: 63,
    },
  ],
  passes: [
    { name: "cut below the rating", drawing: bike({ ...REGENERATES, voltageMax: "90 V" }).build(), at: "T1:B+" },
    { name: "inverter with a stated cut", drawing: inverter320Rated(), at: "T1:B+" },
    {
      name: "a heater on the bus takes it",
      drawing: bike(REGENERATES)
        .part("E1", "heater", { voltage: "48 V", power: "3 kW" })
        .wires(SMALL, "Q1:load - E1:+", "E1:- - G1:-")
        .build(),
      at: "T1:B+",
    },
  ],
  notChecked: [
    {
      name: "cut not stated",
      drawing: bike(withoutCut).build(),
      at: "T1:B+",
      reason: "cut",
      missing: ["T1.regenerationCutVoltage"],
    },
    {
      name: "rating not stated",
      drawing: bike(withoutRating).build(),
      at: "T1:B+",
      reason: "rating",
      missing: ["T1.voltageMax"],
    },
    {
      name: "whether it regenerates not stated",
      drawing: cart().build(),
      at: "T1:B+",
      reason: "regeneration",
      missing: ["T1.regeneration"],
    },
    {
      name: "nobody says what moves the contact ahead of the coil",
      drawing: supplies(4)
        .part("Q1", "contactor", COIL)
        .part("S3", "micro-switch")
        .part("T1", "ac-controller", { logicFeed: "isolated-12v", ...REGENERATES })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - S3:common", "S3:no - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+")
        .wire("T1:logic-", "X9:stud", SMALL)
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [
    { name: "it does not regenerate", drawing: bike({ regeneration: "no" }).build() },
    { name: "no drive", drawing: supplies(2).build() },
  ],
});

/** The inverter of the known-good arrangements with what it stands. */
function inverter320Rated() {
  const project = inverter320().build();
  return {
    ...project,
    parts: project.parts.map((part) =>
      part.designation === "T1" ? { ...part, parameters: { ...part.parameters, voltageMax: "420 V" } } : part,
    ),
  };
}
