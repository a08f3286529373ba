import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place } from "../define.ts";
import { fitDisconnect } from "../remedies/fit-disconnect.ts";
import { ClosedFeed } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { fedBetween, packVolts, tractionPairs } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

/** Below this a pin counts as not loaded by the drive: nobody stated how much the drive draws. */
const LEAST_DRIVE_CURRENT = 1;

export const disconnectMissing = defineCheck({
  id: "disconnect-missing",
  group: "switching",
  title: "No disconnect that works without electricity",
  about:
    "Takes every manual disconnect, every breaker with a handle and every pull-apart connector rated for pack voltage and current as pulled, with all relays where they are in each state, and looks whether closed contacts and wires still feed a controller, a motor or a converter, or above 60 V any traction load. A plug that states no rating does not count; if it is the only one, the check says so instead.",
  severities: ["DANGER"],
  source: { text: "Common practice; UN R100 asks for a service disconnect or equal protection", known: "memory" },
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: "A plug of sufficient rating in a traction lead is itself a disconnect.",
    contact: true,
    rename: true,
  },
  without: {},
  messages: {
    none: {
      title:
        "Nothing opens the traction circuit of the pack at {pack} ({volts}) by hand: {loads} cannot be cut off without electricity.",
      why: "When a contactor has welded or the 12 V side is dead, only a disconnect worked by hand makes the vehicle safe to work on or stops it.",
      mend: "Put a manual disconnect, a breaker with a handle or a pull-apart connector rated for the pack into the lead at {pack}.",
    },
    idle: {
      title: "Pulling {disconnects} cuts nothing off: the pack at {pack} ({volts}) reaches {loads} past it.",
      why: "Whoever pulls the disconnect takes the circuit for dead and may touch a part that is not; in an emergency nothing stops.",
      mend: "Find the wire that leads past {disconnects} and take it off, so that all current of the pack goes through it.",
    },
    bypassed: {
      title: "With {disconnects} out the pack at {pack} ({volts}) still reaches {loads}.",
      why: "Whoever pulls the disconnect takes the circuit for dead and may touch a part that is not.",
      mend: "Move the lead that feeds {loads} to the load side of {disconnects}.",
    },
  },
  reasons: {
    rating:
      "Whether {candidates} can serve as the disconnect of the pack at {pack} depends on what is not stated about it.",
  },
  run(analysis, report) {
    const pairs = tractionPairs(analysis);
    for (const pack of analysis.packs.filter(({ duty }) => duty === "traction")) {
      const place = poleOf(analysis, pack);
      const fed = pairs.filter(({ packs, pair }) => packs.includes(pack) && (pair.main || pack.highest > CLASS_B_DC));
      if (fed.length === 0) {
        report.doesNotApply(place);
        continue;
      }
      const candidates = analysis.network.parts.flatMap((part) => candidateOf(analysis, pack, part) ?? []);
      const sure = candidates.filter(({ missing }) => missing.length === 0);
      const left = stillFed(analysis, fed, sure);
      if (left.length === 0) {
        report.passes(place);
        continue;
      }
      const unsure = candidates.filter(({ missing }) => missing.length > 0);
      if (unsure.length > 0 && stillFed(analysis, left, candidates).length === 0) {
        report.notChecked({
          where: [place],
          reason: "rating",
          facts: {
            pack: { place },
            candidates: { places: unsure.map(({ part }) => partPlace(part)) },
          },
          missing: unsure.flatMap(({ missing }) => missing),
        });
        continue;
      }
      const opened = sure.length > 0 && left.length < fed.length;
      const here = sure.filter(({ branches }) => branches.some((branch) => isOn(analysis, pack, branch)));
      const volts = packVolts([pack]);
      report.fails({
        message: opened ? "bypassed" : here.length > 0 ? "idle" : "none",
        facts: {
          pack: { place },
          volts: { value: volts, dimension: "voltage" },
          loads: { places: uniqueParts(left) },
          disconnects: { places: (opened ? sure : here).map(({ part }) => partPlace(part)) },
        },
        severity: "DANGER",
        where: [place, ...(opened ? [] : here.map(({ part }) => partPlace(part))), ...left.map((pair) => pair.place)],
        states: analysis.states.map(({ name }) => name).filter((name) => name !== "stored"),
        value: volts,
        unit: "V",
        remedies:
          opened || here.length > 0
            ? []
            : fitDisconnect(
                analysis,
                pack,
                (branches) => stillFed(analysis, fed, [...sure, { branches }]).length === 0,
              ),
      });
    }
  },
});

