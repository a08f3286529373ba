import { expect, test } from "vitest";
import { runChecks } from "../../../../core/checks/run.ts";
import { tractionOnAuxiliary } from "../../../../core/checks/shock/traction-on-auxiliary.ts";
import { tractionOnChassis } from "../../../../core/checks/shock/traction-on-chassis.ts";
import { insulationLow } from "../../../../core/checks/voltages/insulation-low.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { HEAVY, pack, withTwelveVolts } from "../pack.ts";

const CAR_WIRE = { size: "1.5 mm2", length: "1 m", insulation: { volts: "60 V" } };

/** A 96 V pack, and lamps of the 12 V side on car wire. */
const vehicle = () =>
  withTwelveVolts(pack(8))
    .parts("lamp", { voltage: "12 V", power: "5 W" }, "P1", "P2")
    .wires(CAR_WIRE, "F20:2 - P1:+", "P1:- - X1:stud", "F20:2 - P2:+", "P2:- - X1:stud");

const findings = (sketch: ReturnType<typeof vehicle>): readonly string[] =>
  runChecks(analyse(sketch.build()), [tractionOnChassis, tractionOnAuxiliary, insulationLow]).findings.map(
    ({ check, folded }) => `${check.id} with ${[...new Set(folded.map((under) => under.check.id))].join(", ")}`,
  );

test("a pack that touches the 12 V side is one finding, not one for every lamp's wire", () => {
  expect(findings(vehicle())).toEqual([]);
  expect(findings(vehicle().wire("G1:-", "X1:stud", HEAVY))).toEqual(["traction-on-chassis with insulation-low"]);
  expect(findings(vehicle().wire("G3:+", "F20:2", HEAVY))).toEqual([
    "traction-on-auxiliary with traction-on-chassis, insulation-low",
  ]);
});

test("a traction wire with car insulation stands by itself", () => {
  const weak = vehicle().part("E1", "heater", { voltage: "96 V", power: "1 kW" }).wire("G8:+", "E1:+", CAR_WIRE);
  expect(findings(weak.wire("E1:-", "G1:-", HEAVY))).toEqual(["insulation-low with "]);
});
