import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { maybeClosed, undecidedFields } from "../words/undecided.ts";

export const meterUnfed = defineCheck({
  id: "meter-unfed",
  group: "charging",
  title: "Meter that sleeps when it should count",
  about:
    "Looks in which states the supply of every gauge and display is fed through closed contacts. One that measures a shunt has to count while charging too, where the charging current passes that shunt; any other has to show something before the vehicle moves, with the key on. A meter that its measured voltage feeds has no supply to look at.",
  severities: ["NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    charge: {
      title: "{meter} counts what passes its shunt in {states}, but is dead while the vehicle is charged.",
      why: "What goes back into the battery is then never counted, so that its reading runs down from day to day and means nothing.",
      mend: "Feed {meter} while charging as well, for instance straight from the battery through a small fuse, or by a contact of the charge flap.",
    },
    still: {
      title: "{meter} is fed in {states} alone and dead until the vehicle moves.",
      why: "A driver reads a gauge before he sets off; one that wakes with the pedal shows an empty battery too late.",
      mend: "Feed {meter} from the key switch, ahead of pedals and drive.",
    },
  },
  reasons: {
    undecided: "In which states {meter} is fed depends on what is not stated about a contact.",
  },
  run(analysis, report) {
    const meters = supplyPairs(analysis.network).filter(isMeter);
    if (meters.length === 0) report.doesNotApply();
    const resting = analysis.states.filter(({ condition, name }) => condition.drive === "none" && name !== "stored");
    const driving = analysis.states.filter(
      ({ condition }) => condition.drive !== "none" && condition.emergencyStop === "released",
    );
    const supplies = new Supplies(analysis);
    for (const meter of meters) {
      const place = terminalPlace(meter.part, meter.pair.plus);
      const fed = driving.filter((state) => supplies.isSupplied(state, meter, false)).map(({ name }) => name);
      if (fed.length === 0) {
        report.doesNotApply(place);
        continue;
      }
      const facts = { meter: { place: partPlace(meter.part) }, states: { states: fed } };
      const charging = analysis.state("charging");
      const counts = charging !== undefined && countsCharge(analysis, charging, meter.part);
      const needed = counts ? [charging] : resting;
      const alive = (also: boolean): boolean => needed.some((state) => supplies.isSupplied(state, meter, also));
      if (alive(false)) report.passes(place);
      else if (alive(true))
        report.notChecked({ where: [place], reason: "undecided", facts, missing: undecidedFields(analysis) });
      else {
        report.fails({
          message: counts ? "charge" : "still",
          facts,
          severity: "NOTICE",
          where: [place],
          states: fed,
        });
      }
    }
  },
});

/** An instrument with a supply of its own: gauges, displays. */
function isMeter({ part, pair, wired }: PairAt): boolean {
  return part.kind.traits.gauge === true && wired && pair.direction === "input" && !pair.main;
}

/** What supplies a pair in each state, made once a run; `undecided`: with what may be closed as well. */
class Supplies {
  readonly #analysis: Analysis;
  readonly #feeds = new Map<string, ClosedFeed>();

  constructor(analysis: Analysis) {
    this.#analysis = analysis;
  }

  isSupplied(state: SolvedState, { plus, minus }: PairAt, undecided: boolean): boolean {
    const key = `${state.name} ${String(undecided)}`;
    let feed = this.#feeds.get(key);
    if (feed === undefined) {
      const also = undecided ? maybeClosed(this.#analysis, state) : new Set<number>();
      feed = new ClosedFeed(this.#analysis, state, { converters: true, also });
      this.#feeds.set(key, feed);
    }
    return feed.isSupplied(plus, minus);
  }
}

/** Its measuring terminals are tied to the two ends of a shunt through which alone a charger reaches the pack. */
function countsCharge(analysis: Analysis, charging: SolvedState, { part, nodes }: NetworkPart): boolean {
  const { network } = analysis;
  const isWired = (id: string): boolean => network.wiresAt([part.id, id]).length > 0;
  const [a, b] = [nodes.get("sense+"), nodes.get("sense-")];
  if (a === undefined || b === undefined || !isWired("sense+") || !isWired("sense-")) return false;
  const tied = (from: number): ReadonlySet<number> =>
    analysis.reach(charging, from, { through: ["conductor", "contact", "protection"] });
  return network.branches.some((branch) => {
    if (branch.role !== "shunt") return false;
    const [x, y] = [tied(branch.a), tied(branch.b)];
    if (!((x.has(a) && y.has(b)) || (x.has(b) && y.has(a)))) return false;
    const feed = new ClosedFeed(analysis, charging, { without: new Set([branch.index]) });
    return chargerOutputs(analysis).some(
      ({ plus, minus }) => closedFeed(analysis, charging).isFed(plus, minus) && !feed.isFed(plus, minus),
    );
  });
}
