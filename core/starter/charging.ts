/** On-board charger behind a relay that only the mains pulls in, and the monitor that may stop it. */
import { blade } from "./auxiliary.ts";
import type { Draft } from "./draft.ts";
import { branchFuse } from "./traction.ts";
import type { Vehicle } from "./vehicle.ts";

const CHARGE_CURRENT = 15;

export function charging(draft: Draft, vehicle: Vehicle): void {
  const { answers, figures, looks } = vehicle;
  draft.part("T3", "charger", "motor bay", {
    alwaysOn: "no",
    mainsPlug: "yes",
    chemistry: answers.pack.chemistry,
    outputVoltageMax: `${Math.round(figures.highest * 10) / 10} V`,
    outputCurrentMax: `${CHARGE_CURRENT} A`,
    isolated: "yes",
    inputVoltage: "230 V",
    inputCurrentMax: "16 A",
    outputCapacitance: "0 uF",
    batteryDetect: "yes",
    inhibitFollows: "plugged",
    residualCurrentDevice: "yes",
    isolation: "20 Mohm",
  });
  branchFuse(draft, "F4", 20);
  draft.part("K3", "relay", "drive box", { ...vehicle.relayCoil12, ...vehicle.relayContact(30) });
  draft.wire(draft.tap("X9"), "F4:1", looks.stub);
  draft.wire("F4:2", "K3:no", looks.chargeLead);
  draft.wire("K3:common", "T3:out+", looks.chargeLead);
  draft.wire(draft.tap("X3"), "T3:out-", looks.chargeLead);
  draft.wire("T3:aux+", "K3:coil+", looks.low("signal", "VT"));
  if (!answers.monitor) {
    draft.wire("K3:coil-", "T3:aux-", looks.low("signal", "BN"));
    return;
  }
  draft.wire("K3:coil-", "B3:charge-enable", looks.low("signal", "BN"));
  draft.wire("T3:aux-", draft.tap("X4"), looks.low("signal", "BK"));
}

/** The monitor lies on the 12 V side and sees the pack through two small fuses; its buzzer speaks before it cuts off. */
export function monitor(draft: Draft, vehicle: Vehicle): void {
  const { looks } = vehicle;
  draft.part("B3", "battery-monitor", "drive box", {
    alwaysOn: "yes",
    outputType: "low-side",
    outputCurrent: "1 A",
    outputVoltage: "60 V",
    isolated: "yes",
    currentDischarge: "500 A",
    currentCharge: "100 A",
  });
  const feed = blade(draft, vehicle, "F26", 5);
  draft.wire(feed, "B3:supply+", looks.low("signal", "RD"));
  draft.wire("B3:supply-", draft.tap("X4"), looks.low("signal", "BK"));
  branchFuse(draft, "F8", 2);
  branchFuse(draft, "F9", 2);
  draft.wire(draft.tap("X9"), "F8:1", looks.stub);
  draft.wire("F8:2", "B3:pack+", looks.sense);
  draft.wire(draft.tap("X3"), "F9:1", looks.stub);
  draft.wire("F9:2", "B3:B-", looks.sense);
  draft.part("P8", "buzzer", "cab", {
    alwaysOn: "no",
    voltage: "12 V",
    voltageMax: "16 V",
    power: "2 W",
    needsPolarity: "yes",
  });
  draft.wire(feed, "P8:+", looks.low("signal", "RD"));
  draft.wire("P8:-", "B3:alarm", looks.low("signal", "BN"));
}
