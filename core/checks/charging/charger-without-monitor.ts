import type { Analysis, Change, SolvedState } from "../../circuit/analysis.ts";
import { elementOf } from "../../circuit/questions.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, NotChecked } from "../define.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import type { ChargerOutput } from "../words/charger-outputs.ts";
import { partPlace } from "../words/places.ts";
import { packVolts } from "../words/traction-pairs.ts";
import { undecidedFields } from "../words/undecided.ts";

/** Cells that overcharging sets on fire. */
const LITHIUM: readonly string[] = ["lifepo4", "nmc", "lto"];

export const chargerWithoutMonitor = defineCheck({
  id: "charger-without-monitor",
  group: "charging",
  title: "Lithium charged without its monitor's say",
  about:
    "Charges a lithium pack and lets each output of every battery monitor change once, and its charge port open: if the charger goes on, nothing stops it when one cell is full. A pack with a monitor of its own inside counts as watched. What travels as messages on a serial line is not seen.",
  severities: ["WARNING"],
  source: {
    text: "Makers' manuals of lithium cells ask for a cut-off by cell voltage; common practice",
    known: "memory",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    unwatched: {
      title: "No battery monitor stands between {charger} and the lithium pack at {pack} ({volts}).",
      why: "A charger sees only the whole pack; the first cell that is full goes on being charged until it swells or burns.",
      mend: "Fit a battery monitor and let its alarm or charge output cut {charger} off, in its mains, its enable or its output lead.",
    },
    deaf: {
      title: "Nothing that {monitors} can do stops {charger} from charging the lithium pack at {pack} ({volts}).",
      why: "The monitor sees that a cell is full and cannot say so; that cell goes on being charged until it swells or burns.",
      mend: "Lead an output of {monitors} to a relay in the mains or the output lead of {charger}, or take the charger's minus to the monitor's charge port.",
    },
  },
  reasons: {
    chemistry: "Whether {charger} needs a monitor's say depends on the chemistry of the pack, which is not stated.",
    internal: "Whether the pack at {pack} has a monitor of its own inside, which would stop {charger}, is not stated.",
    idle: "Whether a monitor can stop {charger} cannot be told, as it does not charge for want of data.",
    undecided: "Whether a monitor can stop {charger} depends on what is not stated about a contact or an output.",
  },
  foldsUnder: ["protection-bypassed"],
  run(analysis, report) {
    const charging = analysis.state("charging");
    const outputs = chargerOutputs(analysis);
    const monitors = analysis.network.parts.filter(({ kind }) => kind.traits.monitor === true);
    if (charging === undefined || outputs.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const output of outputs) {
      const { part, place, packs } = output;
      const blocks = packs.flatMap((pack) => pack.blocks);
      const lithium = blocks.filter(({ values }) => LITHIUM.includes(values.choice("chemistry") ?? ""));
      const unknown = blocks.filter(({ values }) => values.choice("chemistry") === undefined);
      const pack = packs[0]?.blocks[0];
      const facts = {
        charger: { place: partPlace(part) },
        pack: { place: pack === undefined ? place : partPlace(pack) },
        monitors: { places: monitors.map(partPlace) },
        volts: { value: packVolts(packs), dimension: "voltage" },
      } as const;
      const unchecked = (reason: string, missing: readonly MissingField[]): NotChecked => ({
        where: [place],
        reason,
        facts,
        missing,
      });
      if (lithium.length === 0) {
        if (unknown.length === 0) report.doesNotApply(place);
        else report.notChecked(unchecked("chemistry", fieldsOf(unknown, "chemistry")));
        continue;
      }
      if (blocks.every(({ values }) => values.choice("internalMonitor") === "yes")) {
        report.passes(place);
        continue;
      }
      if (!charges(analysis, charging, output)) {
        const missing = [
          ...(part.values.number("outputVoltageMax") === undefined ? fieldsOf([part], "outputVoltageMax") : []),
          ...undecidedFields(analysis),
        ];
        if (missing.length === 0) report.doesNotApply(place);
        else report.notChecked(unchecked("idle", missing));
        continue;
      }
      if (monitors.some((monitor) => canStop(analysis, charging, output, monitor))) {
        report.passes(place);
        continue;
      }
      const silent = blocks.filter(({ values }) => values.choice("internalMonitor") === undefined);
      const undecided = [...unstatedOutputs(analysis, monitors), ...undecidedFields(analysis)];
      if (silent.length > 0) report.notChecked(unchecked("internal", fieldsOf(silent, "internalMonitor")));
      else if (monitors.length > 0 && undecided.length > 0) report.notChecked(unchecked("undecided", undecided));
      else {
        report.fails({
          message: monitors.length === 0 ? "unwatched" : "deaf",
          facts,
          severity: "WARNING",
          where: [place, ...monitors.map(partPlace)],
          states: [charging.name],
          value: packVolts(packs),
          unit: "V",
        });
      }
    }
  },
});

