/** Puts a switch into the feed of the main contactor's coil: the drive loses its pack when it opens. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Wire } from "../../project/document.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import type { Remedy } from "../define.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { closedFeed, ClosedFeed } from "../words/closed-feed.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { fedBetween } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";
import { remedy } from "./edit.ts";
import { atLeast } from "./exchange-device.ts";
import { insertPart } from "./insert-part.ts";

export interface FittedSwitch {
  readonly kind: string;
  readonly parameters?: Readonly<Record<string, string>>;
  /** Closed while driving: towards the source, towards the coil. */
  readonly terminals: readonly [string, string];
  /** "an emergency stop" */
  readonly named: string;
}

/** A switch near at hand and the coil lie apart: the new piece of wire goes from the coil to the switch. */
const LEAD = "1 m";

/**
 * Offered where one contactor cuts off all these drives and one wire alone feeds its coil, which takes up its own
 * current: what the switch now breaks no output can take up any more.
 */
export function switchInCoilFeed(
  analysis: Analysis,
  drives: readonly TractionPair[],
  fitted: FittedSwitch,
): readonly Remedy[] {
  for (const at of coilsOf(analysis)) {
    if (!cutsOff(analysis, at, drives) || !isSuppressed(analysis, at)) continue;
    const feed = feedOf(analysis, at);
    if (feed === undefined) continue;
    const { kind, parameters = {}, terminals, named } = fitted;
    const { current, volts } = loadOf(analysis, at, feed);
    const { id, designation } = at.part.part;
    const contactCurrent = atLeast(current, "A");
    const contactVoltage = atLeast(volts, "V");
    const label = `Fit ${named} made for ${contactCurrent}, ${contactVoltage} DC into the feed of ${designation}:${at.coil.plus}`;
    return [
      remedy("fit-switch", label, (edit) => {
        const end = feed.ends[0]?.[0] === id && feed.ends[0][1] === at.coil.plus ? 0 : 1;
        const finish = volts > CLASS_B_DC ? { finish: "booted" } : {};
        const added = { kind, parameters: { ...parameters, contactVoltage, contactCurrent, ...finish } };
        insertPart(edit, added, { wire: feed, end, lead: LEAD, terminals: [terminals[1], terminals[0]] });
      }),
    ];
  }
  return [];
}

/** Is every one of these fed while driving, and by way of this contactor alone? */
function cutsOff(analysis: Analysis, { part, wired }: CoilAt, drives: readonly TractionPair[]): boolean {
  const driving = analysis.state("driving");
  if (!wired || part.kind.traits.contactor !== true || driving === undefined) return false;
  const without = new Set(Array.from({ length: part.branchCount }, (_, index) => part.firstBranch + index));
  const opened = new ClosedFeed(analysis, driving, { without });
  return drives.every(
    (drive) =>
      fedBetween(analysis, closedFeed(analysis, driving), drive) !== undefined &&
      fedBetween(analysis, opened, drive) === undefined,
  );
}

/** Parts of two terminals that lie across the coil, each on wires of its own. */
function across({ network }: Analysis, { part, coil }: CoilAt): ReadonlySet<string> {
  const far = (terminal: string): readonly string[] =>
    network
      .wiresAt([part.part.id, terminal])
      .flatMap(({ ends }) => ends.flatMap((end) => (end === null || end[0] === part.part.id ? [] : [end[0]])));
  const behind = new Set(far(coil.minus));
  return new Set(far(coil.plus).filter((id) => behind.has(id) && network.partById.get(id)?.terminals.length === 2));
}

function isSuppressed(analysis: Analysis, at: CoilAt): boolean {
  return (at.coil.suppression ?? "none") !== "none" || across(analysis, at).size > 0;
}

function feedOf(analysis: Analysis, at: CoilAt): Wire | undefined {
  const beside = across(analysis, at);
  const { part, coil } = at;
  const wires = analysis.network
    .wiresAt([part.part.id, coil.plus])
    .filter(({ ends }) => !ends.some((end) => end !== null && beside.has(end[0])));
  const [feed, ...others] = wires;
  return others.length > 0 ? undefined : feed;
}

function loadOf(
  analysis: Analysis,
  { coil, plus, minus }: CoilAt,
  feed: Wire,
): { readonly current: Ampere; readonly volts: Volt } {
  const { states, network } = analysis;
  const branch = network.conductorByWire.get(feed.id)?.branch ?? -1;
  const currents = states.map((state) => Math.abs(state.currents[branch] ?? 0));
  const { traction, auxiliary } = belongingAt(analysis, plus);
  const across = states.map((state) => Math.abs(state.between(plus, minus))).filter(Number.isFinite);
  const volts = Math.max(0, ...across, chemistryRange([...traction, ...auxiliary]).most);
  // One that economises draws more while it pulls in than any state shows.
  return { current: Math.max(volts / (coil.resistance ?? Infinity), ...currents), volts };
}
