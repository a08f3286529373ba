/** What a vehicle may have besides: gauge, isolation monitor, heater; and the bonds of every metal case. */
import { blade } from "./auxiliary.ts";
import type { Draft } from "./draft.ts";
import { HEATER_POWER } from "./figures.ts";
import { branchFuse } from "./traction.ts";
import type { Vehicle } from "./vehicle.ts";

/** With a shunt the gauge reads the current across it, else the pack's voltage. */
export function gauge(draft: Draft, vehicle: Vehicle): void {
  const { answers, figures, looks } = vehicle;
  draft.part("P1", "gauge", "cab", {
    alwaysOn: "no",
    isolated: "yes",
    senseMax: answers.shunt ? "100 mV" : `${figures.partVolts} V`,
    supplyMin: "8 V",
    supplyMax: "32 V",
  });
  const low = looks.low("signal", "RD");
  // One that counts what passes its shunt must see the charging as well.
  const counting = blade(draft, vehicle, "F29", 5);
  draft.wire(counting, "P1:supply+", low);
  draft.wire("P1:supply-", draft.tap("X4"), looks.low("signal", "BK"));
  branchFuse(draft, "F6", 2);
  branchFuse(draft, "F7", 2);
  draft.wire(answers.shunt ? "B2:sense-line" : draft.tap("X9"), "F6:1", looks.stub);
  draft.wire(answers.shunt ? "B2:sense-load" : draft.tap("X3"), "F7:1", looks.stub);
  draft.wire("F6:2", "P1:sense+", looks.sense);
  draft.wire("F7:2", "P1:sense-", looks.sense);
}

export function isolationMonitor(draft: Draft, vehicle: Vehicle): void {
  const { figures, looks } = vehicle;
  draft.part("B4", "isolation-monitor", "drive box", {
    alwaysOn: "no",
    internalResistance: "1 Mohm",
    threshold: `${Math.ceil((figures.highest * 500) / 1e4) * 10} kohm`,
  });
  branchFuse(draft, "F13", 2);
  branchFuse(draft, "F14", 2);
  draft.wire(draft.tap("X9"), "F13:1", looks.stub);
  draft.wire("F13:2", "B4:+", looks.sense);
  draft.wire(draft.tap("X3"), "F14:1", looks.stub);
  draft.wire("F14:2", "B4:-", looks.sense);
  draft.part("X15", "chassis-point", "motor bay", { structure: "body" });
  draft.wire("B4:chassis", "X15:stud", looks.low("signal", "BK"));
  const feed = blade(draft, vehicle, "F27", 5);
  draft.wire(feed, "B4:supply+", looks.low("signal", "RD"));
  draft.wire("B4:supply-", draft.tap("X4"), looks.low("signal", "BK"));
  draft.part("P9", "lamp", "cab", {
    alwaysOn: "no",
    voltage: "12 V",
    voltageMax: "16 V",
    power: "2 W",
    needsPolarity: "no",
  });
  draft.wire(feed, "P9:+", looks.low("signal", "RD"));
  draft.wire("P9:-", "B4:alarm", looks.low("signal", "BN"));
}

/** A heater of 1 kW behind the contactor, with a relay of its own; its switch is fed once the bus is charged. */
export function heater(draft: Draft, vehicle: Vehicle): void {
  const { figures, looks, contact12 } = vehicle;
  const amperes = (HEATER_POWER / figures.nominal) * (figures.highest / figures.nominal);
  const rating = [5, 10, 15, 20, 25, 30, 35, 40].find((each) => each * 0.8 >= amperes) ?? 40;
  const lead = amperes > 15 ? looks.chargeLead : looks.branch;
  draft.part("E1", "heater", "motor bay", {
    alwaysOn: "no",
    voltage: `${Math.round(figures.nominal)} V`,
    voltageMax: `${figures.partVolts} V`,
    power: `${HEATER_POWER} W`,
    isolation: "20 Mohm",
  });
  branchFuse(draft, "F12", rating);
  draft.part("K4", "relay", "drive box", { ...vehicle.relayCoil12, ...vehicle.relayContact(50) });
  draft.part("S10", "switch", "cab", { poles: "1", ...contact12 });
  draft.wire("Q1:load", "F12:1", looks.stub);
  draft.wire("F12:2", "K4:common", lead);
  draft.wire("K4:no", "E1:+", lead);
  draft.wire("E1:-", draft.tap("X3"), lead);
  draft.wire(draft.tap("X5"), "S10:common", looks.low("signal", "VT"));
  draft.wire("S10:out", "K4:coil+", looks.low("signal", "YE"));
  draft.wire("K4:coil-", draft.tap("X4"), looks.low("signal", "BK"));
}

/** Every metal case of the traction circuit to a chassis point of its own. */
export function bonds(draft: Draft, { looks }: Vehicle): void {
  ["T1", "M1", "T2", "T3", "E1"].forEach((name, index) => {
    if (!draft.has(name)) return;
    const point = `X${30 + index}`;
    draft.part(point, "chassis-point", "motor bay", { structure: "body" });
    draft.wire(`${name}:case`, `${point}:stud`, looks.bond, { length: 0.3 });
  });
}
