import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { connect } from "../../project/commands/connect.ts";
import { execute } from "../../project/commands/define.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Enclosure } from "../../project/document.ts";
import { BOND_LIMIT, BOND_SOURCE, isBonded } from "../../standards/contact-protection.ts";
import { LUGS_ON_STUD } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { bondOf } from "../words/bonds.ts";
import type { Bond } from "../words/bonds.ts";
import { workingOfPart } from "../words/class-b.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const CASE = "case";
const NO_BOND: Bond = { ohms: Infinity, missing: [] };

/** A wire from the case to the chassis point with the fewest lugs, if one has room. */
function bondTo(analysis: Analysis, part: NetworkPart): readonly Remedy[] {
  const { network } = analysis;
  const lugs = (point: NetworkPart): number => network.wiresAt([point.part.id, "stud"]).length;
  const [point] = network.parts
    .filter((each) => each.kind.traits.chassisPoint === true && isBonded(bondOfStud(analysis, each)))
    .filter((each) => lugs(each) < LUGS_ON_STUD)
    .sort((a, b) => lugs(a) - lugs(b) || compareNatural(a.part.id, b.part.id));
  if (point === undefined) return [];
  return [
    {
      id: "bond-case",
      label: `Bond it to ${point.part.designation}`,
      apply: (project) =>
        execute(
          project,
          connect,
          { from: [part.part.id, CASE], to: [point.part.id, "stud"], fields: { colour: "GNYE" } },
          KINDS,
        ).project,
    },
  ];
}

function bondOfStud(analysis: Analysis, point: NetworkPart): number {
  const node = point.nodes.get("stud");
  return node === undefined ? Infinity : bondOf(analysis, node, BOND_LIMIT).ohms;
}

interface Metal {
  /** Where the pen points. */
  readonly place: Place;
  readonly part: NetworkPart;
  /** Further parts that pass with it. */
  readonly also: readonly Place[];
  readonly bond: Bond;
  readonly enclosure: Enclosure | undefined;
  readonly remedies: readonly Remedy[];
}

function judge(analysis: Analysis, report: Report, metal: Metal): void {
  const { place, part, bond, enclosure } = metal;
  const working = workingOfPart(analysis, part);
  const facts = {
    case: { place },
    part: { place: partPlace(part) },
    enclosure: enclosure?.name ?? "",
    volts: { value: working.volts, dimension: "voltage" },
    ohms: { value: Number.isFinite(bond.ohms) ? bond.ohms : 0, dimension: "resistance" },
    limit: { value: BOND_LIMIT, dimension: "resistance" },
  } as const;
  if (isBonded(bond.ohms)) {
    if (working.voltageClass !== "B") report.doesNotApply(place);
    else if (bond.missing.length === 0) report.passes(...metal.also, place);
    else report.notChecked({ where: [place], reason: "approximate", facts, missing: bond.missing });
  } else if (working.voltageClass !== "B") {
    report.notChecked({ where: [place], reason: "voltage", facts, missing: working.missing });
  } else {
    const isOpen = !Number.isFinite(bond.ohms);
    const loose = looseAt(analysis, place);
    report.fails({
      message: enclosure !== undefined ? "enclosure" : isOpen ? "open" : "high",
      severity: "WARNING",
      facts,
      where: [place],
      // The wire that bonds it is drawn, and its other end is on nothing.
      ...(loose.length > 0 ? { touches: loose, foldsUnder: ["wire-loose-end"] } : {}),
      ...(isOpen ? {} : { value: bond.ohms }),
      limit: BOND_LIMIT,
      unit: "ohm",
      ...(enclosure === undefined ? {} : { variant: enclosure.id }),
      remedies: isOpen ? metal.remedies : [],
    });
  }
}

const isLive = (analysis: Analysis, part: NetworkPart): boolean =>
  ["B", "unstated"].includes(workingOfPart(analysis, part).voltageClass);

