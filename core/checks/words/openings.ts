/** Rated contacts that open in transitions: what each one has to interrupt, and when. */
import type { Analysis } from "../../circuit/analysis.ts";
import { TRANSITIONS } from "../../circuit/transition/transition.ts";
import type { Opening, Transition } from "../../circuit/transition/transition.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import type { MissingField } from "../define.ts";
import { assumedOf, followed, ratedContact, sampleBefore } from "./in-time.ts";
import type { Followed } from "./in-time.ts";

/** Below this no arc stands, whatever the voltage (common practice, no source). */
export const LEAST_BROKEN: Ampere = 0.5;

export interface BreakAt {
  readonly transition: Transition;
  readonly opening: Opening;
  /** Just before the metal parted, from line to load. */
  readonly current: Ampere;
  /** The highest that it would have been, had its coil let go sooner, where how soon rests on an assumed inductance. */
  readonly most: Ampere;
  readonly missing: readonly MissingField[];
}

export interface ContactAt {
  readonly part: NetworkPart;
  readonly spec: ContactSpec;
  readonly branch: Branch;
  readonly breaks: readonly BreakAt[];
}

export interface Openings extends Followed {
  readonly contacts: readonly ContactAt[];
}

const remembered = new WeakMap<Analysis, Openings>();

export function openingsOf(analysis: Analysis): Openings {
  let found = remembered.get(analysis);
  if (found === undefined) remembered.set(analysis, (found = find(analysis)));
  return found;
}

function find(analysis: Analysis): Openings {
  const { whole, broken } = followed(analysis, TRANSITIONS);
  const contacts = new Map<Branch, { readonly part: NetworkPart; readonly spec: ContactSpec; breaks: BreakAt[] }>();
  for (const transition of whole) {
    const inductances = assumedOf([transition], "inductance");
    for (const opening of transition.openings) {
      const { part } = opening;
      const branch = analysis.network.branches[opening.branch];
      const spec = ratedContact(analysis, part, opening.branch);
      if (branch === undefined || spec === undefined) continue;
      const field = inductances.get(part);
      const most = field === undefined ? Math.abs(opening.current) : mostBefore(transition, opening);
      const known = contacts.get(branch) ?? { part, spec, breaks: [] };
      known.breaks.push({
        transition,
        opening,
        current: opening.current,
        most,
        missing: field === undefined ? [] : [field],
      });
      contacts.set(branch, known);
    }
  }
  return { whole, broken, contacts: [...contacts].map(([branch, known]) => ({ branch, ...known })) };
}

/** The highest current from the moment at which the coil was switched off. */
function mostBefore(transition: Transition, { part, branch, time }: Opening): Ampere {
  const off = transition.turnOffs.findLast((each) => each.part === part && each.time <= time);
  const currents = transition.currents(branch);
  let most = 0;
  const last = sampleBefore(transition, time);
  for (let k = sampleBefore(transition, off === undefined ? time : time - off.decay); k <= last; k += 1)
    most = Math.max(most, Math.abs(currents[k] ?? 0));
  return most;
}
