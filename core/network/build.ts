/** Makes the network of a drawing. Never throws: what cannot be a branch (a loose wire, an unknown kind) is left out. */
import { kindOf } from "../parts/catalogue.ts";
import type { Condition } from "../parts/condition.ts";
import type { PartKind, PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import { CHASSIS } from "../parts/element.ts";
import { readValues } from "../parts/values.ts";
import type { Project, Wire, WireEnd } from "../project/document.ts";
import { sameBranches } from "./alike.ts";
import { ElementMemo } from "./elements.ts";
import { buildNets } from "./nets.ts";
import type { Branch, Conductor, Network, NetworkPart } from "./network.ts";
import { CHASSIS_NODE } from "./network.ts";
import { REFERENCE_CONDITION } from "./reference-condition.ts";
import { SolverValues, whileSolving } from "./solver-values.ts";
import { closedIslands, storageEdges, stringsOf } from "./strings.ts";
import { conductorFigures } from "./wire-resistance.ts";

/** "All else 10 GOhm": the leak of what has no leak of its own, one a net. */
export const OTHER_LEAK = 10e9;

const STRUCTURE = "#structure:";
/** The first of these that is drawn is the chassis (node 0); the others are nodes of their own. */
const MAIN_STRUCTURES = ["body", "frame", "hull", "motor"];

export type KindLookup = (kind: string) => PartKind | undefined;

interface Draft {
  readonly part: NetworkPart;
  readonly nodes: Map<string, number>;
  readonly elements: readonly Element[];
}

/** Of each network that was built here, what its kinds have answered. */
const memos = new WeakMap<Network, ElementMemo>();

/** `before`: the network of the document before an edit, of which everything is used again that has not changed. */
export function buildNetwork(project: Project, lookup: KindLookup = kindOf, before?: Network): Network {
  const terminalOfNode: (WireEnd | undefined)[] = [undefined];
  const innerNames: (string | undefined)[] = ["chassis"];
  const node = (end: WireEnd | undefined, inner?: string): number => {
    terminalOfNode.push(end);
    innerNames.push(inner);
    return terminalOfNode.length - 1;
  };

  const wired = wiresByTerminal(project.wires);
  const isWired = (part: string) => (terminal: string) => wired.has(key([part, terminal]));
  const memo = new ElementMemo(isWired);

  const drafts = layOutParts(project, lookup, isWired, node, before);
  joinStructures(drafts, node);
  const partById = new Map(drafts.map(({ part }) => [part.part.id, part]));
  const nodeOf = (end: WireEnd): number | undefined => partById.get(end[0])?.nodes.get(end[1]);

  const branches: Branch[] = [];
  for (const { part, elements } of drafts) {
    for (const element of elements) {
      branches.push({
        index: branches.length,
        part,
        role: element.role,
        name: element.name,
        a: part.nodes.get(element.a) ?? CHASSIS_NODE,
        b: part.nodes.get(element.b) ?? CHASSIS_NODE,
        joins: joinsNets(element),
      });
    }
  }
  const conductors: Conductor[] = [];
  for (const wire of project.wires) {
    const [a, b] = wire.ends.map((end) => (end === null ? undefined : nodeOf(end)));
    if (a === undefined || b === undefined || a === b) continue;
    const earlier = before?.conductorByWire.get(wire.id);
    const figures = earlier?.wire === wire ? figuresOf(earlier) : conductorFigures(wire);
    const conductor: Conductor = { wire, branch: branches.length, a, b, ...figures };
    conductors.push(conductor);
    branches.push({ index: branches.length, a, b, conductor, role: "conductor", name: "wire", joins: true });
  }

  const designationOf = (id: string): string => partById.get(id)?.part.designation ?? id;
  const { nets, netOfNode } = buildNets(project, branches, {
    nodeCount: terminalOfNode.length,
    terminalOfNode,
    designationOf,
    nameOfNode: (index) => innerNames[index] ?? "",
  });
  const leaking = nets.filter(({ chassis, terminals }) => !chassis && terminals.length > 0);
  // In the order of their nodes, not of the nets: a part renamed is then mostly the same circuit.
  for (const at of leaking.flatMap(({ nodes }) => nodes[0] ?? []).sort((a, b) => a - b)) {
    branches.push({ index: branches.length, a: at, b: CHASSIS_NODE, role: "leak", name: "leak", joins: false });
  }
  shareWetStrings(branches, drafts, terminalOfNode.length, memo);

  const network: Network = {
    project,
    parts: drafts.map(({ part }) => part),
    partById,
    conductors,
    conductorByWire: new Map(conductors.map((conductor) => [conductor.wire.id, conductor])),
    nodeCount: terminalOfNode.length,
    branches,
    nets,
    netOfNode,
    terminalOfNode,
    nodeOf: (end) => {
      const found = nodeOf(end);
      if (found === undefined) throw new Error(`no terminal ${designationOf(end[0])}:${end[1]} in this drawing`);
      return found;
    },
    wiresAt: (end) => wired.get(key(end)) ?? [],
    label: (end) => `${designationOf(end[0])}:${end[1]}`,
    elementsIn: (part, context) => memo.elementsIn(part, context),
  };
  memos.set(network, memo);
  if (before !== undefined) takeOver(memo, before, network);
  return network;
}

/** Apart from `buildNetwork`, where a function that sees `before` would keep it alive as long as the network. */
function takeOver(memo: ElementMemo, before: Network, network: Network): void {
  const known = memos.get(before);
  if (known === undefined || !sameBranches(before, network)) return;
  memo.takeOver(known, (part) => before.parts[part]?.values === network.parts[part]?.values);
}

const figuresOf = ({ area, cold, hot, assumed }: Conductor): ReturnType<typeof conductorFigures> => ({
  area,
  cold,
  hot,
  assumed,
});

function key([part, terminal]: WireEnd): string {
  return `${part}:${terminal}`;
}

function wiresByTerminal(wires: readonly Wire[]): ReadonlyMap<string, readonly Wire[]> {
  const map = new Map<string, Wire[]>();
  for (const wire of wires) {
    for (const end of wire.ends) {
      if (end === null) continue;
      const list = map.get(key(end));
      if (list === undefined) map.set(key(end), [wire]);
      else if (!list.includes(wire)) list.push(wire);
    }
  }
  return map;
}

function layOutParts(
  project: Project,
  lookup: KindLookup,
  isWired: (part: string) => (terminal: string) => boolean,
  node: (end: WireEnd | undefined, inner?: string) => number,
  before: Network | undefined,
): readonly Draft[] {
  return whileSolving(() => laidOut(project, lookup, isWired, node, before));
}

function laidOut(
  project: Project,
  lookup: KindLookup,
  isWired: (part: string) => (terminal: string) => boolean,
  node: (end: WireEnd | undefined, inner?: string) => number,
  before: Network | undefined,
): readonly Draft[] {
  const drafts: Draft[] = [];
  let firstBranch = 0;
  for (const part of project.parts) {
    const kind = lookup(part.kind);
    if (kind === undefined) continue;
    const earlier = before?.partById.get(part.id);
    const same = earlier?.kind === kind && earlier.part.parameters === part.parameters ? earlier : undefined;
    const values = same?.values ?? new SolverValues(readValues(kind, part.parameters));
    const terminals = same?.terminals ?? kind.terminals(values);
    const nodes = new Map<string, number>([[CHASSIS, CHASSIS_NODE]]);
    for (const { id } of terminals) nodes.set(id, node([part.id, id]));

    let elements: readonly Element[] = [];
    let trouble: string | undefined;
    try {
      elements = kind.circuit({
        values,
        condition: REFERENCE_CONDITION,
        position: positionOf({ part, kind, values }, REFERENCE_CONDITION),
        state: initialState(kind, values),
        wired: isWired(part.id),
        motorCurrent: undefined,
      });
      for (const { a, b, name } of elements) {
        const unknown = [a, b].find((end) => !nodes.has(end) && !end.startsWith(":") && !end.startsWith(STRUCTURE));
        if (unknown !== undefined) throw new Error(`${name} ends at ${unknown}, which ${part.kind} does not have`);
      }
    } catch (cause) {
      elements = [];
      trouble = cause instanceof Error ? cause.message : String(cause);
    }
    for (const end of elements.flatMap(({ a, b }) => [a, b])) {
      if (end.startsWith(":") && !nodes.has(end)) nodes.set(end, node(undefined, `${part.designation}${end}`));
    }
    drafts.push({
      elements,
      nodes,
      part: {
        index: drafts.length,
        part,
        kind,
        values,
        terminals,
        nodes,
        firstBranch,
        branchCount: elements.length,
        ...(trouble === undefined ? {} : { trouble }),
      },
    });
    firstBranch += elements.length;
  }
  return drafts;
}

/** Metal that makes one net of its ends: busbars, splices, strips, and the pins of connectors that are plugged together. */
function joinsNets(element: Element): boolean {
  if (element.type === "resistance") return element.joins === true;
  return element.type === "contact" && element.role === "conductor" && element.closed;
}

/** Gives every structure one node, shared by all its chassis points; the main structure is the chassis itself. */
function joinStructures(drafts: readonly Draft[], node: (end: undefined, inner: string) => number): void {
  const drawn = new Set<string>();
  for (const { elements } of drafts) {
    for (const { a, b } of elements) for (const end of [a, b]) if (end.startsWith(STRUCTURE)) drawn.add(end);
  }
  const main = MAIN_STRUCTURES.map((name) => STRUCTURE + name).find((name) => drawn.has(name));
  const nodes = new Map<string, number>();
  for (const name of drawn)
    nodes.set(name, name === main ? CHASSIS_NODE : node(undefined, name.slice(STRUCTURE.length)));
  for (const draft of drafts) {
    for (const { a, b } of draft.elements) {
      for (const end of [a, b]) {
        const at = nodes.get(end);
        if (at !== undefined) draft.nodes.set(end, at);
      }
    }
  }
}

/** A wet lead-acid block by itself leaks as a whole string would (1 MOhm): of N in one string each leaks a part. */
function shareWetStrings(
  branches: readonly Branch[],
  drafts: readonly Draft[],
  nodeCount: number,
  memo: ElementMemo,
): void {
  const element = ({ part, index }: Branch): Element | undefined =>
    part === undefined ? undefined : drafts[part.index]?.elements[index - part.firstBranch];
  const islands = closedIslands(nodeCount, branches);
  const isStorage = (branch: Branch): boolean => {
    const found = element(branch);
    return found?.type === "source" && found.storage;
  };
  const { branches: storage, edges, chassisIsland } = storageEdges(branches, isStorage, islands);
  for (const string of stringsOf(edges, chassisIsland)) {
    const wet = [...new Set(string.flatMap((index) => storage[index]?.part ?? []))].filter((part) =>
      drafts[part.index]?.elements.some((found) => found.type === "resistance" && found.shared !== undefined),
    );
    for (const part of wet) memo.shareLeaks(part, wet.length);
  }
}

/** Where a part's control stands: as set by hand, else where the condition puts it; "" without a control. */
export function positionOf(part: Pick<NetworkPart, "part" | "kind" | "values">, condition: Condition): string {
  const { control } = part.kind;
  if (control === undefined) return "";
  const byHand = condition.set[part.part.id];
  if (byHand !== undefined && control.positions(part.values).includes(byHand)) return byHand;
  return control.at(condition, part.values);
}

const NO_STATE: PartState = {};

/** Discrete state before anything was ever energised. */
export function initialState(kind: PartKind, values: NetworkPart["values"]): PartState {
  return kind.initial?.(values) ?? NO_STATE;
}
