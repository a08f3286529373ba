import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { VOLTAGE_RATING_SOURCE } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { walks } from "../../studies/words/fault-walk.ts";
import { unstatedChemistry } from "../../studies/words/highest.ts";
import { exchangeDevice, atLeast } from "../remedies/exchange-device.ts";
import { partPlace } from "../words/places.ts";
import { throughJoin, tractionTerminals } from "../words/traction-joins.ts";

export const protectionVoltageLow = defineCheck({
  id: "protection-voltage-low",
  group: "overcurrent",
  title: "Fuse or breaker not rated for the voltage",
  about:
    "Compares the direct-voltage rating of every fuse and breaker (and of the fuse inside a pack) with the highest voltage of the batteries that can drive a current through it: charged, by chemistry, whether a charger is drawn or not. An alternating-voltage rating says nothing about direct current and does not count.",
  severities: ["DANGER"],
  source: { ...VOLTAGE_RATING_SOURCE },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title: "{device} is rated {rating} DC and has to interrupt up to {volts}.",
      why: "Above its rated voltage the arc inside does not go out: {device} goes on conducting, bursts or burns, and protects nothing.",
      mend: "Fit a fuse or breaker with a DC rating of at least {volts}.",
    },
    acOnly: {
      title: "{device} states an AC rating alone, and has to interrupt up to {volts} of direct current.",
      why: "Alternating current goes through zero and puts the arc out by itself; direct current does not, so that a device made for AC may burn instead of opening.",
      mend: "Look for its DC rating in the data sheet; if there is none, fit a device rated for at least {volts} DC.",
    },
  },
  reasons: {
    rating: "The DC voltage rating of {device} is not stated; it has to interrupt up to {volts}.",
    chemistry:
      "The chemistry of the batteries that feed {device} is not stated, so that their highest voltage is not known.",
  },
  run(analysis, report) {
    for (const device of devices(analysis).values()) look(analysis, device, report);
  },
});

function look(analysis: Analysis, device: Device, report: Report): void {
  const { part, inside } = device;
  const place = partPlace(part);
  const { volts, packs } = drivenBy(analysis, device);
  if (volts === 0) {
    report.doesNotApply(place);
    return;
  }
  const parameter = inside ? "internalFuseVoltage" : "voltageDc";
  const rating = part.values.number(parameter);
  const facts = { device: { place }, volts: { value: volts, dimension: "voltage" } } as const;
  if (rating === undefined && part.values.number("voltageAc") === undefined) {
    report.notChecked({ where: [place], reason: "rating", facts, missing: [{ part: part.part.id, parameter }] });
    return;
  }
  const join = throughJoin(analysis, tractionTerminals(analysis), [device.branch.a, device.branch.b]);
  const blocks = packs.flatMap((pack) => pack.blocks.map(partPlace));
  const where = { where: [place], touches: [...blocks, ...join.touches], foldsUnder: join.foldsUnder };
  const remedies = exchangeDevice(
    "higher-voltage",
    device,
    { voltageDc: volts },
    `of at least ${atLeast(volts, "V")} DC`,
  );
  const figures = { severity: "DANGER", limit: volts, unit: "V", remedies } as const;
  if (rating === undefined) {
    report.fails({ message: "acOnly", facts, ...where, ...figures });
    return;
  }
  const unstated = unstatedChemistry(packs);
  if (unstated.length > 0) {
    report.notChecked({ where: [place], reason: "chemistry", facts, missing: unstated });
    return;
  }
  if (rating >= volts * (1 - 1e-9)) {
    report.passes(place);
    return;
  }
  const rated = { ...facts, rating: { value: rating, dimension: "voltage" } } as const;
  report.fails({ message: "low", facts: rated, ...where, ...figures, value: rating });
}

/** The highest voltage that a feed can put across the open device: of every feed whose fault current passes it. */
function drivenBy(analysis: Analysis, { branch }: Device): { readonly volts: Volt; readonly packs: readonly Pack[] } {
  const feeding = walks(analysis).filter(({ labels }) => labels.has(branch.a) && labels.has(branch.b));
  const packs = [...new Set(feeding.flatMap(({ feed }) => feed.pack ?? []))];
  if (packs.length > 0) return { volts: highestOf(packs), packs };
  const outputs = feeding.reduce((most, { feed, state }) => {
    const element = state.elements[feed.sources[0]?.index ?? -1];
    return element?.type === "limited-source" ? Math.max(most, element.emf) : most;
  }, 0);
  if (outputs > 0) return { volts: outputs, packs: [] };
  // Behind a contact that no state closes: what the drawing joins to it.
  const around = [branch.a, branch.b].flatMap((node) => {
    const { traction, auxiliary } = belongingAt(analysis, node);
    return traction.length > 0 ? traction : auxiliary;
  });
  return { volts: highestOf(around), packs: [...new Set(around)] };
}

function highestOf(packs: readonly Pack[]): Volt {
  return packs.reduce((most, pack) => Math.max(most, pack.highest), 0);
}
