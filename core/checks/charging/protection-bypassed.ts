import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireEnd } from "../../project/document.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { pairsBeside, signalsBeside, unknownMetal, withoutGuard } from "../words/returns-beside.ts";
import type { Guard } from "../words/returns-beside.ts";
import { drivePairs } from "../words/traction-pairs.ts";

export const protectionBypassed = defineCheck({
  id: "protection-bypassed",
  group: "charging",
  title: "Current beside the protection",
  about:
    "Takes out, one at a time, the switches inside a battery monitor, the shunt of a gauge in the pack's lead, and a switch in the minus lead of a drive whose plus stays on the pack, and looks what still leads round it with every other contact closed: a charger or load on the wrong side, a signal's or a serial line's ground. Meters and the monitor itself are left out.",
  severities: ["WARNING"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    monitor: {
      title: "Current passes beside {guard} by way of {returns}, and its switches cannot cut that off.",
      why: "The monitor opens its switches when a cell is too full or too empty, and the current goes on beside it.",
      mend: "Take {returns} to the port of {guard} that is meant for it, and nothing but {guard} to the pack's minus.",
    },
    shunt: {
      title: "The current of {returns} passes beside the shunt {guard}.",
      why: "What does not pass the shunt is not counted, so that the gauge shows charge that is not there, or misses charge that is.",
      mend: "Take the lead of {returns} to the far side of {guard}, so that {guard} alone is on the pack.",
    },
    switch: {
      title: "With {guard} open the drive is still joined to the pack's minus by way of {returns}.",
      why: "The drive's plus stays on the pack, so that with the switch open its minus rises to nearly pack voltage and pushes current through this small path, which destroys what is in it.",
      mend: "Put the switch into the plus lead instead, or take {returns} to the drive's side of {guard}.",
    },
    metal: {
      title: "Metal leads round {guard} from one side to the other, even with {guard} open.",
      why: "A ground wire or a signal's ground then carries what {guard} is meant to cut or to count, and more than such a wire stands.",
      mend: "Find the wire or the ground that joins both sides of {guard} and take it off, or isolate the port it leads to.",
    },
  },
  reasons: {
    barrier: "Whether metal leads round {guard} depends on an isolation that is not stated.",
  },
  run(analysis, report) {
    const guards = [...monitorGuards(analysis), ...shuntGuards(analysis), ...switchGuards(analysis)];
    if (guards.length === 0) report.doesNotApply();
    for (const guard of guards) judge(analysis, guard, report);
  },
});

interface Guarded extends Guard {
  readonly message: "monitor" | "shunt" | "switch";
  readonly pack: Pack;
  /** On the pack's side. */
  readonly inner: NodeIndex;
  /** On the other side. */
  readonly outer: readonly NodeIndex[];
  /** Looked at with the guard out. */
  readonly feed: ClosedFeed;
  /** Its returns beside. */
  readonly returns: readonly Place[];
}

function judge(analysis: Analysis, guard: Guarded, report: Report): void {
  const { part, feed, inner, outer, returns } = guard;
  const place = partPlace(part);
  const facts = { guard: { place }, returns: { places: returns } };
  const isMetal = outer.some((node) => feed.island(node) === feed.island(inner));
  if (isMetal || returns.length > 0) {
    report.fails({
      message: isMetal ? "metal" : guard.message,
      facts,
      severity: "WARNING",
      where: [place, ...(isMetal ? [] : returns)],
      // A signal's return has to go with its part, which takes more than one edit.
      remedies: isMetal || guard.message === "switch" ? [] : moves(analysis, guard),
    });
    return;
  }
  const missing = outer.flatMap((node) => unknownMetal(analysis, feed, node, inner));
  if (missing.length > 0) report.notChecked({ where: [place], reason: "barrier", facts, missing });
  else report.passes(place);
}

/** Every return ends in one wire: its far end goes to the guard's own terminal on the far side. */
function moves({ network }: Analysis, guard: Guarded): readonly Remedy[] {
  const edits = guard.returns.map((place) => {
    if (!("part" in place) || place.terminal === undefined) return undefined;
    const own: WireEnd = [place.part, place.terminal];
    const [wire, ...more] = network.wiresAt(own);
    if (wire === undefined || more.length > 0) return undefined;
    const end: 0 | 1 = wire.ends[0]?.[0] === own[0] && wire.ends[0][1] === own[1] ? 1 : 0;
    const isCharger = network.partById.get(place.part)?.kind.traits.charger === true;
    // A monitor's last port is the one for charging.
    const node = guard.outer.at(isCharger ? -1 : 0);
    const to = node === undefined ? undefined : network.terminalOfNode[node];
    return to === undefined ? undefined : { wire: wire.id, end, to };
  });
  const known = edits.flatMap((edit) => edit ?? []);
  if (known.length < edits.length || known.length === 0) return [];
  return [
    {
      id: "through-guard",
      label: "Move what passes beside it to its far side",
      apply: (project) => known.reduce((done, edit) => execute(done, reconnect, edit, KINDS).project, project),
    },
  ];
}

function branchesOf(analysis: Analysis, { firstBranch, branchCount }: NetworkPart): readonly Branch[] {
  return analysis.network.branches.slice(firstBranch, firstBranch + branchCount);
}

function returnsOf(analysis: Analysis, feed: ClosedFeed, pack: Pack, part: NetworkPart): readonly Place[] {
  return pairsBeside(analysis, feed, pack, part).map((at) => terminalPlace(at.part, at.pair.minus));
}

