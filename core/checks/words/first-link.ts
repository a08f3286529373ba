/**
 * The first link of a chain that fails: why a main circuit is open, a coil not pulled in, a controller not enabled.
 * Follows the feed from its source, goes on to the coil that should have closed an open contact, and so on.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { FED_ABOVE, isFed } from "../../parts/input-pin.ts";
import type { Role } from "../../parts/element.ts";
import type { MissingField, Place } from "../define.ts";
import { feedWay, fewestOpen, MAIN } from "./feed-path.ts";
import type { Walk, Way } from "./feed-path.ts";
import { openAround, prechargeAround } from "./open-around.ts";
import { branchPlaces, nodePlace, partPlace, terminalPlace } from "./places.ts";

export type Reason =
  /** A contact, output or fuse that stands open. */
  | "open"
  /** Nothing leads from a source to this terminal and back. */
  | "unfed"
  /** Fed through closed contacts, and yet too little arrives. */
  | "weak"
  /** The throttle's reading counts as a fault, or stays at idle. */
  | "throttle-fault"
  | "throttle-idle"
  /** The bus never reaches the voltage at which the controller closes its contactor. */
  | "uncharged"
  | "inhibited"
  | "direction"
  | "brake"
  | "detection"
  | "mains";

export interface Link {
  readonly reason: Reason;
  readonly place: Place;
  /** Of a contact that stands open: the two terminals between which it does. */
  readonly ends?: readonly Place[];
  readonly touches: readonly Place[];
  /** What nobody stated and on what it depends. */
  readonly missing: readonly MissingField[];
}

/** Choices that decide whether a contact or output moves; while unstated, solving takes one of them. */
const DECIDING = ["actuator", "aux", "contactorDriver", "outputType", "enableInput"] as const;

/** Outputs of controllers and control units, which drive to plus or to minus as a parameter says. */
const OUTPUT = /^out-|-out$/;

function unstated(part: NetworkPart, ...names: readonly string[]): readonly MissingField[] {
  return names
    .filter((name) => Object.hasOwn(part.kind.parameters, name))
    .filter((name) => part.values.text(name) === undefined)
    .map((parameter) => ({ part: part.part.id, parameter }));
}

export class Links {
  readonly #analysis: Analysis;
  readonly #state: SolvedState;
  readonly #asked = new Set<string>();

  constructor(analysis: Analysis, state: SolvedState) {
    this.#analysis = analysis;
    this.#state = state;
  }

  /** Why no main current can flow from one terminal of a part round to the other; undefined: it can. */
  mainCircuit(part: NetworkPart, from: string, to: string, beside: readonly Role[] = []): Link | undefined {
    return this.#loop(part, from, to, { through: [...MAIN, ...beside], without: part });
  }

  /** The same for a motor on contactors, whose other windings and starting resistors lie in its loop. */
  motorCircuit(part: NetworkPart, from: string, to: string): Link | undefined {
    return this.#loop(part, from, to, { through: [...MAIN, "load", "resistor"] });
  }

  #loop(part: NetworkPart, from: string, to: string, walk: Walk): Link | undefined {
    const [a, b] = [part.nodes.get(from), part.nodes.get(to)];
    if (a === undefined || b === undefined) return undefined;
    const way = fewestOpen(this.#analysis, this.#state, a, b, walk);
    const hasSource = way?.branches.some(({ role }) => role === "source") === true;
    if (way === undefined || !hasSource) return this.#link("unfed", terminalPlace(part, from), way);
    const [first] = way.open;
    return first === undefined ? undefined : this.#opened(first, way);
  }

