/** Proposed conductors and fuses as tables for a terminal window, in words of the workshop. */
import {
  DECIDES,
  deviceAt,
  inStates,
  NO_SINGLE,
  openWords,
  SHORT_TAP,
  SHORTFALLS,
  UNPROTECTED,
} from "../../core/documents/size-words.ts";
import { printQuantity } from "../../core/quantity/print.ts";
import type { SizedDevice, SizeDocument, SizedWire } from "./size-json.ts";
import { table, wrap } from "./table.ts";

const amperes = (value: number | null): string =>
  value === null ? "-" : printQuantity(Math.abs(value) < 1e-3 ? 0 : value, "current");
const volts = (value: number | null): string => (value === null ? "-" : printQuantity(value, "voltage"));

function decidedBy({ proposed, protection }: SizedWire): string {
  const decides = proposed.metric?.decides ?? proposed.gauge?.decides;
  if (decides === undefined) return NO_SINGLE;
  if (decides === "device" && protection.device !== null) {
    return deviceAt(protection.how, protection.device, amperes(protection.rating));
  }
  return DECIDES[decides];
}

function remarkOn({ tooThinFor, protection, drawn, open }: SizedWire): string {
  const remarks = [
    ...(drawn === null ? ["not stated yet"] : []),
    ...(tooThinFor.length > 0 ? [`as drawn too thin: ${tooThinFor.map((each) => DECIDES[each]).join(", ")}`] : []),
    ...(protection.how === "unprotected" ? [UNPROTECTED] : []),
    ...(protection.how === "tap" ? [SHORT_TAP] : []),
    ...(open.length > 0 ? ["see below"] : []),
  ];
  return remarks.join("; ");
}

function wireRow(wire: SizedWire): readonly string[] {
  const { metric, gauge } = wire.proposed;
  return [
    wire.wire,
    wire.from ?? "(loose)",
    wire.to ?? "(loose)",
    amperes(wire.current),
    inStates(wire.states),
    wire.drawn?.size ?? "-",
    metric?.size ?? "-",
    gauge?.size ?? "-",
    decidedBy(wire),
    remarkOn(wire),
  ];
}

function deviceRow(device: SizedDevice): readonly string[] {
  const { drawn, proposed, fallsShort, open, bursts } = device;
  const remarks = [
    ...fallsShort.map((each) => SHORTFALLS[each]),
    ...bursts.map(
      ({ part, current, carried }) =>
        `${part} may draw ${amperes(current)}: ${carried === null ? "not known how long it carries that" : `carried for ${printQuantity(carried, "time")} at least`}`,
    ),
    ...(open.length > 0 ? ["see below"] : []),
  ];
  return [
    device.device,
    amperes(device.current),
    inStates(device.states),
    drawn.rating === null ? "-" : amperes(drawn.rating),
    proposed.rating === null ? "-" : amperes(proposed.rating),
    device.most === null ? "-" : amperes(device.most),
    volts(proposed.voltageDc),
    amperes(proposed.interrupting),
    proposed.class ?? "",
    remarks.join("; "),
  ];
}

/** What is missing, field by field, with what it keeps from being decided. */
function missingLines({ wires, devices }: SizeDocument): readonly string[] {
  const byName = [
    ...wires.map(({ wire, open }) => ({ name: wire, open })),
    ...devices.map(({ device, open }) => ({ name: device, open })),
  ];
  return byName.flatMap(({ name, open }) =>
    open.map(({ what, missing }) => {
      const state = missing.length === 0 ? "nothing on the drawing tells it" : `state ${missing.join(", ")}`;
      return wrap(`${name}: not decided ${openWords(what)}: ${state}.`, "  ");
    }),
  );
}

/** The whole report, without a newline at its end. */
export function sizeReport(name: string, sizes: SizeDocument): string {
  const missing = missingLines(sizes);
  return [
    `${name}: proposed conductors and fuses\n`,
    `Wires (${String(sizes.wires.length)}): the smallest standard size that carries the current, keeps the voltage and stands a short circuit`,
    table(
      [
        { title: "wire" },
        { title: "from" },
        { title: "to" },
        { title: "current", align: "right" },
        { title: "in" },
        { title: "drawn", align: "right" },
        { title: "metric", align: "right" },
        { title: "AWG", align: "right" },
        { title: "decided by" },
        { title: "" },
      ],
      sizes.wires.map(wireRow),
    ),
    `\nFuses and breakers (${String(sizes.devices.length)}): the smallest standard rating for the load, and the largest that the wires allow`,
    table(
      [
        { title: "device" },
        { title: "current", align: "right" },
        { title: "in" },
        { title: "drawn", align: "right" },
        { title: "proposed", align: "right" },
        { title: "at most", align: "right" },
        { title: "breaks DC", align: "right" },
        { title: "and", align: "right" },
        { title: "class" },
        { title: "" },
      ],
      sizes.devices.map(deviceRow),
    ),
    `\nNot decided (${String(missing.length)})`,
    missing.length === 0 ? "  (none)" : missing.join("\n"),
    "",
    wrap(
      "Ampacity: 33 CFR 183.425, table 5. Voltage lost: 3 % for drive and controls, 10 % for lamps and heaters. Short circuit: adiabatic, IEC 60364-5-54. Fuses: load at most 80 % (NEC 210.20), wires by 33 CFR 183.455. The --json document shows every figure with its source.",
      "",
    ),
    wrap(
      "These are proposals, not proof of safety: verify them against the makers' data, local rules and a licensed or competent person.",
      "",
    ),
  ].join("\n");
}
