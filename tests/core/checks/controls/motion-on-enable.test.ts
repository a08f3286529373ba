import { motionOnEnable } from "../../../../core/checks/controls/motion-on-enable.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { twoCuts } from "../known-good.ts";
import { cart, COIL, POWER, SMALL, stepCar, supplies } from "../switching/vehicle.ts";
import { boat, kart } from "./vehicle.ts";

/** A truck with a bridge of two contactors around its motor; `from` feeds the direction lever. */
const truck = (from: string, third: Readonly<Record<string, string>> = { actuator: "door" }) =>
  supplies(2)
    .part("F1", "fuse", { rating: "100 A" })
    .parts("contactor", { ...COIL, poles: "2" }, "Q2", "Q3")
    .part("Q1", "contactor", COIL)
    .part("S2", "selector-switch")
    .part("S3", "micro-switch", { actuator: "seat" })
    .part("S4", "micro-switch", { actuator: "throttle-pedal" })
    .part("S5", "micro-switch", third)
    .part("M1", "motor-permanent-magnet", { currentContinuous: "80 A", resistance: "0.5 ohm" })
    .wires(POWER, "G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - Q2:line", "Q1:load - Q3:line", "Q2:load - M1:+")
    .wires(POWER, "Q3:load - M1:-", "M1:- - Q2:line-2", "M1:+ - Q3:line-2", "Q2:load-2 - G1:-", "Q3:load-2 - G1:-")
    .wires(
      SMALL,
      "S1:ignition - Q1:coil+",
      "Q1:coil- - X9:stud",
      "S1:ignition - S3:common",
      "S3:no - S4:common",
      "S3:no - S5:common",
    )
    .wires(SMALL, `${from} - S2:common`, "S2:a - Q2:coil+", "S2:b - Q3:coil+", "Q2:coil- - X9:stud")
    .wire("Q3:coil-", "X9:stud", SMALL);

/** A seat contact in the interlock of a controller. */
const seated = (parameters: Readonly<Record<string, string>>) =>
  cart({ controller: parameters })
    .part("S3", "micro-switch", { actuator: "seat" })
    .wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock");

checkTable(motionOnEnable, {
  fails: [
    {
      name: "truck that starts when someone sits down",
      drawing: truck("S3:no").build(),
      at: "M1:+",
      message: "direction",
      severity: "DANGER",
    },
    {
      name: "controller without lockout behind a key",
      drawing: kart("S1:ignition", { highPedalLockout: "no" }).build(),
      at: "T1:B+",
      message: "throttle",
      severity: "DANGER",
      remedies: ["lockout-on"],
    },
    {
      name: "controller without lockout behind a seat contact",
      drawing: seated({ highPedalLockout: "no" }).build(),
      at: "T1:B+",
      message: "throttle",
      severity: "DANGER",
    },
    {
      name: "truck that starts with the key, the seat contact beside its chain",
      drawing: truck("S1:ignition").build(),
      at: "M1:+",
      message: "direction",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "truck whose lever hangs on the pedal", drawing: truck("S4:no").build(), at: "M1:+" },
    { name: "lockout stated", drawing: seated({ highPedalLockout: "yes" }).build(), at: "T1:B+" },
    { name: "kart with a lockout", drawing: kart("S1:ignition", { highPedalLockout: "yes" }).build(), at: "T1:B+" },
    { name: "step car: the pedal closes the motor's contactor", drawing: stepCar().build(), at: "M1:A1" },
    { name: "two cuts behind the pedal", drawing: twoCuts().build(), at: "T1:B+" },
  ],
  notChecked: [
    {
      name: "lockout not stated",
      drawing: cart().build(),
      at: "T1:B+",
      reason: "lockout",
      missing: ["T1.highPedalLockout"],
    },
    {
      name: "nobody says what moves a contact ahead of the lever",
      drawing: truck("S5:nc", {}).build(),
      at: "M1:+",
      reason: "actuator",
      missing: ["S5.actuator"],
    },
    {
      name: "nobody says what moves a contact in the interlock",
      drawing: cart()
        .part("S5", "micro-switch")
        .wires(SMALL, "S1:ignition - S5:common", "S5:no - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S5.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no drive", drawing: supplies(2).build() },
    { name: "a boat that only its key starts", drawing: boat().build() },
  ],
});
