/** A new fuse at the beginning of a branch: rated for its load, its wires, its voltage and its short-circuit current. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor, NodeIndex } from "../../network/network.ts";
import type { Ampere, Metre } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { largestRating, POSITION_LIMIT, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import { chooseFuse } from "../../studies/fuse-choice.ts";
import type { FuseQuestion } from "../../studies/fuse-choice.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import { polesOn } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { insertPart } from "./insert-part.ts";

/** Rounded: within 178 mm of the source (33 CFR 183.455(b)). */
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
  const branch = network.branches[first.branch];
  if (place === undefined || branch === undefined) return [];
  const ampacities = wires.map((conductor) => wireAmpacity(analysis, conductor));
  const cable = Math.min(...ampacities.map((ampacity) => (ampacity.known ? ampacity.low : 0)));
  const nominal = nominalVoltage(analysis, walk.feed);
  const load = branchLoad(analysis, branch);
  const question: FuseQuestion = {
    continuous: load.unknown ? undefined : load.high,
    nominal,
    highest: walk.feed.pack?.highest ?? nominal,
    cable,
    prospective: undefined,
  };
  const { answer } = chooseFuse(question);
  const most = largestRating(cable, nominal);
  const rating = load.unknown ? STANDARD_RATINGS.findLast((each) => each <= most) : answer.rating;
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
