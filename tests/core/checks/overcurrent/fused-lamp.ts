/** A 12 V battery of stated resistance, a fuse right on it, and a lamp at the far end of two wires alike. */
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import type { Parameters, Project } from "../../../../core/project/document.ts";

export const PVC: WireOptions = {
  size: "1 mm2",
  length: "1 m",
  insulation: { material: "PVC", volts: "60 V", temperature: "70 C" },
};

export interface FusedLamp {
  readonly fuse: Parameters;
  readonly wire?: WireOptions;
  readonly battery?: Parameters;
  readonly load?: Parameters;
}

export function fusedLamp({ fuse, wire = {}, battery = {}, load = {} }: FusedLamp): Project {
  return drawing()
    .part("G20", "battery-block", {
      duty: "auxiliary",
      chemistry: "agm-lead",
      cells: "6",
      resistance: "5 mohm",
      ...battery,
    })
    .part("F1", "fuse", { voltageDc: "32 V", interrupting: "5 kA", ...fuse })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W", ...load })
    .wire("G20:+", "F1:1", { ...PVC, size: "25 mm2", length: "0.1 m" })
    .wire("F1:2", "P1:+", { ...PVC, ...wire })
    .wire("P1:-", "G20:-", { ...PVC, ...wire })
    .build();
}
