/** A drive that is enabled, or whose contactor is in, although the key is off. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { CONDITIONS } from "../../circuit/conditions.ts";
import { positionOf } from "../../network/build.ts";
import type { NetworkPart } from "../../network/network.ts";
import { referenceOf } from "../../parts/controller-terminals.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { behindKey } from "../remedies/behind-key.ts";
import { closedFeed } from "../words/closed-feed.ts";
import {
  drives,
  isAwake,
  isController,
  isDrawnIn,
  isPowered,
  movedBy,
  running,
  unstatedEnable,
  withMoved,
} from "../words/drive-enable.ts";
import { feedWay } from "../words/feed-path.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";
import { plainStates } from "../words/plain-states.ts";
import { fedBetween, poweredContacts } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const enableBypassesKey = defineCheck({
  id: "enable-bypasses-key",
  group: "controls",
  title: "Drive enabled without the key",
  about:
    "Turns every key switch off while driving (where there is none, every toggle switch) and looks whether a controller's logic and enable pins are still fed, or a main contactor still held in. The same is looked for in every state with the key off, with each control moved once. States on the charger are left out: there a contactor may close to charge. Without a key or a switch there is nothing to bypass.",
  severities: ["DANGER"],
  source: { text: "Common practice: with the key off nothing drives", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    enabled: {
      title: "With {keys} off {part} stays enabled and on the pack: {terminal} is fed past it by way of {path}.",
      why: "A touch of the pedal moves the vehicle although the key is out, and turning the key off does not stop it.",
      mend: "Move the wire that feeds {terminal} to the switched side of {keys}.",
    },
    awake: {
      title: "With {keys} off the control part of {part} stays enabled: {terminal} is fed past it by way of {path}.",
      why: "Only the main contactor then holds the vehicle back; if that has welded, turning the key off stops nothing.",
      mend: "Move the wire that feeds {terminal} to the switched side of {keys}.",
    },
    contactor: {
      title: "With {keys} off {contacts} joins {part} to the pack ({states}).",
      why: "The main contactor closes without anybody having turned the key, so the drive is live while it is taken for dead.",
      mend: "Look for what feeds the coil of {contacts} past {keys} and move it to the switched side, or take that connection away.",
    },
  },
  reasons: {
    never: "Whether {part} is off without the key cannot be told, as it is enabled in no state.",
  },
  foldsUnder: ["held-by-backfeed", "relay-chatter", "coil-sneak-path"],
  run(analysis, report) {
    const { driving, enabled } = running(analysis);
    const all = drives(analysis);
    const keys = locksOf(analysis);
    if (driving === undefined || all.length === 0 || keys.length === 0) {
      report.doesNotApply();
      return;
    }
    const off = withMoved(
      analysis,
      driving,
      movedBy(analysis, driving.condition, OFF, (part) => keys.includes(part)),
    );
    const locked = [off, ...lockedStates(analysis, keys)];
    for (const drive of all) lookAt({ analysis, driving, off, locked, keys, report }, drive, enabled.includes(drive));
  },
});

/** A pair on less than this is on no traction pack. */
const LEAST: Volt = 1;
const OFF = { key: "off", toggle: "off" } as const;

interface Look {
  readonly analysis: Analysis;
  readonly driving: SolvedState;
  /** Driving with the key turned off. */
  readonly off: SolvedState;
  /** Every state in which the key is off and no charger is on mains. */
  readonly locked: readonly SolvedState[];
  readonly keys: readonly NetworkPart[];
  readonly report: Report;
}

/** Key switches; where there is none, what stands off when parked and on when driving and is moved by hand as a toggle. */
function locksOf(analysis: Analysis): readonly NetworkPart[] {
  const wired = analysis.network.parts.filter((part) => isDrawnIn(analysis, part));
  const keys = wired.filter(({ kind }) => kind.traits.key === true);
  if (keys.length > 0) return keys;
  const { driving } = CONDITIONS;
  return wired.filter((part) => positionOf(part, driving) !== positionOf(part, { ...driving, toggle: "off" }));
}

