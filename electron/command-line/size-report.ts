/** Proposed conductors and fuses as tables for a terminal window, in words of the workshop. */
import { printQuantity } from "../../core/quantity/print.ts";
import type { SizedDevice, SizeDocument, SizedWire } from "./size-json.ts";
import { table, wrap } from "./table.ts";

/** What decided a size, for someone without schooling in electronics. */
const DECIDES: Readonly<Record<string, string>> = {
  ampacity: "its current",
  "voltage-drop": "voltage lost",
  "short-circuit": "short circuit",
  device: "the fuse before it",
  "least-size": "least size in a vehicle",
  bond: "bond of the case",
};

const OPEN: Readonly<Record<string, string>> = {
  ampacity: "whether it carries its current",
  "voltage-drop": "how much voltage it loses",
  "short-circuit": "whether it stands a short circuit",
  device: "whether the fuse before it protects it",
  insulation: "how hot it may get (read as 60 °C, the lowest class)",
  rating: "which rating the load needs",
  cable: "which rating its wires allow",
  interrupting: "how large a short circuit it has to break",
  voltage: "how much voltage it has to break",
  inrush: "whether it stands the inrush",
};

const SHORT: Readonly<Record<string, string>> = {
  load: "too small for its load",
  cable: "too large for its wires",
  voltage: "not for this voltage",
  interrupting: "cannot break the short circuit",
};

const amperes = (value: number | null): string =>
  value === null ? "-" : printQuantity(Math.abs(value) < 1e-3 ? 0 : value, "current");
const volts = (value: number | null): string => (value === null ? "-" : printQuantity(value, "voltage"));

function decidedBy({ proposed, protection }: SizedWire): string {
  const decides = proposed.metric?.decides ?? proposed.gauge?.decides;
  if (decides === undefined) return "more than one conductor carries";
  if (decides === "device" && protection.device !== null) {
    const place = protection.how === "ahead" ? "behind" : "before";
    return `${protection.device} (${amperes(protection.rating)}) ${place} it`;
  }
  return DECIDES[decides] ?? decides;
}

function remarkOn({ tooThinFor, protection, drawn, open }: SizedWire): string {
  const remarks = [
    ...(drawn === null ? ["not stated yet"] : []),
    ...(tooThinFor.length > 0
      ? [`as drawn too thin: ${tooThinFor.map((each) => DECIDES[each] ?? each).join(", ")}`]
      : []),
    ...(protection.how === "unprotected" ? ["no fuse protects it"] : []),
    ...(protection.how === "tap" ? ["short tap"] : []),
    ...(open.length > 0 ? ["see below"] : []),
  ];
  return remarks.join("; ");
}

const inStates = (states: readonly string[]): string =>
  states.length <= 2 ? states.join(", ") : `${states.slice(0, 2).join(", ")} and ${String(states.length - 2)} more`;

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
    ...fallsShort.map((each) => SHORT[each] ?? each),
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
      return wrap(`${name}: not decided ${OPEN[what] ?? what}: ${state}.`, "  ");
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
