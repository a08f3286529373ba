import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Ratio, Volt } from "../../quantity/kinds.ts";
import { cellOf, CHEMISTRIES, CHEMISTRY_NAMES } from "../../standards/cells.ts";
import type { Chemistry } from "../../standards/cells.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const WAY: readonly Role[] = ["conductor", "contact", "protection", "shunt", "diode", "source"];
/** A regulated output is this exact at best (common practice, no source). */
const TOLERANCE: Ratio = 0.01;

interface Charged {
  readonly blocks: readonly NetworkPart[];
  /** As solved: each block's EMF on the way, counted with its sign. */
  readonly highest: Volt;
  readonly most: Volt;
  readonly least: Volt;
}

const chemistryOf = (part: NetworkPart): Chemistry | undefined =>
  CHEMISTRIES.find((each) => each === part.values.choice("chemistry"));

/** A chemistry in words. */
const called = (chemistry: string): string =>
  Object.entries(CHEMISTRY_NAMES).find(([id]) => id === chemistry)?.[1] ?? chemistry;

/** Lead-acid cells differ in voltage only, which is compared by itself. */
const family = (chemistry: string): string => (chemistry.endsWith("-lead") ? "lead" : chemistry);

function emfOf(analysis: Analysis, state: SolvedState, branch: Branch): Volt {
  const element = state.elements[branch.index];
  const pack = analysis.packs.find(({ blocks }) => branch.part !== undefined && blocks.includes(branch.part));
  if (element?.type !== "source" || pack === undefined) return 0;
  return element.emf * raise(pack, state);
}

/** On charge a traction block's EMF is at its highest already; an auxiliary one is solved at rest. */
function raise(pack: Pack, state: SolvedState): Ratio {
  return pack.duty === "traction" && state.name === "charging" ? 1 : pack.rest > 0 ? pack.highest / pack.rest : 1;
}