function fieldsOf(parts: readonly NetworkPart[], parameter: string): readonly MissingField[] {
  return parts.map(({ part }) => ({ part: part.id, parameter }));
}

/** Its output is on and joined to the pack. */
function charges(analysis: Analysis, state: SolvedState, { part, plus, minus }: ChargerOutput): boolean {
  const output = elementOf(state, analysis.network, part, "output-switch")?.element;
  if (output?.type !== "contact" || !output.closed) return false;
  const feed = closedFeed(analysis, state);
  // Behind a diode towards the pack nothing conducts once the pack is as high as the charger.
  return feed.isFed(plus, minus) || !new ClosedFeed(analysis, state, { contacts: "closed" }).isFed(plus, minus);
}

function branchesOf(analysis: Analysis, { firstBranch, branchCount }: NetworkPart): readonly Branch[] {
  return analysis.network.branches.slice(firstBranch, firstBranch + branchCount);
}

/** Some output of the monitor, or its charge port, ends the charging. */
function canStop(analysis: Analysis, charging: SolvedState, output: ChargerOutput, monitor: NetworkPart): boolean {
  const own = branchesOf(analysis, monitor);
  const ports = own.filter(({ role }) => role === "contact");
  if (ports.some(({ index }) => isClosed(charging, index)) && portStops(analysis, charging, output, own, ports))
    return true;
  const drivers = own.filter(({ role }) => role === "driver");
  // One that is not supplied says nothing.
  if (drivers.every(({ index }) => !isClosed(charging, index))) return false;
  return drivers.some(({ index, a, b }) => {
    const change: Change = isClosed(charging, index) ? { open: [index] } : { shorts: [[a, b]] };
    return !charges(analysis, analysis.solveChanged(charging, change), output);
  });
}

function isClosed(state: SolvedState, index: number): boolean {
  const element = state.elements[index];
  return element?.type === "contact" && element.closed;
}

/** With its switches open nothing is left but body diodes, and none of them lets the charging current pass. */
function portStops(
  analysis: Analysis,
  charging: SolvedState,
  { plus, minus }: ChargerOutput,
  own: readonly Branch[],
  ports: readonly Branch[],
): boolean {
  const diodes = own.filter(({ role }) => role === "diode");
  const without = new Set([...ports, ...diodes].map(({ index }) => index));
  const feed = new ClosedFeed(analysis, charging, { without });
  if (feed.isFed(plus, minus)) return false;
  return !diodes.some(({ a, b }) => feed.island(b) === feed.island(minus) && feed.isFed(plus, a));
}

/** Whether an active output gives plus or pulls to minus decides what hangs on it. */
function unstatedOutputs(analysis: Analysis, monitors: readonly NetworkPart[]): readonly MissingField[] {
  const silent = monitors.filter(
    ({ part, values }) =>
      values.choice("outputType") === undefined &&
      ["charge-enable", "discharge-enable", "alarm"].some((id) => analysis.network.wiresAt([part.id, id]).length > 0),
  );
  return fieldsOf(silent, "outputType");
}
