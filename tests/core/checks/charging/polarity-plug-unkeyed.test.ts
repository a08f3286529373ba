import { polarityPlugUnkeyed } from "../../../../core/checks/charging/polarity-plug-unkeyed.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { cart, POWER, SMALL, supplies } from "../switching/vehicle.ts";
import { withCharger } from "./vehicle.ts";

const EITHER_WAY = { positions: "2", keyed: "no" } as const;

/** A charger behind a plug. */
const charger = (plug: Readonly<Record<string, string>>) =>
  withCharger()
    .part("X4", "connector", plug)
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - X4:1a", "X4:1b - T3:out+", "T3:out- - X4:2b", "X4:2a - G1:-");

/** A small consumer of the 12 V side behind a plug. */
const small = (
  kind: string,
  parameters: Readonly<Record<string, string>>,
  plug: Readonly<Record<string, string>>,
): Drawing =>
  supplies(0)
    .part("X4", "connector", plug)
    .part("P1", kind, parameters)
    .wires(SMALL, "S1:ignition - X4:1b", "X9:stud - X4:2b", "X4:1a - P1:+", "X4:2a - P1:-");

checkTable(polarityPlugUnkeyed, {
  fails: [
    {
      name: "charger plug that mates either way",
      drawing: charger(EITHER_WAY).build(),
      at: "X4",
      message: "unkeyed",
      severity: "NOTICE",
      remedies: ["keyed"],
    },
    {
      name: "buzzer with a polarity behind a plug that mates either way",
      drawing: small("buzzer", { voltage: "12 V", needsPolarity: "yes" }, EITHER_WAY).build(),
      at: "X4",
      message: "unkeyed",
      severity: "NOTICE",
    },
    {
      name: "the battery's own plug in front of the controller",
      drawing: supplies(4)
        .part("X4", "connector", EITHER_WAY)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
        .wires(POWER, "G4:+ - X4:2a", "G1:- - X4:1a", "X4:2b - T1:B+", "X4:1b - T1:B-")
        .build(),
      at: "X4",
      message: "unkeyed",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "charger plug that mates one way", drawing: charger({ positions: "2", keyed: "yes" }).build(), at: "X4" },
    {
      name: "converter plug that mates one way",
      drawing: cart()
        .part("X4", "connector", { positions: "2", keyed: "yes" })
        .part("T2", "dc-dc-converter", { isolated: "yes" })
        .wires(SMALL, "F1:2 - X4:1a", "G1:- - X4:2a", "X4:1b - T2:in+", "X4:2b - T2:in-")
        .build(),
      at: "X4",
    },
    {
      name: "buzzer behind a keyed plug",
      drawing: small("buzzer", { voltage: "12 V" }, { positions: "2", keyed: "yes" }).build(),
      at: "X4",
    },
  ],
  notChecked: [
    {
      name: "nobody says whether the plug is keyed",
      drawing: charger({ positions: "2" }).build(),
      at: "X4",
      reason: "unstated",
      missing: ["X4.keyed"],
    },
    {
      name: "nobody says whether the buzzer has a polarity",
      drawing: small("buzzer", { voltage: "12 V" }, EITHER_WAY).build(),
      at: "X4",
      reason: "polarity",
      missing: ["P1.needsPolarity"],
    },
  ],
  doesNotApply: [
    { name: "no plug", drawing: cart().build() },
    {
      name: "a lamp that takes either polarity",
      drawing: small("lamp", { voltage: "12 V", needsPolarity: "no" }, EITHER_WAY).build(),
    },
    {
      name: "a plug of three pins",
      drawing: small("buzzer", { voltage: "12 V", needsPolarity: "yes" }, { positions: "3", keyed: "no" }).build(),
    },
  ],
});
