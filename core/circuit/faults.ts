/**
 * Single faults: what can go wrong by itself on a vehicle that was wired as drawn, each as a change to the circuit.
 * `singleFaults` lists them; core/studies tells what each one leads to.
 */
import type { Branch, BranchIndex, NetworkPart, NodeIndex } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { Element } from "../parts/element.ts";
import type { Ohm } from "../quantity/kinds.ts";
import type { Analysis, Change } from "./analysis.ts";
import { barriersOf } from "./barriers.ts";
import { faceOf } from "./face-terminals.ts";
import { neighbouringTerminals } from "./neighbouring.ts";

/**
 * wire-open            a conductor or its joint parts            contact-welded       a contact never opens again
 * contact-stuck-open   a contact never closes again              fuse-blown           a fuse or breaker is open
 * terminals-bridged    two neighbouring terminals touch          conductor-to-chassis a conductor rubs through to chassis
 * connector-unplugged  a plug comes off                          barrier-broken       the barrier of a converter, charger or port fails
 * output-shorted       the output stage of a controller conducts for good
 */
export type FaultKind =
  | "wire-open"
  | "contact-welded"
  | "contact-stuck-open"
  | "fuse-blown"
  | "terminals-bridged"
  | "conductor-to-chassis"
  | "connector-unplugged"
  | "barrier-broken"
  | "output-shorted";

export interface SingleFault {
  readonly kind: FaultKind;
  /** "wire-open w12", "contact-welded p3 contact": stable, unique in a drawing. */
  readonly key: string;
  /** The wire or part, and the terminals concerned. */
  readonly wire: string | undefined;
  readonly part: NetworkPart | undefined;
  readonly terminals: readonly { readonly part: string; readonly terminal: string }[];
  readonly branches: readonly BranchIndex[];
  readonly nodes: readonly NodeIndex[];
  readonly change: Change;
}

/** What a fault is, before the network's indices are filled in. */
interface Found {
  readonly kind: FaultKind;
  readonly of: readonly string[];
  readonly wire?: string;
  readonly part?: NetworkPart;
  readonly nodes?: readonly NodeIndex[];
  readonly branches?: readonly BranchIndex[];
  readonly change: Change;
}

/** An output transistor behind more than this cannot be told by a short across it (a pre-charge inside a controller). */
const BARE: Ohm = 1;

const known = new WeakMap<Analysis, readonly SingleFault[]>();

/**
 * Every single fault of a drawing, wires first, then part by part. Left out is what changes nothing anywhere: a
 * contact, barrier or terminal at which nothing is connected, a conductor of the chassis touching the chassis.
 */
export function singleFaults(analysis: Analysis): readonly SingleFault[] {
  let faults = known.get(analysis);
  if (faults === undefined) {
    const [state] = analysis.states;
    const look = new Look(analysis, state?.elements ?? []);
    faults = [...look.wires(), ...analysis.network.parts.flatMap((part) => look.part(part))];
    known.set(analysis, faults);
  }
  return faults;
}

class Look {
  readonly #analysis: Analysis;
  readonly #elements: readonly Element[];
  /** Nodes at which something other than a leak is connected. */
  readonly #connected = new Set<NodeIndex>();

  constructor(analysis: Analysis, elements: readonly Element[]) {
    this.#analysis = analysis;
    this.#elements = elements;
    for (const { role, a, b } of analysis.network.branches) {
      if (role === "leak") continue;
      this.#connected.add(a);
      this.#connected.add(b);
    }
  }

