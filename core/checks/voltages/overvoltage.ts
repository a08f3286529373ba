import type { Analysis } from "../../circuit/analysis.ts";
import { drivenMotors } from "../../circuit/motor-current.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Limit } from "../../parts/define.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { isTraction } from "../../studies/words/belongs.ts";
import { highestBetween, unstatedChemistry, unstatedResistance } from "../../studies/words/highest.ts";
import type { Highest } from "../../studies/words/highest.ts";
import { packsOnLowVoltage } from "../words/logic-feeds.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** What rounding of a stated rating and of a solved voltage may differ by. */
const SLACK = 1 + 1e-4;

function look(analysis: Analysis, report: Report, part: NetworkPart, limit: Limit): void {
  const { network } = analysis;
  const [a, b] = [part.nodes.get(limit.a), part.nodes.get(limit.b)];
  if (a === undefined || b === undefined) return;
  const wired = [limit.a, limit.b].every((id) => network.wiresAt([part.part.id, id]).length > 0);
  const [at, other] = [terminalPlace(part, limit.a), terminalPlace(part, limit.b)];
  const { volts, atLeast, states, equalising, packs } = highestAcross(analysis, part, a, b);
  // Less than a volt is what leaks and voltage drop put there.
  if (!wired || volts < 1e-3) {
    report.doesNotApply(at);
    return;
  }
  const most = limit.value;
  if (most === undefined) {
    report.notChecked({
      where: [at, other],
      reason: "rating",
      facts: { at: { place: at }, other: { place: other } },
      missing: [{ part: part.part.id, parameter: limit.parameter }],
    });
    return;
  }
  const chemistry = unstatedChemistry(packs);
  if (chemistry.length > 0) {
    report.notChecked({
      where: [at, other],
      reason: "chemistry",
      facts: { at: { place: at }, other: { place: other } },
      missing: chemistry,
    });
    return;
  }
  const facts = {
    at: { place: at },
    other: { place: other },
    volts: { value: volts, dimension: "voltage" },
    limit: { value: most, dimension: "voltage" },
    part: { place: partPlace(part) },
  } as const;
  const figures = { where: [at, other], limit: most, unit: "V", variant: limit.parameter } as const;
  if (atLeast > most * SLACK) {
    const traction = isTraction(analysis, a) || isTraction(analysis, b);
    const chargers = states.includes("charging")
      ? network.parts.filter(({ kind }) => kind.traits.charger === true).map(partPlace)
      : [];
    report.fails({
      message: traction ? "traction" : "auxiliary",
      severity: traction ? "DANGER" : "WARNING",
      facts,
      states,
      value: volts,
      ...figures,
      touches: chargers,
    });
  } else if (volts > most * SLACK) {
    report.notChecked({
      where: [at, other],
      reason: "range",
      facts: { at: { place: at }, other: { place: other } },
      missing: unstatedResistance(packs),
    });
  } else if (equalising !== undefined && equalising > most * SLACK) {
    report.fails({
      message: "equalising",
      severity: "NOTICE",
      facts: { ...facts, volts: { value: equalising, dimension: "voltage" } },
      value: equalising,
      ...figures,
    });
  } else report.passes(at);
}

/** At full throttle a controller lays its whole bus across its motor, whatever a motor at rest lets stand there. */
function highestAcross(analysis: Analysis, part: NetworkPart, a: NodeIndex, b: NodeIndex): Highest {
  const own = highestBetween(analysis, a, b);
  if (part.kind.traits.motor !== true) return own;
  const buses = [...drivenMotors(analysis.network)].flatMap(([controller, motors]): Highest[] => {
    const [bus] = controller.kind.supplyPairs(controller.values).filter(({ main }) => main);
    const [plus, minus] = [controller.nodes.get(bus?.plus ?? ""), controller.nodes.get(bus?.minus ?? "")];
    if (!motors.includes(part) || plus === undefined || minus === undefined) return [];
    return [highestBetween(analysis, plus, minus)];
  });
  return buses.reduce((most, bus) => (bus.volts > most.volts ? bus : most), own);
}

function run(analysis: Analysis, report: Report): void {
  // A pack on a 12 V-fed logic pin is logic-overvoltage's, whichever way it shows.
  const logic = new Set(packsOnLowVoltage(analysis).map(({ pair }) => `${pair.part.part.id}:${pair.parameter}`));
  for (const part of analysis.network.parts) {
    for (const limit of part.kind.limits(part.values)) {
      if (limit.kind !== "voltage-across") continue;
      if (logic.has(`${part.part.id}:${limit.parameter}`)) report.doesNotApply(terminalPlace(part, limit.a));
      else look(analysis, report, part, limit);
    }
  }
}

export const overvoltage = defineCheck({
  id: "overvoltage",
  group: "voltages",
  title: "More voltage than a part stands",
  about:
    "Compares the highest voltage across each rated pair of terminals with its rating: in all operating states, with the pack at its charging voltage whether or not a charger is drawn, and while regenerating. A motor behind a controller counts as having the controller's whole bus across it. " +
    "It does not see spikes of switching.",
  severities: ["DANGER", "WARNING", "NOTICE"],
  source: { text: "the part's own rating against the charging voltage of its battery's chemistry", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    traction: {
      title:
        "Between {at} and {other} stand up to {volts} from the traction pack, and {part} is made for at most {limit}.",
      why: "A battery name such as 72 V is not its highest voltage: on charge it is a fifth more, and a part driven beyond its rating fails at once, often short-circuited, with the whole pack behind it.",
      mend: "Choose a part for {part} that stands more than {volts}, or a pack of fewer cells.",
    },
    auxiliary: {
      title: "Between {at} and {other} stand up to {volts}, and {part} is made for at most {limit}.",
      why: "A part driven beyond its rating runs hot and fails, sometimes at once.",
      mend: "Choose a part for {part} that stands more than {volts}, or feed it from a lower voltage.",
    },
    equalising: {
      title: "While the pack is equalised {volts} stand between {at} and {other}; {part} is made for at most {limit}.",
      why: "In ordinary use it is within its rating, but wet lead-acid cells are raised higher from time to time to bring them level.",
      mend: "Disconnect {part} while equalising, or choose one that stands more than {volts}.",
    },
  },
  reasons: {
    rating: "Nobody stated what voltage the part stands between {at} and {other}.",
    chemistry:
      "The chemistry of the pack that feeds {at} and {other} is unstated, so that its highest voltage is not known.",
    range:
      "The voltage between {at} and {other} while regenerating depends on the resistance of the batteries, of which only a range is known, and its ends disagree.",
  },
  foldsUnder: ["isolated-returns-joined", "charger-mismatch", "source-shorted"],
  run,
});
