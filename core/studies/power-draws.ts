/** Which parts take power from one side of the vehicle in a solved state, and how much. */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import type { Element, Role } from "../parts/element.ts";
import type { Ampere, Volt, Watt } from "../quantity/kinds.ts";
import type { MissingField } from "./missing-field.ts";

export interface PowerDraw {
  readonly part: NetworkPart;
  /** As solved. */
  readonly power: Watt;
  /** What its elements would draw at this voltage. */
  atRated(volts: Volt): Ampere;
}

/** What takes power from a supply, by role; contacts and wires only lose some of it. */
const TAKES: ReadonlySet<Role> = new Set<Role>(["load", "coil", "sense", "resistor", "leak"]);
/** Metal, and what passes the supply on to a load: switched-on outputs and conducting diodes. */
const PASSES: readonly Role[] = ["conductor", "contact", "protection", "shunt", "diode", "driver"];
const LEAST: Watt = 1e-3;

/**
 * The parts that draw from a side whose poles are given as the nodes joined to them, greatest first, and the fields
 * for want of which the draw of one is assumed. What sits in series behind a load is not listed.
 */
export function drawsOf(
  analysis: Analysis,
  state: SolvedState,
  plus: ReadonlySet<NodeIndex>,
  minus: ReadonlySet<NodeIndex>,
): { readonly draws: readonly PowerDraw[]; readonly assumed: readonly MissingField[] } {
  const [from] = plus;
  if (from === undefined) return { draws: [], assumed: [] };
  const hot = analysis.reach(state, from, { through: PASSES });
  const isHot = (node: NodeIndex): boolean => hot.has(node) && !minus.has(node);
  const draws = analysis.network.parts.flatMap((part): PowerDraw[] => {
    const own = analysis.network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .flatMap(({ index, role, a, b }) => {
        const element = state.elements[index];
        if (element === undefined || !TAKES.has(role) || isHot(a) === isHot(b)) return [];
        const power = state.between(a, b) * (state.currents[index] ?? 0);
        return power > 0 ? [{ element, power }] : [];
      });
    const power = own.reduce((sum, each) => sum + each.power, 0);
    if (power < LEAST) return [];
    return [{ part, power, atRated: (volts) => own.reduce((sum, { element }) => sum + currentAt(element, volts), 0) }];
  });
  draws.sort((a, b) => b.power - a.power);
  return { draws, assumed: draws.flatMap(({ part }) => assumedOf(part)) };
}

function currentAt(element: Element, volts: Volt): Ampere {
  switch (element.type) {
    case "resistance":
    case "coil":
      return volts / element.resistance;
    case "current-port":
      return element.current;
    case "power-port":
      return (element.power ?? 0) / volts;
    default:
      return 0;
  }
}

/** The parameters by which a kind states what it draws, in the order in which they are asked for. */
function assumedOf({ part, kind, values }: NetworkPart): readonly MissingField[] {
  const lacks = (name: string): boolean => name in kind.parameters && values.number(name) === undefined;
  const field = (parameter: string): MissingField => ({ part: part.id, parameter });
  const load = lacks("power") && (!("current" in kind.parameters) || lacks("current"));
  const coil = kind.coils?.(values).some(({ resistance }) => resistance === undefined) === true;
  return [
    ...(kind.traits.load === true && load ? [field("power")] : []),
    ...(kind.traits.load === true && "power" in kind.parameters && lacks("voltage") ? [field("voltage")] : []),
    ...(lacks("logicCurrent") ? [field("logicCurrent")] : []),
    ...(coil ? [field("coilResistance")] : []),
  ];
}