  wires(): readonly SingleFault[] {
    const { conductors, netOfNode, nets } = this.#analysis.network;
    const opened = conductors.map(({ wire, branch, a, b }) =>
      this.#fault({
        kind: "wire-open",
        of: [wire.id],
        wire: wire.id,
        nodes: [a, b],
        branches: [branch],
        change: { open: [branch] },
      }),
    );
    const rubbed = conductors
      .filter(({ a }) => nets[netOfNode[a] ?? -1]?.chassis !== true)
      .map(({ wire, branch, a, b }) =>
        this.#fault({
          kind: "conductor-to-chassis",
          of: [wire.id],
          wire: wire.id,
          nodes: [a, b],
          branches: [branch],
          change: { shorts: [[a, CHASSIS_NODE]] },
        }),
      );
    return [...opened, ...rubbed];
  }

  part(part: NetworkPart): readonly SingleFault[] {
    if (part.trouble !== undefined) return [];
    return [
      ...this.#contacts(part),
      ...this.#unplugged(part),
      ...this.#barriers(part),
      ...this.#outputs(part),
      ...this.#bridges(part),
    ];
  }

  /** Contacts, the transistors of signal outputs (which fail in the same two ways), fuses and breakers. */
  #contacts(part: NetworkPart): readonly SingleFault[] {
    const { terminalOfNode } = this.#analysis.network;
    return this.#branchesOf(part).flatMap((branch) => {
      const { index, role, name, a, b } = branch;
      const common = { of: [part.part.id, name], part, nodes: [a, b], branches: [index] };
      if (role === "protection") {
        return [a, b].every((node) => terminalOfNode[node] === undefined || this.#isWiredNode(node))
          ? [this.#fault({ ...common, kind: "fuse-blown", change: { open: [index] } })]
          : [];
      }
      if (!this.#switches(part, branch) || !this.#isConnected(part, branch)) return [];
      const held = this.#otherThrows(part, branch);
      const welded: Change = held.length === 0 ? { shorts: [[a, b]] } : { shorts: [[a, b]], open: held };
      return [
        this.#fault({ ...common, kind: "contact-welded", change: welded }),
        this.#fault({ ...common, kind: "contact-stuck-open", change: { open: [index] } }),
      ];
    });
  }

  /**
   * The other throws of a changeover contact, which one blade serves: with it welded to one side the other never closes.
   * They share a terminal, and in every state exactly one of the two is closed.
   */
  #otherThrows(part: NetworkPart, { index, a, b }: Branch): readonly BranchIndex[] {
    const isClosed = (elements: readonly Element[], branch: BranchIndex): boolean => {
      const element = elements[branch];
      return element?.type === "contact" && element.closed;
    };
    return this.#branchesOf(part)
      .filter((other) => other.index !== index && this.#elements[other.index]?.type === "contact")
      .filter((other) => [other.a, other.b].some((node) => node === a || node === b))
      .filter((other) =>
        this.#analysis.states.every(({ elements }) => isClosed(elements, index) !== isClosed(elements, other.index)),
      )
      .map((other) => other.index);
  }

  #switches(part: NetworkPart, { role, index, a, b }: Branch): boolean {
    const element = this.#elements[index];
    if (element?.type !== "contact") return false;
    if (role === "contact") return true;
    return role === "driver" && element.resistance < BARE && [a, b].some((node) => this.#form(part, node) !== "stud");
  }

  #unplugged(part: NetworkPart): readonly SingleFault[] {
    const { network } = this.#analysis;
    const id = part.part.id;
    if (part.kind.traits.connector === true) {
      const wired = part.terminals.filter((terminal) => this.#isWired(part, terminal.id));
      if (wired.length === 0) return [];
      const nodes = wired.flatMap((terminal) => part.nodes.get(terminal.id) ?? []);
      const branches = this.#branchesOf(part).map(({ index }) => index);
      const change = { set: { [id]: "unplugged" } };
      return [this.#fault({ kind: "connector-unplugged", of: [id], part, nodes, branches, change })];
    }
    return faceOf(part).plugs.flatMap((plug) => {
      const wires = plug.pins.flatMap((pin) => network.wiresAt([id, pin]));
      const open = [...new Set(wires)].flatMap((wire) => network.conductorByWire.get(wire.id)?.branch ?? []);
      // A plug with one wire is that wire's own fault.
      if (open.length < 2) return [];
      const nodes = plug.pins.flatMap((pin) => (this.#isWired(part, pin) ? (part.nodes.get(pin) ?? []) : []));
      return [
        this.#fault({ kind: "connector-unplugged", of: [id, plug.id], part, nodes, branches: open, change: { open } }),
      ];
    });
  }

  #barriers(part: NetworkPart): readonly SingleFault[] {
    return barriersOf(part).flatMap(({ parameter, joined, breaks }) => {
      const stated = part.values.choice(parameter);
      if (stated !== undefined && joined.includes(stated)) return [];
      return breaks.flatMap(([one, other]) => {
        const [a, b] = [part.nodes.get(one), part.nodes.get(other)];
        if (a === undefined || b === undefined || !this.#isWired(part, one) || !this.#isWired(part, other)) return [];
        return [
          this.#fault({
            kind: "barrier-broken",
            of: [part.part.id, one, other],
            part,
            nodes: [a, b],
            change: { shorts: [[a, b]] },
          }),
        ];
      });
    });
  }

  /** Transistors between power studs: those of the output stage and of a field output. */
  #outputs(part: NetworkPart): readonly SingleFault[] {
    if (part.kind.traits.controller !== true) return [];
    return this.#branchesOf(part).flatMap(({ role, index, name, a, b }) => {
      const element = this.#elements[index];
      if (role !== "driver" || (element?.type !== "contact" && element?.type !== "current-port")) return [];
      if ([a, b].some((node) => this.#form(part, node) !== "stud")) return [];
      if ([a, b].some((node) => !this.#isWiredNode(node))) return [];
      const change = { shorts: [[a, b]] } as const;
      const common = { of: [part.part.id, name], part, nodes: [a, b], branches: [index], change };
      return [this.#fault({ ...common, kind: "output-shorted" })];
    });
  }

  #bridges(part: NetworkPart): readonly SingleFault[] {
    const { network } = this.#analysis;
    return neighbouringTerminals(network.project, part).flatMap(([one, other]) => {
      const [a, b] = [part.nodes.get(one), part.nodes.get(other)];
      if (a === undefined || b === undefined || !this.#connected.has(a) || !this.#connected.has(b)) return [];
      if (network.netOfNode[a] === network.netOfNode[b]) return [];
      return [
        this.#fault({
          kind: "terminals-bridged",
          of: [part.part.id, one, other],
          part,
          nodes: [a, b],
          change: { shorts: [[a, b]] },
        }),
      ];
    });
  }

  #branchesOf({ firstBranch, branchCount }: NetworkPart): readonly Branch[] {
    return this.#analysis.network.branches.slice(firstBranch, firstBranch + branchCount);
  }

  #isConnected(part: NetworkPart, { a, b }: Branch): boolean {
    // What lies behind an inner node is the part's own business: nobody can weld that contact alone.
    return [a, b].every((node) => this.#form(part, node) !== undefined && this.#isWiredNode(node));
  }

  #isWired(part: NetworkPart, terminal: string): boolean {
    return this.#analysis.network.wiresAt([part.part.id, terminal]).length > 0;
  }

  #isWiredNode(node: NodeIndex): boolean {
    const { network } = this.#analysis;
    const end = network.terminalOfNode[node];
    return end !== undefined && network.wiresAt(end).length > 0;
  }

  #form(part: NetworkPart, node: NodeIndex): string | undefined {
    const end = this.#analysis.network.terminalOfNode[node];
    return part.terminals.find(({ id }) => id === end?.[1])?.form;
  }

  #fault({ kind, of, wire, part, nodes = [], branches = [], change }: Found): SingleFault {
    const { terminalOfNode } = this.#analysis.network;
    return {
      kind,
      key: [kind, ...of].join(" "),
      wire,
      part,
      terminals: nodes.flatMap((node) => {
        const end = terminalOfNode[node];
        return end === undefined ? [] : [{ part: end[0], terminal: end[1] }];
      }),
      branches,
      nodes,
      change,
    };
  }
}
