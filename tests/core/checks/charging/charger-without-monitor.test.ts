import { chargerWithoutMonitor } from "../../../../core/checks/charging/charger-without-monitor.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { cart, POWER, SMALL } from "../switching/vehicle.ts";
import { CHARGER, chargerBehindDisconnect, withCharger } from "./vehicle.ts";

const LITHIUM = { chemistry: "lifepo4", cells: "4", capacity: "100 Ah", internalMonitor: "no" } as const;
const CHOICES = { blocks: 4, block: LITHIUM } as const;
const FITS = { chemistry: "lifepo4", outputVoltageMax: "58.4 V" } as const;
const MONITOR = { isolated: "yes", outputType: "low-side", outputCurrent: "1 A" } as const;

/** Monitor of the whole pack, supplied from the fused 12 V; its outputs are for the test to use. */
const monitored = (sketch: Drawing, monitor: Readonly<Record<string, string>> = MONITOR): Drawing =>
  sketch
    .part("B1", "battery-monitor", monitor)
    .wires(SMALL, "G4:+ - B1:pack+", "G1:- - B1:B-", "F9:2 - B1:supply+", "B1:supply- - X9:stud");

/** Charger behind a relay whose coil hangs on the monitor's charge output. */
const enabled = (monitor: Readonly<Record<string, string>> = MONITOR, pin = "charge-enable") =>
  monitored(withCharger(FITS, CHOICES), monitor)
    .part("K3", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - K3:common", "K3:no - T3:out+", "T3:out- - G1:-")
    .wires(SMALL, "F9:2 - K3:coil+", `K3:coil- - B1:${pin}`);

/** Monitor in the minus lead: the drive on P-, the charger on the port of the test. */
const ported = (port: string) =>
  cart({ ...CHOICES, disconnect: null })
    .part("T3", "charger", { ...CHARGER, ...FITS })
    .part("B1", "battery-monitor", MONITOR)
    .part("E1", "load", { voltage: "48 V", power: "100 W" })
    .wires(SMALL, "G4:+ - B1:pack+", "F1:2 - E1:+", "E1:- - B1:P-", "F9:2 - B1:supply+", "B1:supply- - X9:stud")
    .wires(POWER, "G1:- - B1:B-", "F1:2 - T3:out+", `T3:out- - ${port}`);

checkTable(chargerWithoutMonitor, {
  fails: [
    {
      name: "no monitor at all",
      drawing: chargerBehindDisconnect(FITS, CHOICES).build(),
      at: "T3:out+",
      message: "unwatched",
      severity: "WARNING",
    },
    {
      name: "a monitor whose outputs nobody wired",
      drawing: monitored(chargerBehindDisconnect(FITS, CHOICES)).build(),
      at: "T3:out+",
      message: "deaf",
      severity: "WARNING",
    },
    {
      name: "the monitor's alarm only lights a lamp",
      drawing: monitored(chargerBehindDisconnect(FITS, CHOICES))
        .part("P1", "lamp", { voltage: "12 V", power: "2 W" })
        .wires(SMALL, "F9:2 - P1:+", "P1:- - B1:alarm")
        .build(),
      at: "T3:out+",
      message: "deaf",
      severity: "WARNING",
    },
    {
      name: "charger on the battery's minus instead of the charge port",
      drawing: ported("G1:-").build(),
      at: "T3:out+",
      message: "deaf",
      severity: "WARNING",
    },
    {
      name: "charger on the port for the drive, whose body diode lets it charge on",
      drawing: ported("B1:P-").build(),
      at: "T3:out+",
      message: "deaf",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "charge relay on the monitor's charge output", drawing: enabled().build(), at: "T3:out+" },
    {
      name: "blocks with monitors of their own",
      drawing: chargerBehindDisconnect(FITS, { blocks: 4, block: { ...LITHIUM, internalMonitor: "yes" } }).build(),
      at: "T3:out+",
    },
    { name: "charger on the monitor's charge port", drawing: ported("B1:C-").build(), at: "T3:out+" },
    {
      name: "the alarm's relay cuts the mains of the inlet",
      drawing: monitored(withCharger({ ...FITS, mainsPlug: "no" }, CHOICES))
        .part("X5", "inlet", { inputVoltage: "230 V" })
        .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(
          SMALL,
          "F1:2 - F3:1",
          "F3:2 - T3:out+",
          "T3:out- - G1:-",
          "X5:N - T3:N",
          "X5:PE - T3:PE",
          "X5:PE - X9:stud",
        )
        .wires(SMALL, "X5:L - K6:common", "K6:nc - T3:L", "F9:2 - K6:coil+", "K6:coil- - B1:alarm")
        .build(),
      at: "T3:out+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the blocks are made of",
      drawing: chargerBehindDisconnect(FITS, { blocks: 2, block: { capacity: "100 Ah" } }).build(),
      at: "T3:out+",
      reason: "chemistry",
      missing: ["G1.chemistry", "G2.chemistry"],
    },
    {
      name: "nobody says whether the blocks have monitors inside",
      drawing: chargerBehindDisconnect(FITS, {
        blocks: 2,
        block: { chemistry: "nmc", cells: "7", capacity: "50 Ah" },
      }).build(),
      at: "T3:out+",
      reason: "internal",
      missing: ["G1.internalMonitor", "G2.internalMonitor"],
    },
    {
      name: "nobody says what the charger delivers",
      drawing: cart(CHOICES)
        .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", chemistry: "lifepo4" })
        .wires(SMALL, "F1:2 - T3:out+", "T3:out- - G1:-")
        .build(),
      at: "T3:out+",
      reason: "idle",
      missing: ["T3.outputVoltageMax"],
    },
    {
      name: "nobody says whether the monitor's outputs pull up or down",
      drawing: monitored(chargerBehindDisconnect(FITS, CHOICES), { isolated: "yes" })
        .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(SMALL, "X9:stud - K6:coil+", "K6:coil- - B1:alarm")
        .build(),
      at: "T3:out+",
      reason: "undecided",
      missing: ["B1.outputType"],
    },
  ],
  doesNotApply: [
    { name: "lead-acid", drawing: chargerBehindDisconnect().build() },
    { name: "no charger", drawing: cart(CHOICES).build() },
  ],
});
