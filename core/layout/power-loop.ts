/**
 * The traction loop of a drawing: from the pack's plus through fuse, disconnect and contactor to the controller (or
 * whatever is driven), and back to the pack's minus. Found in the network by the roles of its branches.
 */
import type { Role } from "../parts/element.ts";
import { CHASSIS_NODE, type Branch, type Network, type NetworkPart } from "../network/network.ts";
import { BarsBetween } from "./bars-between.ts";
import type { Cell } from "./cell.ts";

/** A view that the loop goes through, entered at `from` (nearer the pack's plus), left at `to`. */
export interface Link {
  readonly cell: Cell;
  readonly from: string;
  readonly to: string;
  readonly battery: boolean;
  /** A busbar or splice between two others: nothing but a point of the rail. */
  readonly bar: boolean;
}

export interface PowerLoop {
  /** What is driven: usually the controller. */
  readonly main: Cell;
  readonly plusPin: string;
  readonly minusPin: string;
  /** From the pack to the main part. */
  readonly plus: readonly Link[];
  /** From the pack's plus terminal to its minus terminal; more than one where strings lie beside each other. */
  readonly strings: readonly (readonly Link[])[];
  /** From the pack to the main part. The second pole of a switch in the plus rail is its view once more. */
  readonly minus: readonly Link[];
  /** Parts beside the links plus[first .. last], between the same nets. */
  readonly bypasses: readonly { readonly first: number; readonly last: number; readonly links: readonly Link[] }[];
  /** Between main part and motors, then the motors. */
  readonly drive: readonly Cell[];
  readonly motors: readonly Cell[];
  /** Nets of the plus side and of the minus side. */
  readonly plusNets: readonly number[];
  readonly minusNets: readonly number[];
}

/** What current may pass on the way round, and how far out of the way it is. */
const PASSABLE: ReadonlyMap<Role, number> = new Map<Role, number>([
  ["contact", 1],
  ["protection", 1],
  ["shunt", 1],
  ["conductor", 1],
  ["source", 0.1],
]);
const BYPASS_ROLES: ReadonlySet<Role> = new Set<Role>([
  "contact",
  "protection",
  "resistor",
  "diode",
  "load",
  "capacitor",
]);

interface Step {
  readonly branch: Branch;
  readonly from: string;
  readonly to: string;
}

export function findPowerLoop(network: Network, cells: readonly Cell[]): PowerLoop | undefined {
  const graph = new LoopGraph(network, cells);
  const mains = network.parts.flatMap((part) =>
    part.kind
      .supplyPairs(part.values)
      .filter((pair) => pair.main && pair.direction === "input")
      .map((pair) => ({ part, pair })),
  );
  const rank = ({ kind }: NetworkPart): number =>
    kind.traits.controller === true ? 0 : kind.traits.motor === true ? 1 : 2;
  mains.sort((a, b) => rank(a.part) - rank(b.part));
  for (const { part, pair } of mains) {
    const loop = graph.loopThrough(part, pair.plus, pair.minus);
    if (loop !== undefined) return loop;
  }
  return undefined;
}

class LoopGraph {
  readonly #network: Network;
  readonly #cellAt = new Map<string, Cell>();
  readonly #terminal = new Map<string, string>();
  readonly #cells: readonly Cell[];
  readonly #bars: BarsBetween;

  constructor(network: Network, cells: readonly Cell[]) {
    this.#network = network;
    this.#cells = cells;
    this.#bars = new BarsBetween(network);
    for (const cell of cells)
      for (const pin of cell.view.pins) this.#cellAt.set(`${cell.part.id}:${pin.terminal}`, cell);
    for (const part of network.parts)
      for (const terminal of part.terminals) {
        const node = part.nodes.get(terminal.id);
        if (node !== undefined) this.#terminal.set(`${part.part.id} ${String(node)}`, terminal.id);
      }
  }

