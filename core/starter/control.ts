/** The key's circuit: what has to be fed for the drive, in the order in which it can be stopped. */
import type { Draft } from "./draft.ts";
import type { Vehicle } from "./vehicle.ts";

const STOP = { contacts: "1", contact: "break" };

/**
 * Key, inertia switch, emergency stop, the charger's inhibit contact, then coils and the pedals' contacts. Fed from the
 * fuse box, or through a small fuse from the pack where the controller's electronics are.
 */
export function control(draft: Draft, vehicle: Vehicle): void {
  const { answers, looks, keyContact } = vehicle;
  const packFed = answers.logic === "pack-fed";
  const feed = looks.key("RD");
  const fed = looks.key("VT");
  draft.part("S1", "key-switch", "cab", packFed ? keyContact : vehicle.contact12);
  draft.part("S5", "inertia-switch", "cab", keyContact);
  draft.part("S9", "emergency-stop", "cab", { ...STOP, ...keyContact });
  draft.part("S6", "micro-switch", "cab", { actuator: "brake-pedal", ...keyContact });
  draft.part("S3", "micro-switch", "cab", { actuator: "throttle-pedal", ...keyContact });
  draft.part("B1", "throttle-two-wire", "cab", { resistanceIdle: "0 ohm", resistanceFull: "5 kohm", sprung: "yes" });
  draft.wire(packFed ? draft.tap("X8") : "F21:2", "S1:battery", feed);
  draft.wire("S1:ignition", draft.tap("X6"), fed);
  draft.wire(draft.tap("X6"), "S5:common", fed);
  draft.wire("S5:nc", "S9:11", fed);
  let at = "S9:12";
  if (answers.charger) {
    draft.wire(at, "T3:inhibit-1", fed);
    at = "T3:inhibit-2";
  }
  if (answers.monitor && !packFed) {
    draft.part("K5", "relay", "12 V box", { ...vehicle.relayCoil12, ...vehicle.contact12Relay });
    draft.wire(at, "K5:common", fed);
    at = "K5:no";
    draft.wire(draft.tap("X6"), "K5:coil+", fed);
    draft.wire("K5:coil-", "B3:discharge-enable", looks.low("signal", "BN"));
  }
  draft.wire(at, draft.tap("X7"), fed);
  draft.wire(packFed ? draft.tap("X7") : draft.tap("X6"), "T1:logic+", fed);
  if (!packFed) draft.wire("T1:logic-", draft.tap("X4"), looks.low("signal", "BK"));
  const sink = looks.key("BN");
  draft.wire(draft.tap("X7"), "Q1:coil+", fed);
  draft.wire("Q1:coil-", "T1:contactor-out", sink);
  draft.wire(draft.tap("X7"), "K1:coil+", fed);
  draft.wire("K1:coil-", "T1:precharge-out", sink);
  draft.wire(draft.tap("X7"), "S6:common", fed);
  draft.wire("S6:nc", "S3:common", fed);
  draft.wire("S3:no", "T1:interlock", fed);
  draft.wire("B1:1", "T1:throttle-1", looks.key("WH"));
  draft.wire("B1:2", "T1:throttle-2", looks.key("GY"));
  if (answers.reversing) direction(draft, vehicle);
}

/** A selector gives forward or reverse; a series motor's field is turned round by the contactors beside it. */
function direction(draft: Draft, vehicle: Vehicle): void {
  const { answers, looks, keyContact } = vehicle;
  const fed = looks.key("VT");
  draft.part("S8", "selector-switch", "cab", { centre: "yes", both: "no", ...keyContact });
  draft.wire(draft.tap("X7"), "S8:common", fed);
  const ways = [
    ["a", "forward", "Q5"],
    ["b", "reverse", "Q6"],
  ] as const;
  for (const [position, pin, contactor] of ways) {
    draft.wire(`S8:${position}`, `T1:${pin}`, fed);
    if (answers.motor !== "series") continue;
    draft.wire(`S8:${position}`, `${contactor}:coil+`, fed);
    draft.wire(`${contactor}:coil-`, answers.logic === "pack-fed" ? draft.tap("X3") : draft.tap("X4"), looks.key("BK"));
  }
}
