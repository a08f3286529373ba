import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { ClosedFeed, closedFeed, isClosedContact, sourceBranches } from "../words/closed-feed.ts";
import { closedAnyway } from "../words/closed-anyway.ts";
import { coilsOf } from "../words/coils.ts";
import { everyState } from "../words/every-state.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";
import { sourceLoops } from "../words/source-loops.ts";
import type { SourceLoop } from "../words/source-loops.ts";
import { StringHeights } from "../words/string-heights.ts";
import { maybeClosed, undecidedFields } from "../words/undecided.ts";

export const stringTap = defineCheck({
  id: "string-tap",
  group: "charging",
  title: "Tap of a string",
  about:
    "Looks in every state at what each load is fed from: a load on some blocks of a string alone empties these and leaves the others full. Meters and monitors are left out, and halves that stand side by side in another state even each other out. It also looks for contacts which, closed together in some state or by a hand, join two points of one string that stand at different volts.",
  severities: ["DANGER", "WARNING"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    load: {
      title: "Only {volts} of a string of {whole} feed {loads}.",
      why: "The blocks that feed them are emptied alone and then overcharged or ruined together with the others, since the charger sees only the whole string.",
      mend: "Feed {loads} from the whole string by a converter, or from a battery of their own.",
    },
    joined: {
      title:
        "Two points of one string that stand {volts} apart are joined by {contacts}: {current} flow through {blocks}.",
      why: "The blocks in between are shorted as soon as the contacts are closed together; the fuse blows or the contact welds, and the blocks may burst.",
      mend: "Take off the lead that joins the second point, or let one contact change over, so that never both are joined.",
    },
  },
  reasons: {
    undecided: "From which part of the string current reaches {loads} depends on what is not stated about a contact.",
  },
  foldsUnder: ["block-reversed", "supply-reversed"],
  run(analysis, report) {
    const joints = jointsOf(analysis);
    const consumers = consumersOf(analysis);
    for (const joint of joints) {
      const blocks = partsOf(joint.loop.driving);
      report.fails({
        message: "joined",
        facts: {
          contacts: { places: partsOf(joint.contacts) },
          blocks: { places: blocks },
          volts: { value: joint.volts, dimension: "voltage" },
          current: { value: joint.loop.current, dimension: "current" },
        },
        severity: "DANGER",
        where: [...partsOf(joint.contacts), ...blocks],
        touches: [...branchPlaces(joint.loop.branches), ...behind(analysis, joint, consumers)],
        states: joint.states,
        value: joint.loop.current,
        unit: "A",
      });
    }
    const joined = new Set(joints.flatMap(({ loop }) => loop.branches.flatMap(({ a, b }) => [a, b])));
    const shorted = new Set(joints.flatMap(({ states }) => states));
    if (consumers.length === 0 && joints.length === 0) report.doesNotApply();
    const tapped = new Map<string, { readonly tap: Tap; readonly loads: Consumer[]; readonly states: Set<string> }>();
    for (const consumer of consumers) {
      const taps = tapsOf(analysis, consumer, shorted);
      if (taps === undefined) {
        if (!mayBeTapped(analysis, consumer)) {
          report.doesNotApply(consumer.place);
          continue;
        }
        report.notChecked({
          where: [consumer.place],
          reason: "undecided",
          facts: { loads: { places: [consumer.place] } },
          missing: undecidedFields(analysis),
        });
      } else if (taps.length > 0) {
        const [tap] = taps;
        if (tap === undefined || isOn(analysis, tap, consumer, joined)) continue;
        const key = `${Math.round(tap.volts)} ${tap.key}`;
        const known = tapped.get(key);
        const names = taps.map(({ state }) => state.name);
        if (known === undefined) tapped.set(key, { tap, loads: [consumer], states: new Set(names) });
        else {
          known.loads.push(consumer);
          for (const name of names) known.states.add(name);
        }
      } else report.passes(consumer.place);
    }
    for (const { tap, loads, states } of tapped.values()) {
      const places = loads.map(({ place }) => place);
      report.fails({
        message: "load",
        facts: {
          loads: { places: [...new Set(loads.map(({ part }) => part))].map((part) => ({ part })) },
          volts: { value: tap.volts, dimension: "voltage" },
          whole: { value: tap.whole, dimension: "voltage" },
        },
        severity: "WARNING",
        where: places,
        states: [...states],
        value: tap.volts,
        limit: tap.whole,
        unit: "V",
      });
    }
  },
});

