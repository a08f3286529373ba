import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Wire, WireEnd } from "../../project/document.ts";
import { parseQuantity } from "../../quantity/parse.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import { insulateFor } from "../remedies/state-wire.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { workingAt } from "../words/class-b.ts";
import type { WorkingVoltage } from "../words/class-b.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { nodesOf, throughJoin, tractionTerminals } from "../words/traction-joins.ts";

/** Wires that run together: in one cable, in one conduit. */
interface Bundle {
  readonly message: "cable" | "conduit";
  readonly name: string;
  readonly key: string;
  readonly wires: readonly Wire[];
}

function bundles(analysis: Analysis): readonly Bundle[] {
  const { wires, cables } = analysis.network.project;
  const sorted = [...wires].sort((a, b) => compareNatural(a.id, b.id));
  const conduitOf = (wire: Wire): string | undefined => {
    const text = wire.conduit ?? cables.find(({ id }) => id === wire.cable)?.conduit ?? "";
    return text.trim() === "" ? undefined : text.trim();
  };
  const conduits = [...new Set(sorted.flatMap((wire) => conduitOf(wire) ?? []))];
  return [
    ...cables.map(({ id, name }) => ({
      message: "cable" as const,
      name,
      key: id,
      wires: sorted.filter((wire) => wire.cable === id),
    })),
    ...conduits.map((name) => ({
      message: "conduit" as const,
      name,
      key: name,
      wires: sorted.filter((wire) => conduitOf(wire) === name),
    })),
  ];
}

function workingAtEnd(analysis: Analysis, end: WireEnd): WorkingVoltage {
  return workingAt(analysis, analysis.network.nodeOf(end));
}

function workingOn(analysis: Analysis, { ends }: Wire): WorkingVoltage | undefined {
  // A wire may still name a terminal that its part no longer has.
  const end = ends.find((each) => each !== null && analysis.network.partById.get(each[0])?.nodes.has(each[1]) === true);
  return end === undefined || end === null ? undefined : workingAtEnd(analysis, end);
}

/** Highest voltage of the packs that these touch, as far as it is known. */
function voltageOf(traction: readonly WorkingVoltage[]): ReturnType<typeof chemistryRange> {
  return chemistryRange([...new Set(traction.flatMap(({ packs }) => packs))]);
}

function insulationOf({ insulation }: Wire): number | undefined {
  const reading = typeof insulation?.volts === "string" ? parseQuantity(insulation.volts, "voltage") : undefined;
  return reading?.ok === true ? reading.value : undefined;
}

function lookAtBundle(analysis: Analysis, report: Report, { message, name, key, wires }: Bundle): void {
  const stood = wires.flatMap((wire) => {
    const working = workingOn(analysis, wire);
    return working === undefined ? [] : [{ wire, working }];
  });
  const traction = stood.filter(({ working }) => working.voltageClass !== "none");
  const low = stood.filter(({ working }) => working.voltageClass === "none");
  if (traction.length === 0 || low.length === 0) {
    for (const { wire } of stood) report.doesNotApply({ wire: wire.id });
    return;
  }
  const { least, most, missing } = voltageOf(traction.map(({ working }) => working));
  const weak: { readonly wire: Wire; readonly volts: number }[] = [];
  for (const { wire } of low) {
    const place = { wire: wire.id };
    const volts = insulationOf(wire);
    const facts = { wire: { place }, name } as const;
    if (volts === undefined) {
      const field = [{ wire: wire.id, field: "insulation.volts" }];
      report.notChecked({ where: [place], reason: "insulation", facts, missing: field });
    } else if (volts >= most) report.passes(place);
    else if (volts >= least) report.notChecked({ where: [place], reason: "chemistry", facts, missing });
    else weak.push({ wire, volts });
  }
  const [first] = weak;
  if (first === undefined) return;
  const weakest = weak.reduce((lowest, { volts }) => Math.min(lowest, volts), first.volts);
  const nodes = nodesOf(
    analysis,
    traction.map(({ wire }) => wire),
  );
  report.fails({
    ...throughJoin(analysis, tractionTerminals(analysis), nodes),
    message,
    severity: "WARNING",
    facts: {
      name,
      low: { places: weak.map(({ wire }) => ({ wire: wire.id })) },
      high: { places: traction.map(({ wire }) => ({ wire: wire.id })) },
      limit: { value: weakest, dimension: "voltage" },
      volts: { value: least, dimension: "voltage" },
    },
    where: [...weak, ...traction].map(({ wire }): Place => ({ wire: wire.id })),
    value: least,
    limit: weakest,
    unit: "V",
    variant: key,
    remedies: [
      insulateFor(
        weak.map(({ wire }) => wire),
        most,
      ),
    ],
  });
}

