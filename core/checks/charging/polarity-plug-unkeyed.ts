import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { ClosedFeed } from "../words/closed-feed.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** A plug of which nobody said how many pins it has is drawn with two. */
const DRAWN_POSITIONS = 2;

export const polarityPlugUnkeyed = defineCheck({
  id: "polarity-plug-unkeyed",
  group: "charging",
  title: "Supply plug that mates either way",
  about:
    "Takes every connector of two pins apart and looks for a supply on one half and, on the other, a part that stands only one polarity: a controller, converter, charger, lamp or gauge that says so. Such a plug has to be one that mates one way round only.",
  severities: ["NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    unkeyed: {
      title: "{plug} mates either way round and carries the supply of {loads}.",
      why: "Sooner or later it is put together the wrong way round, in the dark or in a hurry, and the reversed supply destroys {loads}.",
      mend: "Use a plug that mates one way round only, or one whose two pins differ.",
    },
  },
  reasons: {
    unstated: "Whether {plug}, which carries the supply of {loads}, mates one way round only is not stated.",
    polarity: "Whether a reversed supply harms {loads}, should {plug} be mated the wrong way round, is not stated.",
  },
  run(analysis, report) {
    const plugs = analysis.network.parts.filter(
      ({ kind, values }) =>
        kind.traits.connector === true && (values.number("positions") ?? DRAWN_POSITIONS) === DRAWN_POSITIONS,
    );
    let applies = false;
    for (const plug of plugs) {
      const fed = fedThrough(analysis, plug);
      const sure = fed.filter(({ pair }) => pair.polarised);
      const loads = sure.length > 0 ? sure : fed;
      if (fed.length === 0) continue;
      applies = true;
      const place = partPlace(plug);
      const facts = { plug: { place }, loads: { places: [...new Set(loads.map(({ part }) => part))].map(partPlace) } };
      const keyed = plug.values.choice("keyed");
      const own = (parameter: string): MissingField => ({ part: plug.part.id, parameter });
      const missing = ["keyed", "positions"].filter((name) => plug.values.text(name) === undefined).map(own);
      if (keyed === "yes") report.passes(place);
      else if (missing.length > 0) report.notChecked({ where: [place], reason: "unstated", facts, missing });
      else if (sure.length === 0)
        report.notChecked({
          where: [place],
          reason: "polarity",
          facts,
          missing: fed.map(({ part, pair }) => ({ part: part.part.id, parameter: pair.undecided ?? "" })),
        });
      else {
        report.fails({
          message: "unkeyed",
          facts,
          severity: "NOTICE",
          where: [place, ...sure.map(({ part, pair }) => terminalPlace(part, pair.plus))],
          remedies: [
            {
              id: "keyed",
              label: "Use a plug that mates one way round only",
              apply: (project) =>
                execute(
                  project,
                  setParameter,
                  { changes: [{ part: plug.part.id, name: "keyed", value: "yes" }] },
                  KINDS,
                ).project,
            },
          ],
        });
      }
    }
    if (!applies) report.doesNotApply();
  },
});

/** Polarised pairs, or such as may be, that hang on one half of a plug while a supply is on the other. */
function fedThrough(analysis: Analysis, { nodes, firstBranch, branchCount }: NetworkPart): readonly PairAt[] {
  const [any] = analysis.states;
  const ends = ["1a", "2a", "1b", "2b"].map((id) => nodes.get(id));
  const [a1, a2, b1, b2] = ends;
  if (any === undefined || a1 === undefined || a2 === undefined || b1 === undefined || b2 === undefined) return [];
  const without = new Set(Array.from({ length: branchCount }, (_, offset) => firstBranch + offset));
  const feed = new ClosedFeed(analysis, any, { contacts: "closed", converters: true, without });
  const halves: readonly (readonly [NodeIndex, NodeIndex, NodeIndex, NodeIndex])[] = [
    [a1, a2, b1, b2],
    [b1, b2, a1, a2],
  ];
  return halves.flatMap(([from1, from2, to1, to2]) => {
    if (!feed.isSupplied(from1, from2)) return [];
    const poles = [feed.island(to1), feed.island(to2)];
    return supplyPairs(analysis.network).filter(({ pair, plus, minus }) => {
      if (!pair.polarised && pair.undecided === undefined) return false;
      const own = [feed.island(plus), feed.island(minus)];
      return own[0] !== own[1] && own.every((island) => poles.includes(island));
    });
  });
}
