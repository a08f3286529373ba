/** A vehicle that can only be towed with its motor joined to controller and pack. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { BranchIndex, NetworkPart, NodeIndex } from "../../network/network.ts";
import { CONDITIONS } from "../../circuit/conditions.ts";
import { positionOf } from "../../network/build.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place } from "../define.ts";
import { ClosedFeed } from "../words/closed-feed.ts";
import { drives } from "../words/drive-enable.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { fedBetween } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const towIsolationMissing = defineCheck({
  id: "tow-isolation-missing",
  group: "controls",
  title: "Nothing to open for towing",
  about:
    "Takes every disconnect, every breaker with a handle, every plug and every toggle switch as opened by hand, all other contacts as closed, and looks whether that parts each motor from its controller or the pack from the drive. A contactor does not count: what closes it may still be on while the vehicle is towed. A gear that lets the motor stand is not seen.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: "A plug in the pack's or the motor's lead is what opens it for towing.",
    contact: true,
    rename: true,
  },
  without: {},
  messages: {
    missing: {
      title: "Nothing that is worked by hand parts {motors} from controller or pack for towing.",
      why: "A motor that is turned by the wheels while it is joined to its controller can heat, brake hard or feed back, and burn itself and the controller.",
      mend: "Fit a disconnect or a plug that can be pulled in the lead of the pack or of the motor, and open it before towing.",
    },
    generates: {
      title:
        "Nothing that is worked by hand parts {motors} from controller or pack for towing, and its magnets generate whenever it turns.",
      why: "Towed, a permanent-magnet motor charges the controller through its diodes with a voltage that grows with speed, whether anything is switched on or not.",
      mend: "Fit a disconnect or a plug that can be pulled in the leads of the motor, or tow with the driven wheels off the ground.",
    },
  },
  reasons: {
    manual: "Whether {candidates} can be opened by hand before towing {motors} is not stated.",
  },
  foldsUnder: ["disconnect-missing"],
  run(analysis, report) {
    const all = drives(analysis);
    const motors = analysis.network.parts.filter(({ kind }) => kind.traits.motor === true);
    const [any] = analysis.states;
    const found = any === undefined ? [] : motors.flatMap((motor) => joinedTo(analysis, motor, all) ?? []);
    if (found.length === 0 || any === undefined) {
      report.doesNotApply();
      return;
    }
    const candidates = analysis.network.parts.flatMap((part) => candidateOf(analysis, part) ?? []);
    const isLeft = ({ motor, drive }: Towed, opened: readonly Candidate[]): boolean =>
      !isParted(analysis, motor, drive, new Set(opened.flatMap(({ branches }) => branches)));
    const sure = candidates.filter(({ missing }) => missing.length === 0);
    const left = found.filter((each) => isLeft(each, sure));
    for (const each of found) if (!left.includes(each)) report.passes(each.place);
    for (const each of left) {
      const facts = { motors: { places: [partPlace(each.motor)] } };
      const unsure = candidates.filter(({ missing }) => missing.length > 0);
      if (unsure.length > 0 && !isLeft(each, candidates)) {
        report.notChecked({
          where: [each.place],
          reason: "manual",
          facts: { ...facts, candidates: { places: unsure.map(({ part }) => partPlace(part)) } },
          missing: unsure.flatMap(({ missing }) => missing),
        });
        continue;
      }
      const generates = each.motor.kind.traits.generates?.(each.motor.values) === true;
      report.fails({
        message: generates ? "generates" : "missing",
        facts,
        severity: generates ? "WARNING" : "NOTICE",
        where: [each.place],
        touches: [partPlace(each.motor), each.drive.place],
        states: ["parked"],
      });
    }
  },
});

interface Towed {
  readonly motor: NetworkPart;
  readonly drive: TractionPair;
  readonly place: Place;
}

interface Candidate {
  readonly part: NetworkPart;
  readonly branches: readonly BranchIndex[];
  readonly missing: readonly MissingField[];
}

/** Studs of a motor and of a controller between which the motor's current flows. */
function studsOf({ terminals, nodes }: NetworkPart): readonly NodeIndex[] {
  return terminals.flatMap(({ id, form }) => (form === "stud" && id !== "case" ? (nodes.get(id) ?? []) : []));
}

/** The drive of a motor: itself on contacts, or the controller to which metal joins its studs. */
function joinedTo(analysis: Analysis, motor: NetworkPart, all: readonly TractionPair[]): Towed | undefined {
  const main = motor.kind.supplyPairs(motor.values).find((pair) => pair.main);
  const [any] = analysis.states;
  if (main === undefined || any === undefined) return undefined;
  const place = terminalPlace(motor, main.plus);
  const own = all.find(({ part }) => part === motor);
  if (own !== undefined) return { motor, drive: own, place };
  const metal = new ClosedFeed(analysis, any, { contacts: "closed" });
  const ends = new Set(studsOf(motor).map((node) => metal.island(node)));
  const drive = all.find(
    ({ part }) => part.kind.traits.controller === true && outputsOf(part).some((node) => ends.has(metal.island(node))),
  );
  return drive === undefined ? undefined : { motor, drive, place };
}

/** Studs of a controller other than those of the pack. */
function outputsOf(part: NetworkPart): readonly NodeIndex[] {
  const main = part.kind.supplyPairs(part.values).find((pair) => pair.main);
  const pack = [part.nodes.get(main?.plus ?? ""), part.nodes.get(main?.minus ?? "")];
  return studsOf(part).filter((node) => !pack.includes(node));
}

/** With these open: is the pack off the drive, or does one winding end of the motor no longer reach the controller? */
function isParted(
  analysis: Analysis,
  motor: NetworkPart,
  drive: TractionPair,
  without: ReadonlySet<BranchIndex>,
): boolean {
  const [any] = analysis.states;
  if (any === undefined) return false;
  const metal = new ClosedFeed(analysis, any, { without, contacts: "closed" });
  if (fedBetween(analysis, metal, drive) === undefined) return true;
  if (drive.part === motor) return false;
  const before = new ClosedFeed(analysis, any, { contacts: "closed" });
  const outputs = studsOf(drive.part);
  const reaches = (feed: ClosedFeed, node: NodeIndex): boolean =>
    outputs.some((output) => feed.island(output) === feed.island(node));
  return studsOf(motor).some((node) => reaches(before, node) && !reaches(metal, node));
}

/** Disconnect, breaker with a handle, plug, toggle switch. */
function candidateOf(analysis: Analysis, part: NetworkPart): Candidate | undefined {
  const { traits } = part.kind;
  const { parked } = CONDITIONS;
  const toggles = positionOf(part, parked) !== positionOf(part, { ...parked, toggle: "on" });
  if (traits.disconnect !== true && traits.device !== "breaker" && traits.connector !== true && !toggles)
    return undefined;
  const manual = part.values.choice("manual");
  if (traits.device === "breaker" && manual === "no") return undefined;
  const missing =
    traits.device === "breaker" && manual === undefined ? [{ part: part.part.id, parameter: "manual" }] : [];
  const branches = analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .filter(({ index }) => analysis.states[0]?.elements[index]?.type === "contact")
    .map(({ index }) => index);
  return { part, branches, missing };
}
