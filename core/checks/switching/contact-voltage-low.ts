import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { drivenCurrent } from "../../circuit/questions.ts";
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Severity } from "../define.ts";
import { contactForVolts } from "../remedies/exchange-contact.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { ClosedFeed } from "../words/closed-feed.ts";
import { packLoops } from "../words/pack-loops.ts";
import { partPlace } from "../words/places.ts";

/** Below these a contact holds nothing back that counts (common practice, no source). */
const LEAST_VOLTS = 1;
const LEAST_CURRENT = 1e-3;

/** A part marked for 12 V serves up to 16 V, one for 24 V up to 32 V (ISO 16750-2, from memory). */
const SYSTEMS = [
  { marked: 12, serves: 16 },
  { marked: 24, serves: 32 },
] as const satisfies readonly { marked: Volt; serves: Volt }[];

export const contactVoltageLow = defineCheck({
  id: "contact-voltage-low",
  group: "switching",
  title: "Contact not made for the voltage",
  about:
    "Holds the DC voltage rating of every contact against what it has to break: the pack's highest voltage where it lies in a loop of pack and load, else the highest voltage that stands across it while open in any state; one that no state opens is opened while driving. Contacts of the 12 V and 24 V side may carry the mark of their system. A contact in series with a resistor alone, fuses and breakers belong to other checks.",
  severities: ["DANGER", "WARNING"],
  source: {
    text: "Rating of the contact against the voltage it breaks; ISO 16750-2 for 12 V and 24 V systems",
    known: "memory",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    pack: {
      title: "{part} is rated for {rating} and has to break the pack's {volts}.",
      why: "Direct current of too high a voltage does not stop when the contact opens: the arc burns on until the contact is gone.",
      mend: "Replace {part} by one whose contacts are rated for at least {volts} DC.",
    },
    held: {
      title: "{part} is rated for {rating} and has to hold back {volts} while open.",
      why: "A contact can arc over or stay closed for ever on a voltage that it was not made for.",
      mend: "Replace {part} by one whose contacts are rated for at least {volts} DC, or put it into a circuit of lower voltage.",
    },
  },
  reasons: {
    rating: "Whether {part} can break {volts} cannot be told, as its voltage rating is not stated.",
    chemistry: "Whether {part} can break the pack cannot be told, as the chemistry of the pack is not stated.",
  },
  run(analysis, report) {
    const loops = loopsOf(analysis);
    const [any] = analysis.states;
    if (any === undefined) return;
    const closed = new ClosedFeed(analysis, any, { contacts: "closed" });
    for (const part of analysis.network.parts) {
      const contacts = part.kind.contacts?.(part.values) ?? [];
      if (contacts.length === 0 || part.kind.traits.device !== undefined) continue;
      const place = partPlace(part);
      const [first] = contacts;
      const rating = first?.voltage;
      const need = contacts
        .filter(({ a, b }) => isWired(analysis, part, a) && isWired(analysis, part, b))
        .map(({ element }) => needOf(analysis, loops, part, element, rating))
        .reduce((most, one) => (one.most > most.most ? one : most), NOTHING);
      if (need.most === 0 || first === undefined) {
        report.doesNotApply(place);
        continue;
      }
      const facts = { part: { place }, volts: { value: need.least, dimension: "voltage" } } as const;
      if (rating === undefined) {
        report.notChecked({
          where: [place],
          reason: "rating",
          facts,
          missing: [{ part: part.part.id, parameter: first.voltageParameter }],
        });
      } else if (rating >= markedFor(need)) {
        // On the pack, yet in no loop of it with a load: an unfinished circuit proves nothing.
        if (!need.breaksPack && isOnPackAlone(closed, part, first.a)) report.doesNotApply(place);
        else report.passes(place);
      } else if (need.breaksPack && rating >= need.least) {
        report.notChecked({ where: [place], reason: "chemistry", facts, missing: need.missing });
      } else {
        report.fails({
          message: need.breaksPack ? "pack" : "held",
          facts: { ...facts, rating: { value: rating, dimension: "voltage" } },
          severity: severityOf(need),
          where: [place],
          states: need.states,
          value: need.least,
          limit: rating,
          unit: "V",
          remedies: [contactForVolts(part, first.voltageParameter, need.most)],
        });
      }
    }
  },
});

