import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { ContactSpec } from "../../parts/define.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { motorCircuits } from "../../studies/words/motor-loops.ts";
import { LEAST, unstatedRanges } from "../../studies/words/wire-currents.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { contactForCurrent } from "../remedies/exchange-contact.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import type { BranchLoad } from "../../studies/words/branch-load.ts";
import { partPlace } from "../words/places.ts";

export const contactCurrentLow = defineCheck({
  id: "contact-current-low",
  group: "switching",
  title: "Contact not made for the current",
  about:
    "Compares the steady current of every contact in every operating state with what it may carry for good. A direction contact in a motor's own circuit carries motor current: short of the controller's greatest motor current it is a notice. Fuses, breakers and the pins of plugs are left out.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "The contact's own rating, by the meaning of the word", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title: "{part} is made for {rating} and carries {current} in {states}.",
      why: "A contact that carries too much heats itself until its springs give way or it welds shut, and then nothing opens the circuit any more.",
      mend: "Replace {part} by one for at least {current}, or let it switch the coil of a larger contactor.",
    },
    motor: {
      title:
        "{part} is made for {rating}; the motor's circuit, in which it lies, may carry {current} while {controller} gives its most.",
      why: "Pulling away and climbing take the full motor current, and a direction contact that is often hot burns its faces away.",
      mend: "Use a contactor for at least {current} there, or limit the motor current of {controller} to {rating}.",
    },
  },
  reasons: {
    rating: "What {part} may carry continuously is not stated.",
    current: "How much current {part} carries is not known.",
    range: "Whether {part} carries too much depends on figures that are only known as a range.",
    motor: "The greatest motor current, which {part} has to carry, is not stated.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
    "contacts-can-short",
  ],
  run(analysis, report) {
    const inMotor = new Map(
      motorCircuits(analysis).flatMap(({ controller, branches }) =>
        branches.map((branch) => [branch, controller] as const),
      ),
    );
    for (const part of analysis.network.parts) {
      const contacts = part.kind.contacts?.(part.values) ?? [];
      if (contacts.length > 0 && part.kind.traits.device === undefined) look(analysis, part, contacts, inMotor, report);
    }
  },
});

interface Carried {
  readonly spec: ContactSpec;
  readonly load: BranchLoad;
  readonly controller: NetworkPart | undefined;
}

function look(
  analysis: Analysis,
  part: NetworkPart,
  contacts: readonly ContactSpec[],
  inMotor: ReadonlyMap<Branch, NetworkPart>,
  report: Report,
): void {
  const place = partPlace(part);
  const facts = { part: { place } } as const;
  const open = (reason: string, missing: readonly MissingField[]): void =>
    report.notChecked({ where: [place], reason, facts, missing });
  const carried = contacts.flatMap((spec): Carried[] => {
    const branch = analysis.network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .find(({ name }) => name === spec.element);
    if (branch === undefined) return [];
    const load = branchLoad(analysis, branch);
    return load.high < LEAST && !load.unknown ? [] : [{ spec, load, controller: inMotor.get(branch) }];
  });
  // What does most counts: all contacts of one part have one rating.
  const worst = carried.reduce<Carried | undefined>(
    (most, each) => (most === undefined || each.load.low > most.load.low ? each : most),
    undefined,
  );
  if (worst === undefined) {
    report.doesNotApply(place);
    return;
  }
  const rating = worst.spec.continuous;
  if (rating === undefined) {
    open("rating", [{ part: part.part.id, parameter: worst.spec.continuousParameter }]);
    return;
  }
  const rated = { ...facts, rating: { value: rating, dimension: "current" } } as const;
  const common = { where: [place], limit: rating, unit: "A" } as const;
  const { load } = worst;
  const controller = carried.find((each) => each.controller !== undefined)?.controller;
  const greatest: Ampere | undefined = controller?.values.number("motorCurrentMax");
  if (load.low > rating) {
    report.fails({
      ...common,
      message: "low",
      facts: { ...rated, current: { value: load.low, dimension: "current" }, states: { states: load.states } },
      severity: "WARNING",
      states: load.states,
      value: load.low,
      remedies: contactForCurrent(analysis, part, worst.spec.continuousParameter, Math.max(load.high, greatest ?? 0)),
    });
    return;
  }
  if (controller !== undefined && greatest !== undefined && greatest > rating) {
    report.fails({
      ...common,
      message: "motor",
      facts: {
        ...rated,
        current: { value: greatest, dimension: "current" },
        controller: { place: partPlace(controller) },
      },
      severity: "NOTICE",
      value: greatest,
      remedies: contactForCurrent(analysis, part, worst.spec.continuousParameter, Math.max(load.high, greatest)),
    });
    return;
  }
  if (carried.some((each) => each.load.unknown))
    open(
      "current",
      carried.flatMap((each) => each.load.missing),
    );
  else if (carried.some((each) => each.load.high > rating)) open("range", unstatedRanges(analysis));
  else if (controller !== undefined && greatest === undefined) {
    open("motor", [{ part: controller.part.id, parameter: "motorCurrentMax" }]);
  } else report.passes(place);
}
