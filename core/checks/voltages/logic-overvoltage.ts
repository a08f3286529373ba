import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { TWELVE_VOLT_SOURCE } from "../../standards/coils.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { lowVoltagePairs, packsOnLowVoltage } from "../words/logic-feeds.ts";
import type { PackOnLowVoltage } from "../words/logic-feeds.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** A part of which a battery's voltage cannot be told from its feed. */
function feedUnstated(analysis: Analysis, part: NetworkPart): boolean {
  return (
    part.kind.traits.controller === true &&
    part.values.choice("logicFeed") === undefined &&
    analysis.network.wiresAt([part.part.id, "logic+"]).length > 0
  );
}

function fail(report: Report, part: NetworkPart, found: readonly PackOnLowVoltage[]): void {
  const [first] = found;
  if (first === undefined) return;
  const worst = found.reduce((most, each) => (each.volts > most.volts * (1 + 1e-9) ? each : most), first);
  const { pair, volts } = worst;
  const at = terminalPlace(part, pair.terminal);
  const places = found.map((each) => terminalPlace(part, each.pair.terminal));
  report.fails({
    message: pair.twelveVolt ? "logic" : "supply",
    severity: "DANGER",
    facts: {
      at: { place: at },
      all: { places },
      reference: { place: terminalPlace(part, pair.reference) },
      part: { place: partPlace(part) },
      volts: { value: volts, dimension: "voltage" },
      limit: { value: pair.rating ?? 0, dimension: "voltage" },
    },
    where: [at, ...places.filter((place) => JSON.stringify(place) !== JSON.stringify(at))],
    value: volts,
    limit: pair.rating ?? 0,
    unit: "V",
  });
}

function run(analysis: Analysis, report: Report): void {
  const byPart = new Map<NetworkPart, PackOnLowVoltage[]>();
  for (const found of packsOnLowVoltage(analysis)) {
    const list = byPart.get(found.pair.part);
    if (list === undefined) byPart.set(found.pair.part, [found]);
    else list.push(found);
  }
  for (const part of analysis.network.parts) {
    if (feedUnstated(analysis, part)) {
      report.notChecked({
        where: [terminalPlace(part, "logic+")],
        reason: "feed",
        facts: { part: { place: partPlace(part) } },
        missing: [{ part: part.part.id, parameter: "logicFeed" }],
      });
      continue;
    }
    const pairs = lowVoltagePairs(analysis, part);
    const [first] = pairs;
    if (first === undefined) {
      report.doesNotApply(partPlace(part));
      continue;
    }
    const found = byPart.get(part) ?? [];
    const rated = found.filter(({ pair }) => pair.rating !== undefined);
    const unrated = found.find(({ pair }) => pair.rating === undefined);
    if (rated.length > 0) fail(report, part, rated);
    else if (unrated !== undefined) {
      const at = terminalPlace(part, unrated.pair.terminal);
      report.notChecked({
        where: [at],
        reason: "rating",
        facts: { at: { place: at } },
        missing: [{ part: part.part.id, parameter: unrated.pair.parameter }],
      });
    } else report.passes(terminalPlace(part, first.terminal));
  }
}

export const logicOvervoltage = defineCheck({
  id: "logic-overvoltage",
  group: "voltages",
  title: "Pack voltage on a low-voltage input",
  about:
    "Looks at the control pins of controllers whose logic is fed from 12 V, and at the supply of other low-voltage parts: whether the traction pack reaches one end of them while the other hangs on the 12 V side or the chassis, or stands across them. " +
    "One leak or one added return is enough to bring the pack's highest voltage there. A pin made for the pack's voltage is not meant.",
  severities: ["DANGER"],
  source: TWELVE_VOLT_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    logic: {
      title:
        "The traction pack reaches {all} of {part}, whose logic is for 12 V: against {reference} up to {volts} can stand there, where it stands {limit}.",
      why: "The controller's logic is separate from its power side; pack voltage on it destroys it at once and takes whatever else hangs on those wires with it.",
      mend: "Feed the logic and its switches from the vehicle's 12 V battery, with their return to the 12 V minus alone, or use a controller whose logic is made to be fed from the pack.",
    },
    supply: {
      title:
        "The traction pack reaches {at} while its other end hangs on the 12 V side or the chassis: up to {volts} can come across {part}, which stands {limit}.",
      why: "As long as nothing else leaks it may seem to work; the first leak or added return puts the whole pack across it.",
      mend: "Feed {part} from the 12 V battery with both its wires, or choose one made for the pack's voltage and connect both its wires to the pack.",
    },
  },
  reasons: {
    feed: "Nobody stated whether the logic of {part} is fed from the pack or from 12 V.",
    rating: "The traction pack reaches {at}, but nobody stated what voltage the part stands.",
  },
  run,
});