/** The blocks between the charger's leads, by a way through closed contacts, else with all contacts taken as closed. */
function chargedBy(analysis: Analysis, charger: NetworkPart): Charged | undefined {
  const [plus, minus] = [charger.nodes.get("out+"), charger.nodes.get("out-")];
  if (plus === undefined || minus === undefined) return undefined;
  const without = Array.from({ length: charger.branchCount }, (_, index) => charger.firstBranch + index);
  const ordered = [...analysis.states].sort((a, b) => Number(b.name === "charging") - Number(a.name === "charging"));
  for (const contacts of ["as-is", "closed"] as const) {
    for (const state of ordered) {
      const way = analysis.path(state, minus, plus, { through: WAY, contacts, without });
      const found = way === undefined ? undefined : along(analysis, state, way, minus);
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function along(analysis: Analysis, state: SolvedState, way: readonly Branch[], from: NodeIndex): Charged | undefined {
  let at = from;
  const blocks: NetworkPart[] = [];
  let [highest, most, least] = [0, 0, 0];
  for (const branch of way) {
    const forward = at === branch.b;
    at = forward ? branch.a : branch.b;
    if (branch.role !== "source" || branch.part?.kind.traits.battery !== true) continue;
    blocks.push(branch.part);
    const volts = (forward ? 1 : -1) * emfOf(analysis, state, branch);
    const chemistry = chemistryOf(branch.part);
    const cell = chemistry === undefined ? undefined : cellOf(chemistry);
    highest += volts;
    most += cell === undefined ? volts : (volts * (cell.equaliseMax ?? cell.chargeMax)) / cell.chargeMax;
    least += cell === undefined ? volts : (volts * cell.nominal) / cell.chargeMax;
  }
  return blocks.length === 0 ? undefined : { blocks, highest, most, least };
}

function look(analysis: Analysis, report: Report, charger: NetworkPart): void {
  const at = terminalPlace(charger, "out+");
  const charged = chargedBy(analysis, charger);
  if (charged === undefined) {
    report.doesNotApply(at);
    return;
  }
  const volts = charger.values.number("outputVoltageMax");
  const made = charger.values.choice("chemistry");
  const other = charged.blocks.find((block) => {
    const chemistry = chemistryOf(block);
    return made !== undefined && chemistry !== undefined && family(chemistry) !== family(made);
  });
  const facts = {
    charger: { place: partPlace(charger) },
    blocks: { places: charged.blocks.map(partPlace) },
    highest: { value: charged.highest, dimension: "voltage" },
    least: { value: charged.least, dimension: "voltage" },
  } as const;
  if (other !== undefined && made !== undefined) {
    report.fails({
      message: "chemistry",
      severity: "DANGER",
      facts: { ...facts, made: called(made), battery: called(other.values.choice("chemistry") ?? "") },
      where: [partPlace(charger), partPlace(other)],
      variant: "chemistry",
    });
    return;
  }
  const missing: MissingField[] = [
    ...(volts === undefined ? [{ part: charger.part.id, parameter: "outputVoltageMax" }] : []),
    ...charged.blocks
      .filter((block) => chemistryOf(block) === undefined)
      .map(({ part }) => ({ part: part.id, parameter: "chemistry" })),
  ];
  if (volts !== undefined && missing.length === 0) {
    const high = volts > charged.most * (1 + TOLERANCE);
    if (high || volts < charged.least) {
      report.fails({
        message: high ? "high" : "low",
        severity: "DANGER",
        facts: { ...facts, volts: { value: volts, dimension: "voltage" } },
        where: [partPlace(charger)],
        value: volts,
        limit: high ? charged.most : charged.least,
        unit: "V",
        variant: "voltage",
        // A block that stands the wrong way round lowers what the charger finds.
        touches: charged.blocks.map(partPlace),
        // Of a charger whose own leads are swapped the voltage says nothing.
        foldsUnder: charged.most < 0 ? ["supply-reversed"] : [],
      });
      return;
    }
  }
  if (made === undefined) missing.push({ part: charger.part.id, parameter: "chemistry" });
  if (missing.length === 0) report.passes(partPlace(charger));
  else
    report.notChecked({
      where: [partPlace(charger)],
      reason: "unstated",
      facts: { charger: { place: partPlace(charger) } },
      missing,
    });
}

function run(analysis: Analysis, report: Report): void {
  for (const part of analysis.network.parts) if (part.kind.traits.charger === true) look(analysis, report, part);
}

export const chargerMismatch = defineCheck({
  id: "charger-mismatch",
  group: "voltages",
  title: "Charger does not fit the battery",
  about:
    "Finds the blocks between the charger's two output leads and compares the charger's highest voltage and its chemistry with theirs. " +
    "Too high: above the highest voltage that the chemistry is charged or equalised with. Too low: below the battery's nominal voltage. Kinds of lead-acid are told apart by voltage alone.",
  severities: ["DANGER"],
  source: { text: "Charging voltages of battery chemistries: published summary tables", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    high: {
      title: "{charger} gives up to {volts}, but the blocks between its leads ({blocks}) are full at {highest}.",
      why: "Overcharged cells gas, swell and can burn, and every part on the pack sees the higher voltage too.",
      mend: "Set or choose a charger that ends at {highest}.",
    },
    low: {
      title:
        "{charger} gives no more than {volts}, below the nominal {least} of the blocks between its leads ({blocks}).",
      why: "It never charges them: it is made for another battery, and may be damaged by the higher voltage that stands on its output.",
      mend: "Choose a charger that ends at {highest}, or look whether its leads go to the blocks that you meant.",
    },
    chemistry: {
      title: "{charger} is made for {made}, but charges blocks of {battery} ({blocks}).",
      why: "The steps of charging differ: a charger for another chemistry holds or lifts the voltage at the wrong time, and the cells can be overcharged until they burn.",
      mend: "Choose a charger for {battery} that ends at {highest}, or change its setting.",
    },
  },
  reasons: {
    unstated: "Voltage or chemistry is unstated at {charger} or at the battery that it charges.",
  },
  foldsUnder: ["block-reversed"],
  run,
});