/** Monitors whose pack side and at least one port are wired. */
function monitorGuards(analysis: Analysis): readonly Guarded[] {
  return analysis.network.parts.flatMap((part): readonly Guarded[] => {
    if (part.kind.traits.monitor !== true) return [];
    const isWired = (id: string): boolean => analysis.network.wiresAt([part.part.id, id]).length > 0;
    const branches = branchesOf(analysis, part).filter(({ role }) => role === "contact" || role === "diode");
    const inner = part.nodes.get("B-");
    const outer = ["P-", "C-"].filter(isWired).flatMap((id) => part.nodes.get(id) ?? []);
    if (branches.length === 0 || inner === undefined || !isWired("B-") || outer.length === 0) return [];
    const feed = withoutGuard(analysis, { part, branches });
    const pack = feed?.packsAt(inner)[0];
    if (feed === undefined || pack === undefined) return [];
    const [drive, charge] = ["P-", "C-"].map((id) => (isWired(id) ? part.nodes.get(id) : undefined));
    const misled =
      drive === undefined || charge === undefined ? [] : chargersOnDrivePort(analysis, feed, drive, charge);
    const returns = [...returnsOf(analysis, feed, pack, part), ...misled];
    return [{ part, branches, message: "monitor", pack, inner, outer, feed, returns }];
  });
}

/** Where charging has a port of its own, the body diode of the other one lets a charger on it go on. */
function chargersOnDrivePort(
  analysis: Analysis,
  feed: ClosedFeed,
  drive: NodeIndex,
  charge: NodeIndex,
): readonly Place[] {
  if (feed.island(drive) === feed.island(charge)) return [];
  return supplyPairs(analysis.network).flatMap(({ part, pair, minus }) =>
    part.kind.traits.charger === true && pair.direction === "output" && feed.island(minus) === feed.island(drive)
      ? [terminalPlace(part, pair.minus)]
      : [],
  );
}

/** Shunts with a meter, in the pack's lead ahead of a drive. */
function shuntGuards(analysis: Analysis): readonly Guarded[] {
  const drives = drivePairs(analysis);
  return analysis.network.branches.flatMap((branch): readonly Guarded[] => {
    const { part, role } = branch;
    if (role !== "shunt" || part === undefined) return [];
    if (!["sense-line", "sense-load"].every((id) => analysis.network.wiresAt([part.part.id, id]).length > 0)) return [];
    const feed = withoutGuard(analysis, { part, branches: [branch] });
    if (feed === undefined || feed.island(branch.a) === feed.island(branch.b)) return [];
    const pack = tractionPacks(analysis).find(({ positive, negative }) =>
      [branch.a, branch.b].some((node) => [positive, negative].some((pole) => feed.island(pole) === feed.island(node))),
    );
    if (pack === undefined || drives.length === 0 || drives.some(({ plus, minus }) => feed.isFed(plus, minus)))
      return [];
    const isInner = (node: NodeIndex): boolean =>
      [pack.positive, pack.negative].some((pole) => feed.island(pole) === feed.island(node));
    const [inner, outer] = isInner(branch.a) ? [branch.a, branch.b] : [branch.b, branch.a];
    const beside = pairsBeside(analysis, feed, pack, part).filter(
      ({ part: other, pair }) => pair.main || other.kind.traits.charger === true,
    );
    const returns = beside.map((at) =>
      terminalPlace(at.part, feed.island(at.plus) === feed.island(inner) ? at.pair.plus : at.pair.minus),
    );
    return [{ part, branches: [branch], message: "shunt", pack, inner, outer: [outer], feed, returns }];
  });
}

/** Powered contacts in the minus lead of a drive whose plus is on the pack while they are open. */
function switchGuards(analysis: Analysis): readonly Guarded[] {
  const [any] = analysis.states;
  const drives = drivePairs(analysis);
  if (any === undefined || drives.length === 0) return [];
  const closed = new ClosedFeed(analysis, any, { contacts: "closed" });
  return drives.flatMap(({ packs, plus, minus }): readonly Guarded[] => {
    const [pack] = packs;
    if (pack === undefined || closed.island(minus) !== closed.island(pack.negative)) return [];
    return analysis.network.branches.flatMap((branch): readonly Guarded[] => {
      const { part, index, a, b } = branch;
      const element = any.elements[index];
      if (part === undefined || element?.type !== "contact" || branch.role !== "contact") return [];
      if (part.kind.traits.monitor === true || (element.movedBy !== "coil" && element.movedBy !== "logic")) return [];
      if (closed.island(a) !== closed.island(minus)) return [];
      const open = analysis.states.some((state) => {
        const contact = state.elements[index];
        const feed = closedFeed(analysis, state);
        return contact?.type === "contact" && !contact.closed && feed.island(plus) === feed.island(pack.positive);
      });
      if (!open) return [];
      const own = branchesOf(analysis, part).filter(
        ({ role, a: from, b: to }) =>
          (role === "contact" || role === "diode") && [a, b].includes(from) && [a, b].includes(to),
      );
      const feed = withoutGuard(analysis, { part, branches: own });
      if (feed === undefined) return [];
      const inner = feed.island(a) === feed.island(pack.negative) ? a : b;
      const outer = inner === a ? b : a;
      const isInLead = feed.island(inner) === feed.island(pack.negative) && feed.island(outer) === feed.island(minus);
      if (!isInLead) return [];
      const returns = signalsBeside(analysis, feed, part, outer, inner, pack.positive);
      return [{ part, branches: own, message: "switch", pack, inner, outer: [outer], feed, returns }];
    });
  });
}