interface Consumer {
  readonly part: string;
  readonly place: Place;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
}

/** Supply pairs of loads, and coils. */
function consumersOf(analysis: Analysis): readonly Consumer[] {
  const pairs = supplyPairs(analysis.network).flatMap(({ part, pair, plus, minus, wired }) =>
    wired && pair.direction === "input" && part.kind.traits.load === true && part.kind.traits.charger !== true
      ? [{ part: part.part.id, place: terminalPlace(part, pair.plus), plus, minus }]
      : [],
  );
  const coils = coilsOf(analysis).flatMap(({ part, coil, plus, minus, wired }) =>
    wired ? [{ part: part.part.id, place: terminalPlace(part, coil.plus), plus, minus }] : [],
  );
  return [...pairs, ...coils];
}

interface Tap {
  readonly state: SolvedState;
  readonly volts: Volt;
  readonly whole: Volt;
  /** Islands at its two ends. */
  readonly key: string;
}

const remembered = new WeakMap<SolvedState, StringHeights>();

function heightsIn(analysis: Analysis, state: SolvedState): StringHeights {
  let heights = remembered.get(state);
  if (heights === undefined) remembered.set(state, (heights = new StringHeights(analysis, state)));
  return heights;
}

/** States in which a part of a string feeds it; empty where the whole does in some; undefined where nothing is known to. */
function tapsOf(
  analysis: Analysis,
  { plus, minus }: Consumer,
  shorted: ReadonlySet<string>,
): readonly Tap[] | undefined {
  const fed = analysis.states.filter(
    (state) => !shorted.has(state.name) && closedFeed(analysis, state).isFed(plus, minus),
  );
  if (fed.length === 0) return undefined;
  const taps = fed.flatMap((state): readonly Tap[] => {
    const part = heightsIn(analysis, state).part(plus, minus);
    const feed = closedFeed(analysis, state);
    return part === undefined ? [] : [{ state, ...part, key: `${feed.island(plus)} ${feed.island(minus)}` }];
  });
  return taps.length < fed.length || taps.some((tap) => isEvenedOut(analysis, tap, plus, minus)) ? [] : taps;
}

/** In another state the batteries that feed it stand side by side with others, over all of their string. */
function isEvenedOut(analysis: Analysis, { state }: Tap, plus: NodeIndex, minus: NodeIndex): boolean {
  const feeding = heightsIn(analysis, state).between(plus, minus);
  const feed = closedFeed(analysis, state);
  const ends = feeding.flatMap(({ a, b }) => [a, b]);
  const top = ends.find((node) => feed.island(node) === feed.island(plus));
  const bottom = ends.find((node) => feed.island(node) === feed.island(minus));
  if (top === undefined || bottom === undefined) return false;
  return analysis.states.some((other) => {
    const heights = heightsIn(analysis, other);
    const around = heights.around(top, bottom);
    const isSideBySide = feeding.every((source) => around.includes(source)) && around.length > feeding.length;
    return isSideBySide && heights.part(top, bottom) === undefined;
  });
}

/** With what may be closed taken as closed, a part of a string would feed it. */
function mayBeTapped(analysis: Analysis, { plus, minus }: Consumer): boolean {
  return analysis.states.some((state) => {
    const also = maybeClosed(analysis, state);
    if (also.size === 0 || closedFeed(analysis, state).isFed(plus, minus)) return false;
    const feed = new ClosedFeed(analysis, state, { also });
    return feed.isFed(plus, minus) && new StringHeights(analysis, state, feed).part(plus, minus) !== undefined;
  });
}

/** The inner end of a load's tap lies on a loop that is told already. */
function isOn(analysis: Analysis, { state }: Tap, { plus, minus }: Consumer, joined: ReadonlySet<NodeIndex>): boolean {
  const feed = closedFeed(analysis, state);
  const inner = [plus, minus].filter((node) => heightsIn(analysis, state).isInner(node));
  return inner.some((node) => [...joined].some((other) => feed.island(other) === feed.island(node)));
}