function lookAtEnclosure(analysis: Analysis, report: Report, enclosure: Enclosure): void {
  const inside = analysis.network.parts.filter(({ part }) => part.enclosure === enclosure.id);
  const [part, ...others] = inside
    .filter((each) => isLive(analysis, each))
    .sort((a, b) => compareNatural(a.part.id, b.part.id));
  if (part === undefined) return;
  const place = partPlace(part);
  const also = others.map(partPlace);
  if (enclosure.conductive === false) {
    if (workingOfPart(analysis, part).voltageClass === "B") report.passes(place, ...also);
    else report.doesNotApply(place);
    return;
  }
  if (enclosure.conductive !== true) {
    const missing = [{ enclosure: enclosure.id, field: "conductive" }];
    report.notChecked({ where: [place], reason: "conductive", facts: { enclosure: enclosure.name }, missing });
    return;
  }
  // What bolts to the box itself: a strap's or a chassis point's own metal, not the case of a part inside.
  const bolted = inside.flatMap((each) =>
    each.kind.group === "connecting"
      ? (each.nodes.get(CASE) ?? (each.kind.traits.chassisPoint === true ? each.nodes.get("stud") : undefined) ?? [])
      : [],
  );
  const bonds = bolted.map((node) => bondOf(analysis, node, BOND_LIMIT)).sort((a, b) => a.ohms - b.ohms);
  judge(analysis, report, { place, part, also, bond: bonds[0] ?? NO_BOND, enclosure, remedies: [] });
}

/** Wires at this terminal of which the other end is loose. */
function looseAt({ network }: Analysis, place: Place): readonly Place[] {
  if (!("part" in place) || place.terminal === undefined) return [];
  return network
    .wiresAt([place.part, place.terminal])
    .filter(({ ends }) => ends.includes(null))
    .map(({ id }) => ({ wire: id }));
}

export const enclosureUnbonded = defineCheck({
  id: "enclosure-unbonded",
  group: "shock",
  title: "Metal case not bonded to the chassis",
  about:
    "Looks at the metal case of every part, and at every metal enclosure, that holds a circuit of more than 60 V: from the case terminal through wires, straps and chassis points to the vehicle's metal there must be less than 0.1 ohm. " +
    "An enclosure counts as bonded by a bonding strap or chassis point that is drawn inside it. Bolts alone are not counted: a case that is bonded by its mounting is drawn with a strap.",
  severities: ["WARNING"],
  source: BOND_SOURCE,
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact: "a contact in the bond is no bond: what may open must not be in it",
    rename: true,
  },
  without: {},
  messages: {
    open: {
      title: "Nothing bonds {case} to the chassis, and the part works at up to {volts}; less than {limit} is required.",
      why: "When its insulation fails inside, the whole case stands at the pack's voltage, nothing trips and nothing shows it until somebody touches case and vehicle together.",
      mend: "Run a short, stout wire or strap from {case} to a clean chassis point.",
    },
    high: {
      title: "From {case} to the chassis there are {ohms}; a part that works at up to {volts} needs less than {limit}.",
      why: "When its insulation fails inside, the fault current lifts the case to a voltage that hurts whoever touches it together with the vehicle.",
      mend: "Shorten or thicken the wire between {case} and the chassis.",
    },
    enclosure: {
      title:
        "The metal enclosure {enclosure} around {part} is not bonded to the chassis; with up to {volts} inside less than {limit} is required.",
      why: "A cable that chafes through inside puts the pack's voltage on the whole box, and nothing shows it until somebody touches box and vehicle together.",
      mend: "Fit a bonding strap inside the enclosure and join it to a clean chassis point with a short, stout wire.",
    },
  },
  reasons: {
    approximate: "{case} leads to the chassis by wires of which length or size is not stated.",
    voltage:
      "{case} is not bonded to the chassis; whether it has to be cannot be told while the chemistry of the battery is not stated.",
    conductive: "Whether the enclosure {enclosure} is of metal is not stated.",
  },
  run(analysis, report) {
    for (const part of analysis.network.parts) {
      const node = part.nodes.get(CASE);
      if (node === undefined || part.kind.group === "connecting") continue;
      const place = terminalPlace(part, CASE);
      if (!isLive(analysis, part)) {
        report.doesNotApply(place);
        continue;
      }
      const bond = bondOf(analysis, node, BOND_LIMIT);
      judge(analysis, report, { place, part, also: [], bond, enclosure: undefined, remedies: bondTo(analysis, part) });
    }
    for (const enclosure of analysis.network.project.enclosures) lookAtEnclosure(analysis, report, enclosure);
  },
});