  loopThrough(main: NetworkPart, plusPin: string, minusPin: string): PowerLoop | undefined {
    const cell = this.#cellAt.get(`${main.part.id}:${plusPin}`);
    const plusNet = this.#net(main, plusPin);
    const minusNet = this.#net(main, minusPin);
    if (cell === undefined || plusNet === undefined || minusNet === undefined) return undefined;
    const steps = this.#shortest(plusNet, minusNet, main);
    if (steps === undefined) return undefined;
    const links = steps.map((step) => this.#link(step));
    if (links.some((link) => link === undefined)) return undefined;
    const around = links as Link[];
    const { first, last, others } = this.#parallel(around, main);
    const used = new Set([cell.key]);
    const mainEnd = (pin: string): Link => ({ cell, from: pin, to: pin, battery: false, bar: false });
    const withBars = (way: readonly Link[]): readonly Link[] => {
      const barred = this.#withBars(way, used);
      for (const link of barred) used.add(link.cell.key);
      return barred;
    };
    for (const link of around) used.add(link.cell.key);
    const strings = [around.slice(first, last + 1), ...others].map(withBars);
    const [head, tail] = [around[first], around[last]];
    if (head === undefined || tail === undefined) return undefined;
    const plus = withBars([turned(head), ...around.slice(0, first).reverse().map(turned), mainEnd(plusPin)]).slice(
      1,
      -1,
    );
    const minus = withBars([tail, ...around.slice(last + 1), mainEnd(minusPin)]).slice(1, -1);
    const plusNets = [...plus.map((link) => this.#netOf(link.cell, link.from)), plusNet];
    const minusNets = [...minus.map((link) => this.#netOf(link.cell, link.from)), minusNet];
    const { motors, drive } = this.#driven(main, used, new Set([...plusNets, ...minusNets]));
    for (const { key } of [...motors, ...drive]) used.add(key);
    return {
      main: cell,
      plusPin,
      minusPin,
      plus,
      strings,
      minus,
      bypasses: this.#bypasses(plusNets, new Set(minusNets), used),
      drive,
      motors,
      plusNets,
      minusNets,
    };
  }

  /** With the busbars between each two neighbours, as far as they stand nowhere yet. */
  #withBars(way: readonly Link[], used: ReadonlySet<string>): readonly Link[] {
    const met = new Set(used);
    return way.flatMap((link, index) => {
      const before = way[index - 1];
      if (before === undefined) return [link];
      const passed = this.#bars.between([before.cell.part.id, before.to], [link.cell.part.id, link.from]);
      const bars = passed.flatMap(({ part, from, to }): Link[] => {
        const cell = this.#cellAt.get(`${part}:${from}`);
        if (cell === undefined || met.has(cell.key) || this.#cellAt.get(`${part}:${to}`) !== cell) return [];
        met.add(cell.key);
        return [{ cell, from, to, battery: false, bar: true }];
      });
      return [...bars, link];
    });
  }

  /** Where the string of this loop begins and ends, and strings that lie beside it, each from plus to minus. */
  #parallel(
    around: readonly Link[],
    main: NetworkPart,
  ): { readonly first: number; readonly last: number; readonly others: readonly (readonly Link[])[] } {
    const first = around.findIndex((link) => link.battery);
    const last = around.findLastIndex((link) => link.battery);
    const alone = { first, last, others: [] };
    const used = new Set(around.map((link) => link.cell.part.id));
    const spare = this.#network.parts.some(
      ({ part, kind, values }) =>
        kind.traits.battery === true && values.choice("duty") !== "auxiliary" && !used.has(part.id),
    );
    if (!spare) return alone;
    // The nearer to the battery the joints of a second string are, the shorter its way.
    for (let from = first; from >= 0; from -= 1)
      for (let to = last; to < around.length; to += 1) {
        const [head, tail] = [around[from], around[to]];
        if (head === undefined || tail === undefined) continue;
        const [plus, minus] = [this.#netOf(head.cell, head.from), this.#netOf(tail.cell, tail.to)];
        const others: (readonly Link[])[] = [];
        for (;;) {
          const steps = this.#shortest(plus, minus, main, used) ?? [];
          const links = steps.flatMap((step) => this.#link(step) ?? []);
          if (steps.length === 0 || links.length < steps.length) break;
          for (const link of links) used.add(link.cell.part.id);
          others.push(links);
        }
        if (others.length > 0) return { first: from, last: to, others };
      }
    return alone;
  }

  #net(part: NetworkPart, terminal: string): number | undefined {
    const node = part.nodes.get(terminal);
    return node === undefined ? undefined : this.#network.netOfNode[node];
  }

  #netOf(cell: Cell, terminal: string): number {
    const part = this.#network.partById.get(cell.part.id);
    return (part === undefined ? undefined : this.#net(part, terminal)) ?? -1;
  }

  #netAt(node: number): number {
    return this.#network.netOfNode[node] ?? -1;
  }

  /** Dijkstra over nets, in two layers: before and after the first battery. */
  #shortest(
    start: number,
    goal: number,
    main: NetworkPart,
    barred: ReadonlySet<string> = new Set(),
  ): readonly Step[] | undefined {
    const edges = new Map<number, { step: Step; net: number; cost: number; battery: boolean }[]>();
    for (const branch of this.#network.branches) {
      const { part } = branch;
      const cost = PASSABLE.get(branch.role);
      const battery = part?.kind.traits.battery === true && branch.role === "source";
      if (part === undefined || part === main || cost === undefined || branch.joins) continue;
      if (barred.has(part.part.id)) continue;
      if (branch.role === "source" && !battery) continue;
      if (branch.a === CHASSIS_NODE || branch.b === CHASSIS_NODE) continue;
      const a = this.#terminal.get(`${part.part.id} ${String(branch.a)}`);
      const b = this.#terminal.get(`${part.part.id} ${String(branch.b)}`);
      if (a === undefined || b === undefined) continue;
      push(edges, this.#netAt(branch.a), {
        step: { branch, from: a, to: b },
        net: this.#netAt(branch.b),
        cost,
        battery,
      });
      // A battery is passed from plus to minus only: the loop goes from the main part's plus into the pack's plus.
      if (!battery)
        push(edges, this.#netAt(branch.b), {
          step: { branch, from: b, to: a },
          net: this.#netAt(branch.a),
          cost,
          battery,
        });
    }
    const best = new Map<string, number>([[`${String(start)} 0`, 0]]);
    const came = new Map<string, { before: string; step: Step }>();
    const open = new Set([`${String(start)} 0`]);
    while (open.size > 0) {
      const state = [...open].reduce((a, b) => ((best.get(b) ?? 0) < (best.get(a) ?? 0) ? b : a));
      open.delete(state);
      const [netText = "", layer = "0"] = state.split(" ");
      const net = Number(netText);
      if (net === goal && layer === "1") return trace(came, state);
      if (net === goal) continue;
      for (const edge of edges.get(net) ?? []) {
        const next = `${String(edge.net)} ${edge.battery ? "1" : layer}`;
        const cost = (best.get(state) ?? 0) + edge.cost;
        if (cost >= (best.get(next) ?? Infinity)) continue;
        best.set(next, cost);
        came.set(next, { before: state, step: edge.step });
        open.add(next);
      }
    }
    return undefined;
  }