interface Joint {
  readonly loop: SourceLoop;
  readonly contacts: readonly Branch[];
  readonly volts: Volt;
  readonly states: string[];
}

/** Loops through closed contacts that some blocks of a string drive and not all of them, each set of contacts once. */
function jointsOf(analysis: Analysis): readonly Joint[] {
  const found: Joint[] = [];
  const look = (state: SolvedState, name: string, loops: readonly SourceLoop[]): void => {
    for (const loop of loops) {
      const contacts = oftenestOpen(analysis, loop.branches);
      const volts = emfOf(state, loop.driving) - emfOf(state, loop.charged);
      if (contacts.length === 0 || !isOfTap(analysis, state, contacts, loop)) continue;
      const known = found.findIndex((joint) => joint.contacts.some((contact) => contacts.includes(contact)));
      const before = found[known];
      if (before === undefined) found.push({ loop, contacts, volts, states: [name] });
      else {
        const states = before.states.includes(name) ? before.states : [...before.states, name];
        const worse = loop.current > before.loop.current * 1.000001;
        found[known] = worse ? { loop, contacts, volts, states } : { ...before, states };
      }
    }
  };
  for (const state of everyState(analysis)) {
    for (const charging of [false, true]) look(state, state.name, sourceLoops(analysis, state, charging));
  }
  for (const { state, name, joints } of closedAnyway(analysis))
    look(state, name, sourceLoops(analysis, state, false, joints));
  return found;
}

/** The contacts of a loop that most operating states open: a disconnect in the pack's lead is not what joins the points. */
function oftenestOpen({ states }: Analysis, branches: readonly Branch[]): readonly Branch[] {
  const counted = branches
    .filter(({ role }) => role === "contact")
    .map((branch) => ({ branch, times: states.filter((state) => !isClosedContact(state, branch)).length }));
  const most = Math.max(0, ...counted.map(({ times }) => times));
  return most === 0 ? [] : counted.filter(({ times }) => times === most).map(({ branch }) => branch);
}

/** Loads that hang on the loop's own metal: what the second point feeds while the contact is open follows from it. */
function behind(analysis: Analysis, { loop }: Joint, consumers: readonly Consumer[]): readonly Place[] {
  const [any] = analysis.states;
  if (any === undefined) return [];
  const feed = closedFeed(analysis, any);
  const onLoop = new Set(
    loop.branches.filter(({ role }) => role === "contact").flatMap(({ a, b }) => [feed.island(a), feed.island(b)]),
  );
  return consumers
    .filter(({ plus, minus }) => onLoop.has(feed.island(plus)) || onLoop.has(feed.island(minus)))
    .map(({ part }) => ({ part }));
}

function emfOf(state: SolvedState, sources: readonly Branch[]): Volt {
  return sources.reduce((sum, { index }) => {
    const element = state.elements[index];
    return element?.type === "source" ? sum + element.emf : sum;
  }, 0);
}

/**
 * With its contacts open the string goes on beyond one end of what drives it, and no battery of it is shorted by wires
 * alone.
 */
function isOfTap(
  analysis: Analysis,
  state: SolvedState,
  contacts: readonly Branch[],
  { driving }: SourceLoop,
): boolean {
  if (driving.some(({ part }) => part?.kind.traits.battery !== true)) return false;
  const feed = new ClosedFeed(analysis, state, { without: new Set(contacts.map(({ index }) => index)) });
  const ends = driving.map(({ a, b }) => ({ plus: feed.island(a), minus: feed.island(b) }));
  if (ends.some(({ plus, minus }) => plus === minus)) return false;
  const top = ends.filter(({ plus }) => ends.every(({ minus }) => minus !== plus)).map(({ plus }) => plus);
  const bottom = ends.filter(({ minus }) => ends.every(({ plus }) => plus !== minus)).map(({ minus }) => minus);
  return sourceBranches(analysis).some(
    (source) =>
      !driving.includes(source) &&
      feed.island(source.a) !== feed.island(source.b) &&
      (bottom.includes(feed.island(source.a)) || top.includes(feed.island(source.b))),
  );
}

function partsOf(branches: readonly Branch[]): readonly Place[] {
  const parts = [...new Set(branches.flatMap(({ part }) => part ?? []))];
  return parts.sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1))).map(partPlace);
}