/** A contact on the pack's own metal, not one of the 12 V side. */
function isOn(analysis: Analysis, pack: Pack, index: BranchIndex): boolean {
  const branch = analysis.network.branches[index];
  return (
    branch !== undefined && [branch.a, branch.b].some((node) => belongingAt(analysis, node).traction.includes(pack))
  );
}

interface Candidate {
  readonly part: NetworkPart;
  readonly branches: readonly BranchIndex[];
  readonly missing: readonly MissingField[];
}

function candidateOf(analysis: Analysis, pack: Pack, part: NetworkPart): Candidate | undefined {
  const branches = analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .filter(({ index }) => analysis.states[0]?.elements[index]?.type === "contact")
    .map(({ index }) => index);
  const { traits } = part.kind;
  if (traits.disconnect === true) return { part, branches, missing: [] };
  if (traits.device === "breaker") {
    const manual = part.values.choice("manual");
    if (manual === "no") return undefined;
    return { part, branches, missing: manual === "yes" ? [] : [{ part: part.part.id, parameter: "manual" }] };
  }
  return traits.connector === true ? connectorCandidate(analysis, pack, part, branches) : undefined;
}

/** A plug counts where its pins are rated for the pack's highest voltage and for what they carry. */
function connectorCandidate(
  analysis: Analysis,
  pack: Pack,
  part: NetworkPart,
  branches: readonly BranchIndex[],
): Candidate | undefined {
  const [volts, amps] = [part.values.number("pinVoltage"), part.values.number("pinCurrent")];
  const current = Math.max(
    0,
    ...analysis.states.flatMap((state) => branches.map((branch) => Math.abs(state.currents[branch] ?? 0))),
  );
  if (volts !== undefined && volts < pack.highest) return undefined;
  if (amps !== undefined && amps < current) return undefined;
  const own = [...(volts === undefined ? ["pinVoltage"] : []), ...(amps === undefined ? ["pinCurrent"] : [])];
  const missing: MissingField[] = own.map((parameter) => ({ part: part.part.id, parameter }));
  if (current < LEAST_DRIVE_CURRENT) {
    const silent = analysis.network.parts.filter(
      ({ kind, values }) => kind.traits.controller === true && values.number("currentContinuous") === undefined,
    );
    missing.push(...silent.map((controller) => ({ part: controller.part.id, parameter: "currentContinuous" })));
  }
  return { part, branches, missing };
}

/** Pairs that are fed in some state with these pulled; one fed in no state is looked at with every contact closed. */
function stillFed(
  analysis: Analysis,
  pairs: readonly TractionPair[],
  pulled: readonly Pick<Candidate, "branches">[],
): readonly TractionPair[] {
  const without = new Set(pulled.flatMap(({ branches }) => branches));
  const feeds = new Map<SolvedState, ClosedFeed>();
  const feedIn = (state: SolvedState): ClosedFeed => {
    let feed = feeds.get(state);
    if (feed === undefined) feeds.set(state, (feed = new ClosedFeed(analysis, state, { without })));
    return feed;
  };
  const [any] = analysis.states;
  if (any === undefined) return [];
  const closed = new ClosedFeed(analysis, any, { without, contacts: "closed" });
  return pairs.filter((pair) =>
    pair.states.length > 0
      ? pair.states.some((state) => fedBetween(analysis, feedIn(state), pair) !== undefined)
      : fedBetween(analysis, closed, pair) !== undefined,
  );
}

/** The plus end of a pack; of several blocks side by side the one drawn first. */
function poleOf(analysis: Analysis, pack: Pack): Place {
  const { network } = analysis;
  const number = (part: NetworkPart): number => Number(part.part.id.slice(1));
  const [state] = analysis.states;
  const metal = state === undefined ? undefined : new ClosedFeed(analysis, state, { contacts: "closed" });
  const same = pack.blocks
    .filter(({ nodes }) => {
      const plus = nodes.get("+");
      return plus !== undefined && metal !== undefined && metal.island(plus) === metal.island(pack.positive);
    })
    .sort((a, b) => number(a) - number(b));
  const [first] = same;
  const end = network.terminalOfNode[pack.positive];
  if (first !== undefined) return { part: first.part.id, terminal: "+" };
  return end === undefined ? { part: pack.blocks[0]?.part.id ?? "" } : { part: end[0], terminal: end[1] };
}

function uniqueParts(pairs: readonly TractionPair[]): readonly Place[] {
  return [...new Set(pairs.map(({ part }) => part))].map(partPlace);
}
