/**
 * Drawings made for the pictures alone, where no two of a check's table differ in just the mistake. The check itself
 * proves them like the others: the wrong one has a finding, the right one none.
 */
import type { Project } from "../../core/project/document.ts";
import { drawing } from "../harness/drawing.ts";
import type { Drawing, WireOptions } from "../harness/drawing.ts";

export interface OwnDrawings {
  readonly wrong: OwnDrawing;
  readonly right: OwnDrawing;
}

interface OwnDrawing {
  readonly name: string;
  readonly drawing: Project;
}

const BATTERY = { duty: "auxiliary", chemistry: "agm-lead", capacity: "60 Ah", cells: "6", resistance: "8 mohm" };
const WIRE: WireOptions = {
  size: "1.5 mm2",
  length: "1 m",
  insulation: { material: "PVC", volts: "60 V", temperature: "70 C" },
};

const battery = (): Drawing => drawing().part("G20", "battery-block", BATTERY);

const lamp = (fused: boolean): Project => {
  const sketch = battery().part("P1", "lamp", { voltage: "12 V", power: "21 W" });
  if (!fused) return sketch.wires(WIRE, "G20:+ - P1:+", "P1:- - G20:-").build();
  return sketch
    .part("F1", "fuse", { rating: "5 A", voltageDc: "32 V", interrupting: "2 kA", class: "blade" })
    .wire("G20:+", "F1:1", { ...WIRE, length: "0.1 m", sheath: true })
    .wires(WIRE, "F1:2 - P1:+", "P1:- - G20:-")
    .build();
};

const heater = (size: string): Project =>
  battery()
    .part("E1", "heater", { voltage: "12 V", power: "120 W" })
    .wires({ ...WIRE, length: "5 m", size }, "G20:+ - E1:+", "E1:- - G20:-")
    .build();

const twoLamps = (name: string): Project =>
  battery()
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .twin(name, "lamp", { voltage: "12 V", power: "21 W" })
    .build();

const lamps = (returns: boolean): Project => {
  const sketch = battery()
    .parts("lamp", { voltage: "12 V", power: "21 W" }, "P1", "P2")
    .wires(WIRE, "G20:+ - P1:+", "G20:+ - P2:+", "P1:- - G20:-");
  return (returns ? sketch.wires(WIRE, "P2:- - G20:-") : sketch).build();
};

const onKey = (lampAt: "F1:2" | "S1:ignition"): Project =>
  battery()
    .part("F1", "fuse", { rating: "5 A", voltageDc: "32 V", interrupting: "2 kA", class: "blade" })
    .part("S1", "key-switch")
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wires(WIRE, "G20:+ - F1:1", "F1:2 - S1:battery", "P1:- - G20:-")
    .wire(lampAt, "P1:+", WIRE)
    .build();

const fuse = (rating: string): Project =>
  battery()
    .part("F1", "fuse", { rating, voltageDc: "32 V", interrupting: "5 kA", class: "bolted-strip" })
    .part("E1", "heater", { voltage: "12 V", power: "600 W" })
    .wires({ ...WIRE, size: "50 mm2", length: "0.1 m" }, "G20:+ - F1:1")
    .wires({ ...WIRE, size: "16 mm2" }, "F1:2 - E1:+", "E1:- - G20:-")
    .build();

/** By the check's id. */
export const OWN_DRAWINGS: Readonly<Record<string, OwnDrawings>> = {
  "branch-unprotected": {
    wrong: { name: "a lamp straight on the battery", drawing: lamp(false) },
    right: { name: "a lamp behind a fuse", drawing: lamp(true) },
  },
  "designation-duplicate": {
    wrong: { name: "two lamps P1", drawing: twoLamps("P1") },
    right: { name: "each lamp has a name of its own", drawing: twoLamps("P2") },
  },
  "protection-oversized": {
    wrong: { name: "400 A before 16 mm²", drawing: fuse("400 A") },
    right: { name: "60 A before 16 mm²", drawing: fuse("60 A") },
  },
  "standing-drain": {
    wrong: { name: "a lamp ahead of the key", drawing: onKey("F1:2") },
    right: { name: "a lamp behind the key", drawing: onKey("S1:ignition") },
  },
  "terminal-unconnected": {
    wrong: { name: "a lamp without its return", drawing: lamps(false) },
    right: { name: "a lamp with both its wires", drawing: lamps(true) },
  },
  "voltage-drop": {
    wrong: { name: "a heater on long thin wires", drawing: heater("1.5 mm2") },
    right: { name: "the same heater on thick wires", drawing: heater("6 mm2") },
  },
};