  #link({ branch, from, to }: Step): Link | undefined {
    const id = branch.part?.part.id ?? "";
    const cell = this.#cellAt.get(`${id}:${from}`);
    if (cell === undefined || this.#cellAt.get(`${id}:${to}`) !== cell) return undefined;
    return { cell, from, to, battery: branch.role === "source", bar: false };
  }

  /** Motors on the main part's other power terminals, and the contacts between. */
  #driven(
    main: NetworkPart,
    used: ReadonlySet<string>,
    supply: ReadonlySet<number>,
  ): { motors: Cell[]; drive: Cell[] } {
    const motors: Cell[] = [];
    const drive: Cell[] = [];
    const studs = main.terminals.filter((terminal) => terminal.form === "stud" && terminal.id !== "case");
    let nets = studs.flatMap((stud) => this.#net(main, stud.id) ?? []).filter((net) => !supply.has(net));
    const seen = new Set(nets);
    for (let round = 0; round < 3 && nets.length > 0; round += 1) {
      const next: number[] = [];
      for (const part of this.#network.parts) {
        if (part === main) continue;
        const touching = part.terminals.filter((terminal) => nets.includes(this.#net(part, terminal.id) ?? -1));
        for (const terminal of touching) {
          const cell = this.#cellAt.get(`${part.part.id}:${terminal.id}`);
          if (cell === undefined || used.has(cell.key) || motors.includes(cell) || drive.includes(cell)) continue;
          if (part.kind.traits.motor === true) motors.push(cell);
          else if (part.kind.traits.contactor === true || terminal.form === "stud") {
            drive.push(cell);
            for (const pin of cell.view.pins) {
              const net = this.#netOf(cell, pin.terminal);
              if (net >= 0 && !supply.has(net) && !seen.has(net)) {
                seen.add(net);
                next.push(net);
              }
            }
          }
        }
      }
      nets = next;
    }
    // A motor's other views (its encoder) stand with it.
    const whole = motors.flatMap((motor) => [
      motor,
      ...this.#cells.filter(
        ({ part, key }) => part === motor.part && key !== motor.key && !motors.some((m) => m.key === key),
      ),
    ]);
    return motors.length > 0 ? { motors: whole, drive } : { motors: [], drive: [] };
  }

  /** Ways of at most three parts from one net of the plus side to another. */
  #bypasses(
    plusNets: readonly number[],
    minusNets: ReadonlySet<number>,
    used: ReadonlySet<string>,
  ): PowerLoop["bypasses"] {
    const found: { first: number; last: number; links: readonly Link[] }[] = [];
    const taken = new Set(used);
    const links = this.#network.branches.flatMap((branch) => {
      if (!BYPASS_ROLES.has(branch.role) || branch.part === undefined) return [];
      const a = this.#terminal.get(`${branch.part.part.id} ${String(branch.a)}`);
      const b = this.#terminal.get(`${branch.part.part.id} ${String(branch.b)}`);
      const link = a === undefined || b === undefined ? undefined : this.#link({ branch, from: a, to: b });
      return link === undefined ? [] : [link, { ...link, from: link.to, to: link.from }];
    });
    plusNets.forEach((start, first) => {
      // A busbar of the rail lies between equal nets.
      if (plusNets.lastIndexOf(start) !== first) return;
      const walk = (net: number, way: readonly Link[]): void => {
        for (const link of links) {
          if (taken.has(link.cell.key) || way.some((other) => other.cell === link.cell)) continue;
          if (this.#netOf(link.cell, link.from) !== net) continue;
          const next = this.#netOf(link.cell, link.to);
          if (next < 0 || minusNets.has(next) || next === start) continue;
          const last = plusNets.indexOf(next);
          const longer = [...way, link];
          if (last > first) {
            const barred = this.#withBars(longer, taken);
            found.push({ first, last: last - 1, links: barred });
            for (const { cell } of barred) taken.add(cell.key);
            return;
          }
          if (last < 0 && longer.length < 3) walk(next, longer);
        }
      };
      walk(start, []);
    });
    return found;
  }
}

const turned = (link: Link): Link => ({ ...link, from: link.to, to: link.from });

function trace(came: ReadonlyMap<string, { before: string; step: Step }>, goal: string): readonly Step[] {
  const steps: Step[] = [];
  for (let at = came.get(goal); at !== undefined; at = came.get(at.before)) steps.push(at.step);
  return steps.reverse();
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}
