/** One solved state as tables for a terminal window. */
import { printQuantity } from "../../core/quantity/print.ts";
import type { Dimension } from "../../core/quantity/kinds.ts";
import type { SolveDocument } from "./solve-json.ts";
import { table } from "./table.ts";

const MOST_TERMINALS = 6;

function print(value: number | null, dimension: Dimension): string {
  return value === null ? "-" : printQuantity(value, dimension);
}

function some(terminals: readonly string[]): string {
  if (terminals.length <= MOST_TERMINALS) return terminals.join(" ");
  return `${terminals.slice(0, MOST_TERMINALS).join(" ")} and ${terminals.length - MOST_TERMINALS} more`;
}

/** The whole report, without a newline at its end. */
export function solveReport(name: string, solved: SolveDocument): string {
  const nets = solved.nets.map((net) => [
    net.name,
    print(net.volts, "voltage"),
    print(net.voltsToPackNegative, "voltage"),
    net.floating ? "floating" : "",
    some(net.terminals),
  ]);
  const wires = solved.wires.map(({ wire, amps }) => [wire, print(amps, "current")]);
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
    `\nWires (${wires.length}): amperes from end A to end B`,
    table([{ title: "wire" }, { title: "amperes", align: "right" }], wires),
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
