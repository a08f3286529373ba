/** A throttle whose broken or shorted wire reads as a pressed pedal. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { singleFaults } from "../../circuit/faults.ts";
import type { FaultKind, SingleFault } from "../../circuit/faults.ts";
import type { NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Remedy, Report } from "../define.ts";
import { isAwake, isController, running, unstatedEnable } from "../words/drive-enable.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { throttleChain } from "../words/throttle-chain.ts";
import type { ThrottleChain } from "../words/throttle-chain.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const throttleFaultDrives = defineCheck({
  id: "throttle-fault-drives",
  group: "controls",
  title: "A fault of the throttle drives the vehicle",
  about:
    "With the vehicle ready and the pedal free, breaks every wire, contact and plug between throttle and controller once, lets neighbouring pins of the throttle touch, and lets each of its wires touch the chassis. The controller must then read idle or a fault, or a contact of the pedal in the enable chain must hold it off. A pedal that sticks is not seen.",
  severities: ["DANGER"],
  source: {
    text: "Common practice: no single fault of the throttle may ask for motion; fault bands of throttle inputs by makers' manuals",
    known: "none",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    open: {
      title:
        "If one of these opens ({faults}), the throttle input at {at} no longer reads idle and {part} drives by itself.",
      why: "A broken wire, a loose plug or a corroded contact is the commonest fault of all, and here it asks for power with nobody on the pedal.",
      mend: "Switch the throttle fault detection of {part} on, or use a throttle that reads idle when open; besides, lead its interlock through a contact of the pedal.",
    },
    short: {
      title: "If these touch ({faults}), the throttle input at {at} no longer reads idle and {part} drives by itself.",
      why: "A strand of wire, water in a plug or a chafed cable then asks for power with nobody on the pedal.",
      mend: "Use a throttle that does not read full when shorted, such as one that rises or one with resistors at both ends; besides, lead the interlock of {part} through a contact of the pedal.",
    },
  },
  reasons: {
    unstated:
      "Whether a broken or shorted wire of the throttle at {at} drives {part} depends on how its input reads, which is not stated.",
    never: "Whether a fault of the throttle at {at} drives {part} cannot be told, as the drive is enabled in no state.",
  },
  foldsUnder: ["throttle-mismatch", "terminal-unconnected", "wire-loose-end"],
  run(analysis, report) {
    const { enabled, never } = running(analysis);
    const controllers = [...enabled, ...never].filter(isController);
    if (controllers.length === 0) report.doesNotApply();
    for (const drive of controllers) lookAt(analysis, drive, enabled.includes(drive), report);
  },
});

const OPENS: ReadonlySet<FaultKind> = new Set<FaultKind>([
  "wire-open",
  "contact-stuck-open",
  "fuse-blown",
  "connector-unplugged",
]);

function lookAt(analysis: Analysis, drive: TractionPair, runs: boolean, report: Report): void {
  const { part } = drive;
  const at = terminalPlace(part, "throttle-2");
  const chain = throttleChain(analysis, part);
  const ready = analysis.state("ready");
  if (ready === undefined || chain.nodes.size === 0) {
    report.doesNotApply(at);
    return;
  }
  const facts = { part: { place: partPlace(part) }, at: { place: at } };
  if (!runs) {
    report.notChecked({ where: [at], reason: "never", facts, missing: unstatedEnable(analysis) });
    return;
  }
  // Driving and ready differ by the pedal alone: what is off now, a contact of the pedal holds off.
  if (!isAwake(analysis, ready, drive)) {
    report.passes(at);
    return;
  }
  // A lever whose stop is in the middle stands at an end when solved as idle: then only what opens can be told.
  const centred = part.values.choice("throttleMode") === "centre-zero";
  if (!centred && ready.partStates[part.index]?.["throttle"] === "pressed") {
    report.doesNotApply(at);
    return;
  }
  const missing = unstatedInput(part);
  if (missing.length > 0) {
    report.notChecked({ where: [at], reason: "unstated", facts, missing });
    return;
  }
  const driving = singleFaults(analysis).filter(
    (fault) => isOf(fault, chain) && (!centred || OPENS.has(fault.kind)) && drivesWith(analysis, ready, drive, fault),
  );
  if (driving.length === 0) {
    report.passes(at);
    return;
  }
  const opening = driving.filter(({ kind }) => OPENS.has(kind));
  const places = uniquePlaces((opening.length > 0 ? opening : driving).flatMap(placesOf));
  report.fails({
    message: opening.length > 0 ? "open" : "short",
    facts: { ...facts, faults: { places } },
    severity: "DANGER",
    where: [at, ...places],
    touches: [...chain.sensors.map(partPlace), ...driving.flatMap(placesOf)],
    states: [ready.name],
    remedies: remediesOf(part),
  });
}

/** What decides how the input reads a wire that is open or shorted. */
function unstatedInput(part: NetworkPart): readonly MissingField[] {
  const { values } = part;
  const choices = ["throttleInput", "throttleFaultBand"].filter((name) => values.choice(name) === undefined);
  const ends = ["throttleIdle", "throttleFull"].filter((name) => values.number(name) === undefined);
  return [...choices, ...ends].map((parameter) => ({ part: part.part.id, parameter }));
}

/** A fault of the throttle and its wires alone. */
function isOf({ kind, wire, nodes }: SingleFault, chain: ThrottleChain): boolean {
  if (wire !== undefined) return chain.wires.has(wire);
  if (kind === "terminals-bridged") return nodes.every((node) => chain.nodes.has(node));
  return OPENS.has(kind) && nodes.some((node) => chain.nodes.has(node));
}

function drivesWith(analysis: Analysis, ready: SolvedState, drive: TractionPair, { change }: SingleFault): boolean {
  const faulted = analysis.solveChanged(ready, change);
  return faulted.partStates[drive.part.index]?.["throttle"] === "pressed" && isAwake(analysis, faulted, drive);
}

function placesOf({ wire, part, kind, terminals }: SingleFault): readonly Place[] {
  if (wire !== undefined) return [{ wire }];
  if (kind === "terminals-bridged") return terminals;
  return part === undefined ? [] : [partPlace(part)];
}

function uniquePlaces(places: readonly Place[]): readonly Place[] {
  return [...new Map(places.map((place) => [JSON.stringify(place), place])).values()];
}

/** A resistance input with its fault detection on takes an open wire for what it is. */
function remediesOf({ part, values }: NetworkPart): readonly Remedy[] {
  if (values.choice("throttleFaultBand") !== "no" || values.choice("throttleInput") !== "resistance-rising") return [];
  const changes = [{ part: part.id, name: "throttleFaultBand", value: "yes" }];
  return [
    {
      id: "fault-detection-on",
      label: `Switch the throttle fault detection of ${part.designation} on`,
      apply: (project) => execute(project, setParameter, { changes }, KINDS).project,
    },
  ];
}