  /** Why a controller does not drive although its main circuit is closed. */
  controller(part: NetworkPart): Link | undefined {
    const own = this.#state.partStates[part.index] ?? {};
    if (own["logic"] !== "live") return this.#fed(part, "logic+", this.#reference(part), ["logicFeed"]);
    if (own["throttle"] === "fault") return this.#throttle("throttle-fault", part);
    // It waits for the pedal to be let go once.
    if (own["start"] === "locked") return undefined;
    if (this.#isWired(part, "interlock") && !this.#isFedAt(part, "interlock"))
      return this.#fed(part, "interlock", this.#reference(part));
    if (this.#isWired(part, "charge-inhibit") && !this.#isFedAt(part, "charge-inhibit")) {
      const link = this.#fed(part, "charge-inhibit", this.#reference(part));
      return link.reason === "open"
        ? link
        : { ...link, reason: "inhibited", place: terminalPlace(part, "charge-inhibit") };
    }
    const ways = ["forward", "reverse"].filter((pin) => this.#isWired(part, pin));
    const fed = ways.filter((pin) => this.#isFedAt(part, pin));
    const wanted = this.#state.condition.drive === "reverse" ? "reverse" : "forward";
    if (ways.includes(wanted) && fed.length === 0) return this.#fed(part, wanted, this.#reference(part));
    if (fed.length === 2) return this.#link("direction", terminalPlace(part, "forward"), undefined);
    if (this.#state.condition.drive !== "regeneration") {
      if (own["throttle"] === "idle") return this.#throttle("throttle-idle", part);
      if (this.#isWired(part, "brake") && this.#isFedAt(part, "brake"))
        return this.#link("brake", terminalPlace(part, "brake"), undefined);
    }
    return this.#link("unfed", partPlace(part), undefined);
  }

  /** Why a pair of terminals gets no working voltage from any source. */
  pair(part: NetworkPart, plus: string, minus: string): Link {
    return this.#fed(part, plus, minus);
  }

  /** Why no mains arrive at a charger: followed from L back round to N, through the inlet; undefined: no inlet is joined. */
  mains(part: NetworkPart): Link | undefined {
    const [a, b] = [part.nodes.get("L"), part.nodes.get("N")];
    if (a === undefined || b === undefined) return undefined;
    const through = [...MAIN, "driver"] as const;
    const way = fewestOpen(this.#analysis, this.#state, a, b, { through, without: part });
    const [first] = way?.open ?? [];
    return way === undefined || first === undefined ? undefined : this.#opened(first, way);
  }

  #throttle(reason: "throttle-fault" | "throttle-idle", part: NetworkPart): Link {
    const pins = ["throttle-1", "throttle-2", "throttle-3"].filter((pin) => this.#isWired(part, pin));
    return {
      reason,
      place: terminalPlace(part, "throttle-2"),
      touches: pins.map((pin) => terminalPlace(part, pin)),
      missing: unstated(part, "throttleInput"),
    };
  }

  #reference(part: NetworkPart): string {
    const feed = part.values.choice("logicFeed");
    if (feed === "isolated-12v") return "logic-";
    return feed === undefined && this.#isWired(part, "logic-") ? "logic-" : "B-";
  }

  #isWired(part: NetworkPart, terminal: string): boolean {
    return this.#analysis.network.wiresAt([part.part.id, terminal]).length > 0;
  }

  #volts(part: NetworkPart, plus: string, minus: string): number {
    const volts = this.#state.between(part.nodes.get(plus) ?? 0, part.nodes.get(minus) ?? 0);
    return Number.isNaN(volts) ? 0 : volts;
  }

  #isFedAt(part: NetworkPart, terminal: string): boolean {
    return isFed(this.#volts(part, terminal, this.#reference(part)));
  }

  /** The first open link between a pair of terminals and a source; "unfed" or "weak" where none stands open. */
  #fed(part: NetworkPart, plus: string, minus: string, depends: readonly string[] = []): Link {
    const [a, b] = [part.nodes.get(plus), part.nodes.get(minus)];
    const way = a === undefined || b === undefined ? undefined : feedWay(this.#analysis, this.#state, part, a, b);
    const missing = unstated(part, ...depends);
    const own = terminalPlace(part, plus);
    if (way === undefined) {
      const link = this.#link("unfed", own, undefined, missing);
      return { ...link, missing: [...missing, ...this.#outputsAt(part, plus), ...this.#outputsAt(part, minus)] };
    }
    const [first] = way.open;
    if (first === undefined) return this.#link("weak", own, way, missing);
    const link = this.#opened(first, way);
    return { ...link, missing: [...link.missing, ...missing] };
  }

  /** A net with a controller's output of which nobody said which way it drives. */
  #outputsAt(part: NetworkPart, terminal: string): readonly MissingField[] {
    const { network } = this.#analysis;
    const net = network.nets[network.netOfNode[part.nodes.get(terminal) ?? 0] ?? 0];
    return (net?.terminals ?? []).flatMap(([id, at]) => {
      if (!OUTPUT.test(at)) return [];
      const other = network.partById.get(id);
      return other === undefined || other === part ? [] : unstated(other, "contactorDriver", "outputType");
    });
  }

  /** Goes on from a contact that stands open to what should have closed it. */
  #opened(branch: Branch, way: Way): Link {
    const { part } = branch;
    const element = this.#state.elements[branch.index];
    const here = branchPlaces([branch])[0] ?? { sheet: "" };
    if (part === undefined || element?.type !== "contact")
      return { ...this.#link("open", here, way), ends: this.#endsOf(branch) };
    if (this.#asked.has(`${branch.index}`)) {
      // Only its own closing would feed what closes it: nothing does.
      const coil = element.movedBy === "coil" ? part.kind.coils?.(part.values)[0] : undefined;
      if (coil !== undefined) return this.#link("unfed", terminalPlace(part, coil.plus), way);
      return { ...this.#link("open", here, way), ends: this.#endsOf(branch) };
    }
    this.#asked.add(`${branch.index}`);
    const deeper = this.#mover(part, element.movedBy, element.name);
    if (deeper !== undefined) return { ...deeper, touches: [...deeper.touches, ...branchPlaces(way.branches)] };
    const missing = [...unstated(part, ...DECIDING.filter((name) => name !== "contactorDriver"))];
    const follows = element.role === "driver" ? unstated(part, `${element.name.replace(/-driver$/, "")}-follows`) : [];
    return { ...this.#link("open", here, way, [...missing, ...follows]), ends: this.#endsOf(branch) };
  }

  #endsOf({ a, b }: Branch): readonly Place[] {
    return [a, b].flatMap((node) => nodePlace(this.#analysis.network, node) ?? []);
  }

  /** Why the coil, supply or logic behind a contact does not move it; undefined where it is as it should be. */
  #mover(part: NetworkPart, movedBy: string, name: string): Link | undefined {
    if (movedBy === "coil" || movedBy === "logic") {
      const coil = part.kind.coils?.(part.values)[0];
      const pair =
        coil ?? part.kind.supplyPairs(part.values).find(({ main, direction }) => !main && direction === "input");
      if (part.kind.traits.controller === true) return this.#driverOf(part, name);
      if (pair === undefined) return undefined;
      const volts = Math.abs(this.#volts(part, pair.plus, pair.minus));
      const needed = coil?.pickUp ?? FED_ABOVE;
      return volts < needed ? this.#fed(part, pair.plus, pair.minus) : undefined;
    }
    return undefined;
  }

  #driverOf(part: NetworkPart, name: string): Link | undefined {
    const own = this.#state.partStates[part.index] ?? {};
    if (own["logic"] !== "live") return this.#fed(part, "logic+", this.#reference(part), ["logicFeed"]);
    if (own["throttle"] === "fault") return this.#throttle("throttle-fault", part);
    if (!name.startsWith("contactor")) return undefined;
    return this.#link("uncharged", terminalPlace(part, "B+"), undefined);
  }

  #link(reason: Reason, place: Place, way: Way | undefined, missing: readonly MissingField[] = []): Link {
    return {
      reason,
      place,
      touches: [...(way === undefined ? [] : branchPlaces(way.branches)), ...this.#open(reason, place)],
      missing,
    };
  }

  /** Of what nothing feeds or charges: the terminals where a wire may have been forgotten, the parts that should. */
  #open(reason: Reason, place: Place): readonly Place[] {
    if (!("part" in place) || place.terminal === undefined) return [];
    const part = this.#analysis.network.partById.get(place.part);
    if (part === undefined) return [];
    if (reason === "uncharged") return prechargeAround(this.#analysis, part, place.terminal);
    return reason === "unfed" ? openAround(this.#analysis, part, place.terminal) : [];
  }
}
