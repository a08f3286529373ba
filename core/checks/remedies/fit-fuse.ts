/** A new fuse at the beginning of a branch: rated for its load, its wires, its voltage and its short-circuit current. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Ampere, Metre } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { largestRating, POSITION_LIMIT, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import { chooseFuse } from "../../studies/fuse-choice.ts";
import type { FuseQuestion } from "../../studies/fuse-choice.ts";
import { feeds } from "../../studies/words/feeds.ts";
import { wireCurrents } from "../../studies/words/wire-currents.ts";
import { polesOn, walks, wayTo } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { insertPart } from "./insert-part.ts";

/** Wire between a source and the fuse beside it: within 178 mm of the source (33 CFR 183.455(b)). */
export const LEAD: Metre = Math.floor(POSITION_LIMIT * 20) / 20;

export interface Branching {
  /** The source's circuit, in a state in which the branch is fed. */
  readonly walk: Walk;
  /** The first wire of the branch, and its node towards the source. */
  readonly first: Conductor;
  readonly near: NodeIndex;
  /** Wires that the fuse has to protect. */
  readonly wires: readonly Conductor[];
}

/**
 * The smallest standard rating that carries the load with a fifth to spare; of unknown load the largest that may
 * protect the wires. None where the wires cannot be protected at that rating, or where their ampacity is unknown.
 */
export function fitFuse(analysis: Analysis, branching: Branching): readonly Remedy[] {
  const { walk, first, near, wires } = branching;
  const { network } = analysis;
  const place = network.terminalOfNode[near];
  if (place === undefined) return [];
  const cable = ampacityOf(analysis, wires);
  const nominal = nominalVoltage(analysis, walk.feed);
  const continuous = demand(analysis, branching);
  const question: FuseQuestion = {
    continuous,
    nominal,
    highest: walk.feed.pack?.highest ?? nominal,
    cable,
    prospective: undefined,
  };
  const { answer } = chooseFuse(question);
  const most = largestRating(cable, nominal);
  const rating = continuous === undefined ? STANDARD_RATINGS.findLast((each) => each <= most) : answer.rating;
  if (rating === undefined || rating > most) return [];
  return [
    remedy("fit-fuse", `Fit a fuse of ${rating} A at ${network.label(place)}`, (edit) => {
      const prospective = shortCurrent(analysis, branching);
      insertPart(
        edit,
        { kind: "fuse", parameters: fuseParameters({ ...question, prospective }, rating) },
        { wire: first.wire, end: first.a === near ? 0 : 1, lead: `${LEAD} m`, terminals: ["1", "2"] },
      );
    }),
  ];
}

/** Of the thinnest; 0 where one is not known. */
export function ampacityOf(analysis: Analysis, wires: readonly Conductor[]): Ampere {
  const ampacities = wires.map((conductor) => wireAmpacity(analysis, conductor));
  return Math.min(...ampacities.map((ampacity) => (ampacity.known ? ampacity.low : 0)));
}

/**
 * What the branch carries for good, a drive its stated continuous current and an output its limit even where the drawing does not let it run.
 * Undefined: unknown, as something behind the fuse draws in no state.
 */
export function demand(analysis: Analysis, { walk, first }: Branching): Ampere | undefined {
  const load = wireCurrents(analysis).get(first);
  if (load === undefined || load.unlimited.length > 0) return undefined;
  const inString = walk.poles.has(first.a) && walk.poles.has(first.b);
  let { most } = load;
  // What a drive lacks of data does not matter where it states what it carries for good.
  let known = load.drive === undefined;
  for (const { part, pair, plus, minus } of supplyPairs(analysis.network)) {
    const isBehind = walks(analysis).some(
      (each) =>
        each.feed === walk.feed &&
        [plus, minus].every((node) => each.labels.has(node)) &&
        (inString || [plus, minus].some((node) => wayTo(each, node).some(({ index }) => index === first.branch))),
    );
    if (!isBehind || part.kind.traits.battery === true) continue;
    if (pair.direction === "output") {
      const limit = feeds(analysis).find(({ parts, storage }) => !storage && parts.includes(part))?.limit;
      if (limit === undefined) return undefined;
      most = Math.max(most, limit);
      continue;
    }
    const drive = pair.main && (part.kind.traits.controller === true || part.kind.traits.motor === true);
    if (!drive && !draws(analysis, part)) return undefined;
    const rated = drive ? part.values.number("currentContinuous") : 0;
    if (rated === undefined) return undefined;
    known ||= drive;
    most = Math.max(most, rated);
  }
  return known ? most : undefined;
}

/** Below this a part is switched off: what it then draws says nothing of what it draws when on. */
const ON: Ampere = 1e-3;

function draws(analysis: Analysis, { firstBranch, branchCount }: NetworkPart): boolean {
  const own = Array.from({ length: branchCount }, (_, index) => firstBranch + index);
  return analysis.states.some(({ currents }) => own.some((index) => Math.abs(currents[index] ?? 0) > ON));
}

function fuseParameters(question: FuseQuestion, rating: Ampere): Readonly<Record<string, string>> {
  const { highest, prospective } = question;
  const { fuseClass } = chooseFuse({ ...question, continuous: question.continuous ?? rating }).answer;
  return {
    rating: `${rating} A`,
    curve: fuseClass,
    voltageDc: atLeast(highest, "V"),
    ...(prospective === undefined ? {} : { interrupting: atLeast(prospective, "A") }),
    ...(highest > CLASS_B_DC ? { finish: "booted" } : {}),
  };
}

/** What a dead short right behind the fuse's place drives at most; an output no more than its limit. */
function shortCurrent(analysis: Analysis, { walk, near }: Branching): Ampere | undefined {
  if (!walk.feed.storage) return walk.feed.limit;
  const [plus, minus] = [polesOn(walk, "plus")[0], polesOn(walk, "minus")[0]];
  const from = walk.labels.get(near)?.side === "minus" ? minus : plus;
  const to = from === minus ? plus : minus;
  if (from === undefined || to === undefined) return undefined;
  // Between the blocks of a string it has to break what the whole string drives.
  const at = walk.labels.get(near)?.side === "middle" ? from : near;
  const change = { shorts: [[at, to] as const], hold: true, resistances: "lowest" as const };
  return Math.abs(analysis.solveChanged(walk.state, change).shortCurrents.at(-1) ?? 0);
}