/** States, also with one control moved, that a person gets into without key and without mains. */
function lockedStates(analysis: Analysis, keys: readonly NetworkPart[]): readonly SolvedState[] {
  const plugged = Object.entries(movedBy(analysis, CONDITIONS.parked, { mains: "plugged" }));
  return [...analysis.states, ...analysis.flipped].filter(({ condition }) => {
    if (condition.mains === "plugged") return false;
    const locked = { ...condition, ...OFF, set: {} };
    return (
      keys.every((part) => positionOf(part, condition) === positionOf(part, locked)) &&
      plugged.every(([id, position]) => condition.set[id] !== position)
    );
  });
}

function lookAt(look: Look, drive: TractionPair, everEnabled: boolean): void {
  const { analysis, driving, off, locked, keys, report } = look;
  const { part, place } = drive;
  const facts = { part: { place: partPlace(part) }, keys: { places: keys.map(partPlace) } };
  const pulledIn = locked.filter((state) => contactsIn(analysis, state, drive).length > 0);
  const awake = isController(drive) && isAwake(analysis, off, drive);
  if (awake) {
    const powered = isPowered(analysis, off, drive);
    const path = pathOf(analysis, off, part);
    const terminal = terminalPlace(part, "logic+");
    report.fails({
      message: powered ? "enabled" : "awake",
      facts: { ...facts, terminal: { place: terminal }, path: { places: path.length > 0 ? path : [partPlace(part)] } },
      severity: "DANGER",
      where: [terminal, ...path],
      touches: [place, ...keys.map(partPlace), ...pulledIn.flatMap((state) => contactsIn(analysis, state, drive))],
      states: [off.name],
      remedies: behindKey(analysis, driving, off, keys, [part.part.id, "logic+"]),
    });
  } else if (pulledIn.length > 0) {
    const states = [
      ...new Set(pulledIn.map((state) => (state === off ? `${state.name} with the key off` : state.name))),
    ];
    const contacts = [
      ...new Map(pulledIn.flatMap((s) => contactsIn(analysis, s, drive)).map((p) => [p.part, p])).values(),
    ];
    report.fails({
      message: "contactor",
      facts: { ...facts, contacts: { places: contacts }, states: { states: plainStates(states) } },
      severity: "DANGER",
      where: [...contacts, place],
      touches: keys.map(partPlace),
      states,
      remedies: contacts.length === 1 ? remediesAtCoil(look, contacts[0]?.part) : [],
    });
  } else if (everEnabled) report.passes(place);
  else report.notChecked({ where: [place], reason: "never", facts, missing: unstatedEnable(analysis) });
}

function remediesAtCoil({ analysis, driving, off, keys }: Look, id: string | undefined): readonly Remedy[] {
  const part = id === undefined ? undefined : analysis.network.partById.get(id);
  const [coil] = part?.kind.coils?.(part.values) ?? [];
  return part === undefined || coil === undefined
    ? []
    : behindKey(analysis, driving, off, keys, [part.part.id, coil.plus]);
}

/** Contactors and relays that are held in between the pack and the drive. */
function contactsIn(analysis: Analysis, state: SolvedState, drive: TractionPair): readonly { readonly part: string }[] {
  // Dead metal needs no closer look: most states with the key off are that.
  if (!(Math.abs(state.between(drive.plus, drive.minus)) > LEAST)) return [];
  const fed = fedBetween(analysis, closedFeed(analysis, state), drive);
  return fed === undefined ? [] : poweredContacts(analysis, state, fed).map(({ part }) => ({ part: part.id }));
}

/** Wires from the source's plus to the logic's supply. */
function pathOf(analysis: Analysis, state: SolvedState, part: NetworkPart): readonly Place[] {
  const isWired = (pin: string): boolean => analysis.network.wiresAt([part.part.id, pin]).length > 0;
  const [plus, minus] = [part.nodes.get("logic+"), part.nodes.get(referenceOf(part.values, isWired))];
  if (plus === undefined || minus === undefined) return [];
  const way = feedWay(analysis, state, part, plus, minus);
  const branches = way?.branches ?? [];
  const arrived = branches.findIndex(({ a, b }) => a === plus || b === plus);
  return branchPlaces(branches.slice(0, arrived + 1)).filter((each) => "wire" in each);
}
