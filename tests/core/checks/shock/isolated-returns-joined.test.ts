import { isolatedReturnsJoined } from "../../../../core/checks/shock/isolated-returns-joined.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const CONVERTER = { outputVoltage: "12 V", outputCurrentMax: "5 A", inputMin: "9 V" };

/** A 12 V to 12 V converter that feeds a controller's isolated logic. */
const logic = (isolated: Parameters) =>
  withTwelveVolts(pack(12))
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
    .part("T4", "dc-dc-converter", { ...CONVERTER, ...isolated })
    .wires(HEAVY, "G12:+ - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - T1:logic+", "T4:out- - T1:logic-");

/** Gauges on one isolated supply: P1 measures at the pack's minus, P2 and P3 where a case says. */
const gauges = (two: Parameters, references: readonly string[]) =>
  withTwelveVolts(pack(6))
    .part("T4", "dc-dc-converter", { ...CONVERTER, isolated: "yes" })
    .part("B1", "shunt", { ratedCurrent: "200 A" })
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .part("P1", "gauge", { senseMax: "150 V", isolated: "no" })
    .part("P2", "gauge", { senseMax: "150 V", ...two })
    .wires(HEAVY, "G6:+ - E1:+", "E1:- - B1:line", "B1:load - G1:-")
    .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out+ - P2:supply+")
    .wires(SMALL, "T4:out- - P1:supply-", "T4:out- - P2:supply-", "P1:sense- - G1:-", "P1:sense+ - G6:+")
    .wires(SMALL, ...references);

const NO = { isolated: "no" };

checkTable(isolatedReturnsJoined, {
  fails: [
    {
      name: "one wire too many from the output's minus to the chassis",
      drawing: logic({ isolated: "yes" }).wires(SMALL, "T4:out- - X1:stud").build(),
      at: "T4:out-",
      message: "converter",
      severity: "WARNING",
    },
    {
      name: "a lamp's wire from the output's plus that leads to the 12 V plus",
      drawing: logic({ isolated: "yes" }).wires(SMALL, "T4:out+ - F20:2").build(),
      at: "T4:out-",
      message: "converter",
      severity: "WARNING",
    },
    {
      name: "two gauges on one supply, one at the pack's minus, one at its plus",
      drawing: gauges(NO, ["P2:sense- - G6:+"]).build(),
      at: "P1:sense-",
      message: "instruments",
      severity: "WARNING",
    },
    {
      name: "two gauges on one supply, one at the pack's minus, one on the chassis",
      drawing: gauges(NO, ["P2:sense- - X1:stud"]).build(),
      at: "P1:sense-",
      message: "instruments",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "an isolated converter on its own", drawing: logic({ isolated: "yes" }).build(), at: "T4:out-" },
    {
      name: "two gauges on one supply that measure at one point",
      drawing: gauges(NO, ["P2:sense- - G1:-"]).build(),
      at: ["P1", "P2"],
    },
    {
      name: "two gauges on one supply, at either end of one shunt",
      drawing: gauges(NO, ["P2:sense- - B1:sense-line"]).build(),
      at: ["P1", "P2"],
    },
    {
      name: "two gauges at different potentials, one of them isolated",
      drawing: gauges({ isolated: "yes" }, ["P2:sense- - G6:+"]).build(),
      at: "P1",
    },
  ],
  notChecked: [
    {
      name: "a converter of unstated isolation with its two minus on the chassis",
      drawing: logic({}).wires(SMALL, "T4:out- - X1:stud").build(),
      at: "T4:out-",
      reason: "converter",
      missing: ["T4.isolated"],
    },
    {
      name: "two gauges at different potentials, one of unstated isolation",
      drawing: gauges({}, ["P2:sense- - G6:+"]).build(),
      at: "P2",
      reason: "instrument",
      missing: ["P2.isolated"],
    },
  ],
  doesNotApply: [
    { name: "a converter without isolation", drawing: logic(NO).wires(SMALL, "T4:out- - X1:stud").build() },
    {
      name: "a vehicle whose pack and 12 V side share their minus on purpose",
      drawing: logic({ isolated: "yes" }).wires(SMALL, "T4:out- - X1:stud").sharedNegative().build(),
    },
  ],
});
