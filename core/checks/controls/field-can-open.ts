/** A separately fed field that can go out while the armature keeps its supply. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Ampere, Ratio } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Place, Report } from "../define.ts";
import { isDrawnIn, unstatedEnable } from "../words/drive-enable.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";

/** Below this part of its current a field counts as lost, above this part an armature as fed (common practice, no source). */
const LOST: Ratio = 0.05;
const KEPT: Ratio = 0.5;
/** Only leaks flow below this. */
const LEAST: Ampere = 0.01;
const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt", "driver"];
const STATES = ["driving", "driving-low", "reversing", "regenerating"] as const;

export const fieldCanOpen = defineCheck({
  id: "field-can-open",
  group: "controls",
  title: "Field that can go out by itself",
  about:
    "Looks at motors whose field is fed beside the armature. In every driving state the field must carry current while the armature does, and every fuse and contact in the field's feed is opened once: the armature must then go dead too. A field that the controller feeds is watched by the controller and left out, and so are broken wires.",
  severities: ["DANGER"],
  source: {
    text: "Speed of a motor with separate field rises as its flux falls: textbook law n = (U - I R) / (k flux)",
    known: "calc",
  },
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact: "A contact that is drawn into the field's feed is what the check looks for.",
    rename: true,
  },
  without: {},
  messages: {
    opens: {
      title: "{devices} can open the field of {motor} at {field} while its armature keeps its supply.",
      why: "Without its field an unloaded motor speeds up until it flies apart, and a loaded one draws a current that burns it.",
      mend: "Feed the field straight from behind the main contactor, or add a relay in the field's circuit whose contact lies in the feed of the main contactor's coil.",
    },
    dead: {
      title: "In {states} the armature of {motor} is fed and its field at {field} is not.",
      why: "Without its field an unloaded motor speeds up until it flies apart, and a loaded one draws a current that burns it.",
      mend: "Give {field} a feed that is on whenever the armature has one, with the current reversed in the armature rather than the field interrupted.",
    },
  },
  reasons: {
    never: "Whether {motor} can lose its field cannot be told, as its armature is fed in no state.",
  },
  foldsUnder: ["wire-loose-end", "terminal-unconnected", "no-return-path"],
  run(analysis, report) {
    const motors = analysis.network.parts.filter(
      (part) => part.kind.traits.motor === true && windingOf(analysis, part, FIELD) !== undefined,
    );
    if (motors.length === 0) report.doesNotApply();
    for (const motor of motors) lookAt(analysis, motor, report);
  },
});

const FIELD = ["F1", "F2"] as const;
const ARMATURE = ["A1", "A2"] as const;

/** The winding between two terminals, undefined where the motor has none or nothing is wired to it. */
function windingOf(
  { network }: Analysis,
  { part, nodes, firstBranch, branchCount }: NetworkPart,
  [from, to]: readonly [string, string],
): Branch | undefined {
  if ([from, to].some((end) => network.wiresAt([part.id, end]).length === 0)) return undefined;
  return network.branches
    .slice(firstBranch, firstBranch + branchCount)
    .find(({ role, a, b }) => role === "load" && a === nodes.get(from) && b === nodes.get(to));
}

const through = (state: SolvedState, { index }: Branch): Ampere => Math.abs(state.currents[index] ?? 0);

/** Does metal join one end of the field to a field output of a controller? */
function isControlled(analysis: Analysis, field: Branch): boolean {
  const [state] = analysis.states;
  if (state === undefined) return false;
  const outputs = new Set<NodeIndex>(
    analysis.network.parts
      .filter((part) => part.kind.traits.controller === true && isDrawnIn(analysis, part))
      .flatMap(({ nodes }) => FIELD.flatMap((end) => nodes.get(end) ?? [])),
  );
  return [field.a, field.b].some((node) =>
    [...analysis.reach(state, node, { through: METAL.slice(0, 4), contacts: "closed" })].some((each) =>
      outputs.has(each),
    ),
  );
}

function lookAt(analysis: Analysis, motor: NetworkPart, report: Report): void {
  const [field, armature] = [windingOf(analysis, motor, FIELD), windingOf(analysis, motor, ARMATURE)];
  const place = terminalPlace(motor, FIELD[0]);
  if (field === undefined || armature === undefined) {
    report.doesNotApply(place);
    return;
  }
  if (isControlled(analysis, field)) {
    report.passes(place);
    return;
  }
  const facts = { motor: { place: partPlace(motor) }, field: { place } };
  const states = STATES.flatMap((name) => analysis.state(name) ?? []).filter(
    (state) => through(state, armature) > LEAST,
  );
  if (states.length === 0) {
    report.notChecked({ where: [place], reason: "never", facts, missing: unstatedEnable(analysis) });
    return;
  }
  const dead = states.filter((state) => through(state, field) <= LEAST);
  if (dead.length > 0) {
    const names = dead.map(({ name }) => name);
    report.fails({
      message: "dead",
      facts: { ...facts, states: { states: names } },
      severity: "DANGER",
      where: [place],
      touches: [partPlace(motor)],
      states: names,
    });
    return;
  }
  const openers = new Map<number, Branch>();
  const where = new Set<string>();
  for (const state of states) {
    for (const branch of analysis.network.branches) {
      if (openers.has(branch.index) || !opensField(analysis, state, branch, field, armature)) continue;
      openers.set(branch.index, branch);
      where.add(state.name);
    }
  }
  if (openers.size === 0) {
    report.passes(place);
    return;
  }
  const devices: readonly Place[] = branchPlaces([...openers.values()]);
  report.fails({
    message: "opens",
    facts: { ...facts, devices: { places: devices } },
    severity: "DANGER",
    where: [place, ...devices],
    states: [...where],
  });
}

/** A fuse or contact in the field's feed that, opened, leaves the armature fed. */
function opensField(
  analysis: Analysis,
  state: SolvedState,
  { index, role, part }: Branch,
  field: Branch,
  armature: Branch,
): boolean {
  if (part === undefined || (role !== "contact" && role !== "protection")) return false;
  const current = through(state, field);
  if (Math.abs(state.currents[index] ?? 0) < (1 - LOST) * current) return false;
  const opened = analysis.solveChanged(state, { open: [index] });
  return through(opened, field) < LOST * current && through(opened, armature) > KEPT * through(state, armature);
}
