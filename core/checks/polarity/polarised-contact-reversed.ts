import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Network, NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Remedy, Report } from "../define.ts";
import { isClosedContact } from "../words/closed-feed.ts";
import { brokenPlaces, whenFact } from "../words/in-time.ts";
import { LEAST_BROKEN, openingsOf } from "../words/openings.ts";
import { swapLabel, swapWires } from "../remedies/swap-wires.ts";
import type { Swap } from "../remedies/swap-wires.ts";
import { partPlace } from "../words/places.ts";

export const polarisedContactReversed = defineCheck({
  id: "polarised-contact-reversed",
  group: "polarity",
  title: "Polarised contact against its marking",
  about:
    "Looks at contactors and breakers stated polarised, whose line terminal is the marked one: in no operating state, and at no moment at which they open, may more than half an ampere flow from load to line. Driving, regeneration and charging count alike, as each may be ended by opening. A contact that is not polarised may lie either way.",
  severities: ["WARNING"],
  source: { text: "The marking of the contact; common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    reversed: {
      title: "{part} is polarised and lies against its marking: {current} flow from load to line {when}.",
      why: "Its magnets blow the arc out in one direction only; the other way round they draw it inwards, and the contact burns instead of opening.",
      mend: "Exchange the two power wires of this pole of {part}, so that the current enters at the marked terminal.",
    },
    both: {
      title: "{part} is polarised and has current both ways: {current} flow against its marking {when}.",
      why: "Its magnets blow the arc out in one direction only; when it opens with the current the other way, it burns instead of opening.",
      mend: "Use a contactor or breaker that breaks in both directions, or give the current that flows back a way of its own.",
    },
  },
  reasons: {
    polarised: "Whether {part}, through which {current} flow from load to line {when}, is polarised is not stated.",
    regeneration:
      "Whether current flows back through {part} depends on whether the controller brakes into the battery, which is not stated.",
    broken: "Which way current flows at opening {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["block-reversed", "supply-reversed", "source-shorted", "strings-unequal"],
  run(analysis, report) {
    const { contacts, broken } = openingsOf(analysis);
    const unstated = unstatedRegeneration(analysis);
    const found = polarisable(analysis);
    if (found.length === 0) {
      report.doesNotApply();
      return;
    }
    if (broken.length > 0) {
      const parts = brokenPlaces(
        broken,
        found.map(({ part }) => part),
      );
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    }
    for (const at of found) {
      const breaks = contacts.find(({ branch }) => branch === at.branch)?.breaks ?? [];
      const steady = analysis.states.flatMap((state): Flow[] =>
        isClosedContact(state, at.branch)
          ? [{ current: state.currents[at.branch.index] ?? 0, when: `in ${state.name}`, state: state.name }]
          : [],
      );
      const opening = breaks.map(({ current, transition }): Flow => {
        const [when = ""] = whenFact([transition]).states;
        return { current, when, state: transition.to };
      });
      judge(analysis.network, at, { flows: [...steady, ...opening], unstated, whole: broken.length === 0 }, report);
    }
  },
});

interface At {
  readonly part: NetworkPart;
  readonly spec: ContactSpec;
  readonly branch: Branch;
}

interface Flow {
  readonly current: Ampere;
  readonly when: string;
  readonly state: string;
}

/** Contacts of parts that may be polarised. */
function polarisable({ network }: Analysis): readonly At[] {
  return network.parts.flatMap((part) => {
    if (!Object.hasOwn(part.kind.parameters, "polarised")) return [];
    return (part.kind.contacts?.(part.values) ?? []).flatMap((spec): At[] => {
      const branch = network.branches
        .slice(part.firstBranch, part.firstBranch + part.branchCount)
        .find(({ name }) => name === spec.element);
      const wired = [spec.a, spec.b].every((terminal) => network.wiresAt([part.part.id, terminal]).length > 0);
      return branch === undefined || !wired ? [] : [{ part, spec, branch }];
    });
  });
}

/** Controllers of which nobody said whether they brake into the battery. */
function unstatedRegeneration({ network }: Analysis): readonly NetworkPart[] {
  return network.parts.filter(
    ({ kind, values }) => Object.hasOwn(kind.parameters, "regeneration") && values.choice("regeneration") === undefined,
  );
}

function turnRound(network: Network, { part }: NetworkPart, { a, b }: ContactSpec): readonly Remedy[] {
  const swap: Swap = [
    [part.id, a],
    [part.id, b],
  ];
  return swapWires(network, [swap], swapLabel(network, swap));
}

function judge(
  network: Network,
  { part, spec, branch }: At,
  {
    flows,
    unstated,
    whole,
  }: { readonly flows: readonly Flow[]; readonly unstated: readonly NetworkPart[]; readonly whole: boolean },
  report: Report,
): void {
  const place = partPlace(part);
  if (spec.polarised === false) {
    report.passes(place);
    return;
  }
  const against = flows.filter(({ current }) => current < -LEAST_BROKEN);
  const forwards = flows.filter(({ current }) => current > LEAST_BROKEN);
  const most = Math.max(0, ...against.map(({ current }) => -current));
  const facts = {
    part: { place },
    current: { value: most, dimension: "current" },
    when: { states: [...new Set(against.map(({ when }) => when))] },
  } as const;
  const open = (reason: string, missing: readonly MissingField[]): void =>
    report.notChecked({ where: [place], reason, facts, missing });
  if (against.length > 0 && spec.polarised === undefined) {
    open("polarised", [{ part: part.part.id, parameter: "polarised" }]);
  } else if (against.length > 0) {
    report.fails({
      message: forwards.length > 0 ? "both" : "reversed",
      facts,
      severity: "WARNING",
      where: [place],
      states: [...new Set(against.map(({ state }) => state))],
      value: most,
      limit: LEAST_BROKEN,
      unit: "A",
      variant: branch.name,
      remedies: forwards.length > 0 ? [] : turnRound(network, part, spec),
    });
  } else {
    const feeding = forwards.length > 0 && spec.polarised === true ? unstated : [];
    if (feeding.length > 0)
      open(
        "regeneration",
        feeding.map((each) => ({ part: each.part.id, parameter: "regeneration" })),
      );
    else if (whole) report.passes(place);
  }
}
