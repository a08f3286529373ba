/** One solved state as tables for a terminal window. */
import { printQuantity } from "../../core/quantity/print.ts";
import type { Network } from "../../core/network/network.ts";
import type { WireEnd } from "../../core/project/document.ts";
import type { SolveDocument, SolvedNet } from "./solve-json.ts";
import { table } from "./table.ts";

const MOST_TERMINALS = 6;

/** Below a microvolt or a nanoampere nothing is left but rounding: no meter and no reader sees it. */
const NOTHING: Readonly<Record<"voltage" | "current", number>> = { voltage: 1e-6, current: 1e-9 };

function print(value: number | null, dimension: "voltage" | "current"): string {
  return value === null ? "-" : printQuantity(Math.abs(value) < NOTHING[dimension] ? 0 : value, dimension);
}

function some(terminals: readonly string[]): string {
  if (terminals.length <= MOST_TERMINALS) return terminals.join(" ");
  return `${terminals.slice(0, MOST_TERMINALS).join(" ")} and ${terminals.length - MOST_TERMINALS} more`;
}

/** The whole report, without a newline at its end. */
export function solveReport(name: string, network: Network, solved: SolveDocument): string {
  const label = (end: WireEnd | null | undefined): string =>
    end === null || end === undefined ? "(loose)" : network.label(end);
  const ends = new Map(network.project.wires.map((wire) => [wire.id, wire.ends]));
  // What no wire goes to and nothing feeds has nothing to say.
  const idle = ({ floating, terminals }: SolvedNet): boolean => floating && terminals.length === 1;
  const left = solved.nets.filter(idle).length;
  // Only leaks set a floating net's voltage: a meter pulls it elsewhere, so no figure is given to measure against.
  const nets = solved.nets
    .filter((net) => !idle(net))
    .map((net) => [
      net.name,
      print(net.floating ? null : net.volts, "voltage"),
      print(net.floating ? null : net.voltsToPackNegative, "voltage"),
      net.floating ? "floating" : "",
      some(net.terminals),
    ]);
  const wires = solved.wires.map(({ wire, id, amps }) => [
    wire,
    label(ends.get(id)?.[0]),
    label(ends.get(id)?.[1]),
    print(amps, "current"),
  ]);
  const parts = solved.parts.map(({ part, closed, amps, volts }) => [
    part,
    closed === undefined ? "" : closed ? "closed" : "open",
    print(amps, "current"),
    print(volts, "voltage"),
  ]);
  const blocks = [
    `${name} in the state ${solved.state}\n`,
    `Nets (${nets.length}): volts to chassis and to the pack's negative`,
    table(
      [
        { title: "net" },
        { title: "to chassis", align: "right" },
        { title: "to pack -", align: "right" },
        { title: "" },
        { title: "terminals" },
      ],
      nets,
    ),
    ...(left === 0 ? [] : [`  Left out: ${left} terminals that no wire and no source reaches.`]),
    `\nWires (${wires.length}): amperes from the first end to the second`,
    table([{ title: "wire" }, { title: "from" }, { title: "to" }, { title: "amperes", align: "right" }], wires),
    `\nParts (${parts.length})`,
    table(
      [{ title: "part" }, { title: "" }, { title: "amperes", align: "right" }, { title: "volts", align: "right" }],
      parts,
    ),
  ];
  if (solved.approximate.length > 0) {
    const assumed = solved.approximate.map((wire) => `${wire.wire} (${wire.assumed.join(" and ")})`).join(", ");
    blocks.push(`\nApproximate: these wires do not state everything, so it was assumed: ${assumed}.`);
  }
  return blocks.join("\n");
}
