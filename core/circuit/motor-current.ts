/** Which motor a controller drives: the one its output studs reach through conductors, contacts, protection and shunts. */
import type { Network, NetworkPart, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import { PACK_ROLES } from "../network/strings.ts";
import { neighbours } from "./paths.ts";
import type { Ampere } from "../quantity/kinds.ts";

/**
 * Continuous current of the motors on each controller's output: several in parallel add up. A controller is absent
 * where no motor is reached or one of those reached states no continuous current.
 */
export function motorCurrents(network: Network): ReadonlyMap<NetworkPart, Ampere> {
  const currents = new Map<NetworkPart, Ampere>();
  for (const [part, motors] of drivenMotors(network)) {
    const each = motors.map(({ values }) => values.number("currentContinuous"));
    if (each.length > 0 && each.every((current) => current !== undefined)) {
      currents.set(
        part,
        each.reduce((sum, current) => sum + current, 0),
      );
    }
  }
  return currents;
}

/** The motors on each controller's output, by controller. */
export function drivenMotors(network: Network): ReadonlyMap<NetworkPart, readonly NetworkPart[]> {
  const motorAt = new Map<number, NetworkPart>();
  for (const part of network.parts) {
    if (part.kind.traits.motor !== true) continue;
    for (const { id } of part.terminals) if (id !== "case") motorAt.set(part.nodes.get(id) ?? CHASSIS_NODE, part);
  }
  const controllers = motorAt.size === 0 ? [] : network.parts.filter(({ kind }) => kind.traits.controller === true);
  return new Map(controllers.map((part) => [part, motorsOf(network, part, motorAt)]));
}

/** Motors reached from the output studs: power studs that carry no supply and are not the same metal as one that does. */
function motorsOf(
  network: Network,
  controller: NetworkPart,
  motorAt: ReadonlyMap<number, NetworkPart>,
): readonly NetworkPart[] {
  const beside = neighbours(network);
  const node = (id: string): NodeIndex => controller.nodes.get(id) ?? CHASSIS_NODE;
  const pairs = controller.kind.supplyPairs(controller.values);
  const supplies = new Set(pairs.flatMap(({ plus, minus }) => [node(plus), node(minus)]));
  for (const supply of [...supplies]) {
    for (const { to, branch } of beside(supply)) {
      if (branch.part === controller && branch.role === "conductor") supplies.add(to);
    }
  }
  const supplyNets = new Set([CHASSIS_NODE, ...supplies].map((supply) => network.netOfNode[supply]));
  const queue = controller.terminals
    .filter(({ id, form }) => form === "stud" && !supplyNets.has(network.netOfNode[node(id)]))
    .map(({ id }) => node(id));
  const seen = new Set(queue);
  const found = new Set<NetworkPart>();
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const motor = motorAt.get(at);
    if (motor !== undefined) found.add(motor);
    for (const { to, branch } of beside(at)) {
      if (seen.has(to) || supplyNets.has(network.netOfNode[to])) continue;
      if (!PACK_ROLES.has(branch.role) || branch.part === controller) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return [...found];
}
