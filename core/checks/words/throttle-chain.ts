/** What lies between a throttle and the pins that read it: wires, contacts and plugs of its own, up to the next junction. */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";

const PINS = ["throttle-1", "throttle-2", "throttle-3"] as const;
const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt"]);
/** A node with more branches than this is a busbar, a chassis point, a battery's post: everybody's, not the throttle's. */
const JUNCTION = 4;

export interface ThrottleChain {
  readonly wires: ReadonlySet<string>;
  readonly nodes: ReadonlySet<NodeIndex>;
  readonly sensors: readonly NetworkPart[];
}

const remembered = new WeakMap<Analysis, Map<NetworkPart, ThrottleChain>>();

/** The chain of a controller's throttle input; empty where none of its throttle pins carries a wire. */
export function throttleChain(analysis: Analysis, controller: NetworkPart): ThrottleChain {
  let known = remembered.get(analysis);
  if (known === undefined) remembered.set(analysis, (known = new Map<NetworkPart, ThrottleChain>()));
  let chain = known.get(controller);
  if (chain === undefined) known.set(controller, (chain = find(analysis, controller)));
  return chain;
}

function find(analysis: Analysis, controller: NetworkPart): ThrottleChain {
  const { network } = analysis;
  const beside = neighbours(network);
  const wires = new Set<string>();
  const nodes = new Set<NodeIndex>();
  const walk = (start: readonly NodeIndex[]): void => {
    const queue = start.filter((node) => !nodes.has(node));
    for (const node of queue) {
      if (nodes.has(node)) continue;
      nodes.add(node);
      const around = beside(node).filter(({ branch }) => METAL.has(branch.role) && branch.part !== controller);
      if (around.length > JUNCTION && !start.includes(node)) continue;
      for (const { to, branch } of around) {
        if (branch.conductor !== undefined) wires.add(branch.conductor.wire.id);
        queue.push(to);
      }
    }
  };
  const pinOf = (pin: string): readonly NodeIndex[] =>
    network.wiresAt([controller.part.id, pin]).length > 0 ? [controller.nodes.get(pin) ?? 0] : [];
  walk(PINS.flatMap(pinOf));
  const sensors = network.parts.filter(
    (part) =>
      part.kind.traits.throttle === true && part.terminals.some(({ id }) => nodes.has(part.nodes.get(id) ?? -1)),
  );
  walk(sensors.flatMap((part) => part.terminals.flatMap(({ id }) => part.nodes.get(id) ?? [])));
  return { wires, nodes, sensors };
}
