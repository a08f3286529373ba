import type { Analysis } from "../../circuit/analysis.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setWireField } from "../../project/commands/set-wire-field.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Project, Wire, WireEnd } from "../../project/document.ts";
import type { ColourCode } from "../../standards/colours.ts";
import { ORANGE_SOURCE } from "../../standards/contact-protection.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import { placeId } from "../finding.ts";
import type { Remedy, Report } from "../define.ts";
import { workingAt } from "../words/class-b.ts";
import type { WorkingVoltage } from "../words/class-b.ts";
import { nodesOf, throughJoin, tractionTerminals } from "../words/traction-joins.ts";
import type { ThroughJoin } from "../words/traction-joins.ts";

const ORANGE: ColourCode = "OG";

/** Codes of several colours are joined in the order of the standard's table, two letters each. */
function isOrange(colour: string): boolean {
  return (colour.match(/../g) ?? []).some((code) => code === ORANGE);
}

/** Both its ends lie in one enclosure, and so does the wire. */
function isEnclosed(analysis: Analysis, { ends: [from, to] }: Wire): boolean {
  if (from === null || to === null) return false;
  const [a, b] = [from, to].map(([id]) => analysis.network.partById.get(id)?.part.enclosure);
  return a !== undefined && a === b;
}

/** What stands on a wire; nothing on one that leads onto the chassis: it joins, and that is a finding of its own. */
function workingOn(analysis: Analysis, wire: Wire): WorkingVoltage | undefined {
  const { network } = analysis;
  const ends = wire.ends.filter((end) => end !== null);
  if (ends.some(([id]) => network.partById.get(id)?.kind.traits.chassisPoint === true)) return undefined;
  // A wire may still name a terminal that its part no longer has.
  const [node] = ends.flatMap(([id, terminal]) => network.partById.get(id)?.nodes.get(terminal) ?? []);
  return node === undefined ? undefined : workingAt(analysis, node);
}

const makeOrange = (wires: readonly Wire[]): Remedy => ({
  id: "make-orange",
  label: wires.length === 1 ? "Make it orange" : "Make them orange",
  apply: (project: Project) =>
    execute(
      project,
      setWireField,
      { changes: wires.map(({ id }) => ({ wire: id, fields: { colour: ORANGE } })) },
      KINDS,
    ).project,
});

interface Wrong {
  readonly wire: Wire;
  readonly working: WorkingVoltage;
}

/** The pin of a controller's signal plug in which a wire ends: there the pack may have no business at all. */
function plugOf({ network }: Analysis, { ends }: Wire): WireEnd | undefined {
  return ends
    .filter((end) => end !== null)
    .find(([id, terminal]) => {
      const part = network.partById.get(id);
      const form = part?.terminals.find((each) => each.id === terminal)?.form;
      return part?.kind.traits.controller === true && form === "pin";
    });
}

/** What lies between these wires and the traction pack where they are wires of the 12 V side. */
function ofPack(analysis: Analysis, wires: readonly Wire[]): ThroughJoin {
  return throughJoin(analysis, tractionTerminals(analysis), nodesOf(analysis, wires));
}

function fail(analysis: Analysis, report: Report, wrong: readonly Wrong[]): void {
  const where = wrong.map(({ wire }) => ({ wire: wire.id }));
  const join = ofPack(
    analysis,
    wrong.map(({ wire }) => wire),
  );
  const volts = wrong.reduce((most, { working }) => Math.max(most, working.volts), 0);
  report.fails({
    message: "colour",
    severity: "WARNING",
    facts: {
      wires: { places: where },
      volts: { value: volts, dimension: "voltage" },
      limit: { value: CLASS_B_DC, dimension: "voltage" },
    },
    where,
    value: volts,
    limit: CLASS_B_DC,
    unit: "V",
    touches: [
      ...wrong.flatMap(({ wire }) => {
        const pin = plugOf(analysis, wire);
        return pin === undefined ? [] : [{ part: pin[0], terminal: pin[1] }];
      }),
      ...join.touches,
    ],
    foldsUnder: join.foldsUnder,
    remedies: [makeOrange(wrong.map(({ wire }) => wire))],
  });
}

function run(analysis: Analysis, report: Report): void {
  const wrong: Wrong[] = [];
  for (const wire of analysis.network.project.wires) {
    const working = workingOn(analysis, wire);
    const place = { wire: wire.id };
    if (working === undefined || working.voltageClass === "none" || working.voltageClass === "A") {
      report.doesNotApply(place);
    } else if (isEnclosed(analysis, wire) || (typeof wire.colour === "string" && isOrange(wire.colour))) {
      if (working.voltageClass === "B") report.passes(place);
      else report.doesNotApply(place);
    } else if (wire.colour === undefined || wire.colour === null) {
      const missing = [{ wire: wire.id, field: "colour" }];
      report.notChecked({ where: [place], reason: "colour", facts: { wire: { place } }, missing });
    } else if (working.voltageClass === "unstated") {
      report.notChecked({ where: [place], reason: "voltage", facts: { wire: { place } }, missing: working.missing });
    } else {
      wrong.push({ wire, working });
    }
  }
  wrong.sort((a, b) => compareNatural(a.wire.id, b.wire.id));
  const groups = new Map<string, Wrong[]>();
  for (const each of wrong) {
    const plug = plugOf(analysis, each.wire)?.[0] ?? "";
    const joins = ofPack(analysis, [each.wire]).touches.map(placeId);
    const key = [plug, ...joins].join(" ");
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  for (const group of groups.values()) fail(analysis, report, group);
}

export const tractionNotOrange = defineCheck({
  id: "traction-not-orange",
  group: "shock",
  title: "Traction cable that is not orange",
  about:
    "Looks at the colour of every wire outside an enclosure at which a traction pack of more than 60 V stands in some operating state, the wires behind contacts and motor leads among them. " +
    "A wire counts as enclosed where both its ends are in one enclosure. Mains wires, and the alternating voltage of motor leads on a pack of up to 60 V, are not looked at.",
  severities: ["WARNING"],
  source: ORANGE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    colour: {
      title: "Not orange outside an enclosure: {wires}, with up to {volts} where everything above {limit} has to be.",
      why: "Orange is what tells a helper, a rescuer or the next owner that a cable can kill; any other colour invites a hand or a cutter.",
      mend: "Use orange cable, or pull an orange sleeve or conduit over its whole length and state orange as the colour.",
    },
  },
  reasons: {
    colour: "The traction circuit stands on {wire} outside an enclosure, and its colour is not stated.",
    voltage: "Whether more than 60 V stand on {wire} cannot be told: the chemistry of its battery is not stated.",
  },
  foldsUnder: ["logic-overvoltage"],
  run,
});
