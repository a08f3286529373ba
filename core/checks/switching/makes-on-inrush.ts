import type { Analysis } from "../../circuit/analysis.ts";
import { TRANSITIONS } from "../../circuit/transition/transition.ts";
import type { Closing, Transition } from "../../circuit/transition/transition.ts";
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { capacitorEnergy, INRUSH_ENERGY } from "../../standards/precharge.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { fillingsOf } from "../words/fillings.ts";
import type { Unknown } from "../words/fillings.ts";
import { brokenPlaces, endStates, followed, ratedContact, whenFact } from "../words/in-time.ts";
import { partPlace } from "../words/places.ts";

/** Below this a contact closes onto nothing to speak of (common practice, no source). */
const LEAST: Ampere = 0.5;

export const makesOnInrush = defineCheck({
  id: "makes-on-inrush",
  group: "switching",
  title: "Contact closes onto more than it can make",
  about:
    "Follows the vehicle through switching on and compares the highest current within 20 ms of each contact's touching with what it may close onto. Capacitors are taken without resistance of their own and wiring without inductance, so that the figure is an upper bound; an inrush of less than half a joule welds nothing and is left out, and then what flows once it is over counts. The inrush of cold lamps is not seen.",
  severities: ["WARNING"],
  source: { text: "The contact's own rating, by the meaning of the word", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    over: {
      title: "{part} is made to close onto {rating} and closes onto up to {current} {when}.",
      why: "In the moment of touching a contact bounces and melts at its points; above what it is made for it welds, and then nothing opens the circuit any more.",
      mend: "Charge what lies behind {part} through a resistor first, or use a contact made to close onto {current}.",
    },
  },
  reasons: {
    rating: "What {part} may close onto is not stated, and it meets up to {current} {when}.",
    capacitance: "What {part} closes onto cannot be told, as a capacitance behind it is not stated.",
    broken: "What contacts close onto {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: [
    "precharge-missing",
    "precharge-order",
    "precharge-incomplete",
    "output-undefined",
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
    "contacts-can-short",
    "contact-current-low",
  ],
  run(analysis, report) {
    const { whole, broken } = followed(analysis, TRANSITIONS);
    const parts = new Map<NetworkPart, MakeAt[]>();
    for (const transition of whole) {
      for (const closing of transition.closings) {
        const spec = ratedContact(analysis, closing.part, closing.branch);
        if (spec === undefined) continue;
        const make = { transition, spec, current: currentOf(analysis, transition, closing) };
        parts.set(closing.part, [...(parts.get(closing.part) ?? []), make]);
      }
    }
    if (broken.length > 0) {
      const places = brokenPlaces(broken, [...parts.keys()]);
      const facts = { when: whenFact(broken), parts: { places } };
      report.notChecked({ where: places, reason: "broken", facts, missing: [] });
    } else if (parts.size === 0) report.doesNotApply();
    const { unknown } = fillingsOf(analysis);
    for (const [part, makes] of parts) judge(part, makes, { whole: broken.length === 0, unknown }, report);
  },
});

interface MakeAt {
  readonly transition: Transition;
  readonly spec: ContactSpec;
  readonly current: Ampere;
}

/** The inrush where enough rushes in, else what flows once it is over. */
function currentOf(analysis: Analysis, transition: Transition, closing: Closing): Ampere {
  const rush = closing.capacitors.reduce((sum, { branch, volts }) => {
    const element = transition.end.elements[branch];
    const capacitance = element?.type === "capacitor" ? (element.capacitance ?? 0) : 0;
    const drawn = drawnByDrive(analysis, transition, branch, volts);
    return sum + capacitorEnergy(capacitance, Math.max(0, Math.abs(closing.voltsBefore) - drawn));
  }, 0);
  const [, least] = INRUSH_ENERGY;
  return rush < least ? closing.after : closing.peak;
}

/**
 * The pedal moves its contact and the throttle at one moment; a driver's foot does not, and drives start gently: what
 * the drive has drawn from a capacitor until a contactor behind the pedal closes does not count.
 */
function drawnByDrive({ network }: Analysis, transition: Transition, branch: BranchIndex, volts: Volt): Volt {
  const capacitor = transition.name === "drive" ? network.branches[branch] : undefined;
  if (capacitor === undefined) return 0;
  const atFirst = (transition.volts(capacitor.a)[0] ?? 0) - (transition.volts(capacitor.b)[0] ?? 0);
  return Math.max(0, Math.abs(atFirst) - Math.abs(volts));
}

function judge(
  part: NetworkPart,
  makes: readonly MakeAt[],
  { whole, unknown }: { readonly whole: boolean; readonly unknown: readonly Unknown[] },
  report: Report,
): void {
  const place = partPlace(part);
  const facts = (told: readonly MakeAt[]) => ({
    part: { place },
    current: { value: Math.max(...told.map(({ current }) => current)), dimension: "current" } as const,
    when: whenFact(told.map(({ transition }) => transition)),
  });
  const loaded = makes.filter(({ current }) => current >= LEAST);
  const over = loaded.filter(({ spec, current }) => current > (spec.make ?? Infinity));
  const [first] = over;
  if (first !== undefined) {
    const rating = Math.min(...over.map(({ spec }) => spec.make ?? Infinity));
    report.fails({
      message: "over",
      facts: { ...facts(over), rating: { value: rating, dimension: "current" } },
      severity: "WARNING",
      where: [place],
      states: endStates(over.map(({ transition }) => transition)),
      value: Math.max(...over.map(({ current }) => current)),
      limit: rating,
      unit: "A",
    });
    return;
  }
  const unrated = loaded.filter(({ spec }) => spec.make === undefined);
  const [lacking] = unrated;
  const behind = unknown.find((each) => each.part === part);
  if (lacking !== undefined) {
    const parameter = lacking.spec.makeParameter ?? lacking.spec.continuousParameter;
    const missing = [{ part: part.part.id, parameter }];
    report.notChecked({ where: [place], reason: "rating", facts: facts(unrated), missing });
  } else if (behind !== undefined) {
    const { missing } = behind;
    report.notChecked({ where: [place], reason: "capacitance", facts: { part: { place } }, missing });
  } else if (whole) report.passes(place);
}