interface Need {
  readonly least: Volt;
  readonly most: Volt;
  readonly breaksPack: boolean;
  readonly states: readonly string[];
  readonly missing: readonly MissingField[];
}

const NOTHING: Need = { least: 0, most: 0, breaksPack: false, states: [], missing: [] };

/** What the rating must reach: on the 12 V and 24 V side the mark of the system will do. */
function markedFor({ breaksPack, most }: Need): Volt {
  if (breaksPack) return most;
  const system = SYSTEMS.find(({ serves }) => most <= serves);
  return system === undefined ? most : Math.min(most, system.marked);
}

function severityOf({ breaksPack, most }: Need): Severity {
  return breaksPack || most > CLASS_B_DC ? "DANGER" : "WARNING";
}

/** Whatever closes, the contact meets a traction pack and no other battery. */
function isOnPackAlone(closed: ClosedFeed, part: NetworkPart, terminal: string): boolean {
  const node = part.nodes.get(terminal);
  const packs = node === undefined ? [] : closed.packsAt(node);
  return packs.length > 0 && packs.every(({ duty }) => duty === "traction");
}

function isWired(analysis: Analysis, part: NetworkPart, terminal: string): boolean {
  return analysis.network.wiresAt([part.part.id, terminal]).length > 0;
}

interface Loops {
  readonly range: { readonly least: Volt; readonly most: Volt; readonly missing: readonly MissingField[] };
  readonly direct: ReadonlySet<BranchIndex>;
  readonly throughResistors: ReadonlySet<BranchIndex>;
}

function loopsOf(analysis: Analysis): readonly Loops[] {
  return analysis.packs
    .filter(({ duty }) => duty === "traction")
    .map((pack) => ({
      range: chemistryRange([pack]),
      direct: packLoops(analysis, pack, false),
      throughResistors: packLoops(analysis, pack, true),
    }));
}

function needOf(
  analysis: Analysis,
  loops: readonly Loops[],
  part: NetworkPart,
  element: string,
  rating: Volt | undefined,
): Need {
  const branch = branchOf(analysis, part, element);
  if (branch === undefined) return NOTHING;
  const broken = loops.filter(({ direct }) => direct.has(branch)).map(({ range }) => range);
  if (broken.length > 0) {
    return {
      least: Math.max(...broken.map(({ least }) => least)),
      most: Math.max(...broken.map(({ most }) => most)),
      breaksPack: true,
      states: [],
      missing: broken.flatMap(({ missing }) => missing),
    };
  }
  // A pre-charge contact breaks no more than its resistor lets through.
  if (loops.some(({ throughResistors }) => throughResistors.has(branch))) return NOTHING;
  return held(analysis, branch, rating);
}

function branchOf(analysis: Analysis, part: NetworkPart, element: string): BranchIndex | undefined {
  return analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .find(({ name }) => name === element)?.index;
}

/** The highest voltage across a contact while it is open; one that is open in no state is opened while driving. */
function held(analysis: Analysis, branch: BranchIndex, rating: Volt | undefined): Need {
  const open = [...analysis.states, ...analysis.plugged].filter((state) => isOpen(state, branch));
  const driving = analysis.state("driving");
  const looked = open.length > 0 || driving === undefined ? open : [analysis.solveChanged(driving, { open: [branch] })];
  const at = analysis.network.branches[branch];
  let need = NOTHING;
  for (const state of looked) {
    const volts = at === undefined ? 0 : Math.abs(state.between(at.a, at.b));
    if (!(volts > Math.max(need.most * (1 + 1e-9), LEAST_VOLTS)) || at === undefined) continue;
    const measured = { least: volts, most: volts, breaksPack: false, states: [state.name], missing: [] };
    // What leaks alone put there is asked only where it would decide.
    const decides = rating === undefined ? need.most === 0 : rating < markedFor(measured);
    if (decides && Math.abs(drivenCurrent(analysis, state, at.a, at.b)) < LEAST_CURRENT) continue;
    need = measured;
  }
  return need;
}

function isOpen(state: SolvedState, branch: BranchIndex): boolean {
  const element = state.elements[branch];
  return element?.type === "contact" && !element.closed;
}