function lookAtConnector(analysis: Analysis, report: Report, part: NetworkPart): void {
  const place = partPlace(part);
  const wired = part.terminals
    .filter(({ id }) => analysis.network.wiresAt([part.part.id, id]).length > 0)
    .map(({ id }) => ({ id, working: workingAtEnd(analysis, [part.part.id, id]) }));
  const traction = wired.filter(({ working }) => working.voltageClass !== "none");
  const low = wired.filter(({ working }) => working.voltageClass === "none");
  if (traction.length === 0 || low.length === 0) {
    report.doesNotApply(place);
    return;
  }
  const { least, most, missing } = voltageOf(traction.map(({ working }) => working));
  const rating = part.values.number("pinVoltage");
  const facts = { part: { place } } as const;
  const pinVoltage: MissingField = { part: part.part.id, parameter: "pinVoltage" };
  if (rating === undefined) report.notChecked({ where: [place], reason: "pins", facts, missing: [pinVoltage] });
  else if (rating >= most) report.passes(place);
  else if (rating >= least) report.notChecked({ where: [place], reason: "pinsChemistry", facts, missing });
  else {
    const terminals = (of: typeof wired): readonly Place[] => of.map(({ id }) => terminalPlace(part, id));
    const nodes = traction.flatMap(({ id }) => part.nodes.get(id) ?? []);
    report.fails({
      ...throughJoin(analysis, tractionTerminals(analysis), nodes),
      message: "connector",
      severity: "WARNING",
      facts: {
        ...facts,
        low: { places: terminals(low) },
        high: { places: terminals(traction) },
        limit: { value: rating, dimension: "voltage" },
        volts: { value: least, dimension: "voltage" },
      },
      where: [place],
      value: least,
      limit: rating,
      unit: "V",
    });
  }
}

const WHY =
  "Where the thin insulation chafes or softens in the heat, the pack's voltage comes onto signal or 12 V wires and destroys or electrifies whatever hangs on them.";

export const mixedCable = defineCheck({
  id: "mixed-cable",
  group: "shock",
  title: "Traction and low voltage side by side",
  about:
    "Looks at wires that share a cable or a conduit, and at connectors: where some are on the traction circuit and others are not, the others need insulation for the pack's highest voltage, and the connector's pins a rating for it. " +
    "Two wires share a conduit where the same text stands in their conduit field. It judges the insulation that is stated; an earthed screen between the two is not counted.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    cable: {
      title:
        "In the cable {name} the traction circuit ({high}, up to {volts}) shares the sheath with {low}, insulated for {limit}.",
      why: WHY,
      mend: "Run the two in separate cables, or use cores that are all insulated for the pack's highest voltage.",
    },
    conduit: {
      title:
        "In one conduit ({name}) the traction circuit ({high}, up to {volts}) lies beside {low}, insulated for {limit}.",
      why: WHY,
      mend: "Run the two in separate conduits, or use wire that is insulated for the pack's highest voltage for all of them.",
    },
    connector: {
      title:
        "{part} carries low voltage on {low} and the traction circuit on {high}, where up to {volts} stand; its pins are made for {limit}.",
      why: "A track of damp or a bent pin brings the pack's voltage onto signal or 12 V wires and destroys or electrifies whatever hangs on them.",
      mend: "Give the traction circuit a connector of its own, or use one whose pins are made for the pack's highest voltage.",
    },
  },
  reasons: {
    insulation: "{wire} runs with the traction circuit ({name}); what its insulation stands is not stated.",
    chemistry:
      "{wire} runs with the traction circuit ({name}); whether its insulation is enough cannot be told while the chemistry of the battery is not stated.",
    pins: "{part} carries both low voltage and the traction circuit; what its pins stand is not stated.",
    pinsChemistry:
      "{part} carries both low voltage and the traction circuit; whether its pins are made for it cannot be told while the chemistry of the battery is not stated.",
  },
  run(analysis, report) {
    for (const bundle of bundles(analysis)) lookAtBundle(analysis, report, bundle);
    for (const part of analysis.network.parts) {
      if (part.kind.traits.connector === true) lookAtConnector(analysis, report, part);
    }
  },
});
