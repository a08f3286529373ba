import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { isTraction } from "../../studies/words/belongs.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { Facts, MissingField, Report } from "../define.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { branchesOf } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const BOOT = "outputBootState";

/** States in which electronics come alive with everything else as yet at rest. */
const WAKING = ["parked", "key-on"];

const isIn = (state: SolvedState, { part }: CoilAt): boolean => state.partStates[part.index]?.["coil"] === true;

/** Contactors of the traction circuit, by their coils. */
function mainCoils(analysis: Analysis): readonly CoilAt[] {
  return coilsOf(analysis).filter(
    ({ part, wired }) =>
      wired &&
      part.kind.traits.contactor === true &&
      (part.kind.contacts?.(part.values) ?? []).some(({ a }) => isTraction(analysis, part.nodes.get(a) ?? -1)),
  );
}

/** Outputs of what starts up: control units and controllers. */
function outputs(analysis: Analysis): readonly { readonly driver: Branch; readonly part: NetworkPart }[] {
  return branchesOf(analysis, "driver").flatMap((driver) => {
    const { part } = driver;
    return part !== undefined && BOOT in part.kind.parameters ? [{ driver, part }] : [];
  });
}

interface Bounce {
  readonly state: SolvedState;
  readonly volts: number;
}

/** Does the coil lose its voltage without this output? */
function isThrough(analysis: Analysis, state: SolvedState, at: CoilAt, driver: number): boolean {
  const off = analysis.solveChanged(state, { open: [driver], hold: true });
  return Math.abs(off.between(at.plus, at.minus)) < (at.coil.dropOut ?? 1);
}

/** With this output on and all else as it stands, does the coil get what it pulls in on while it should be out? */
function bounceOf(analysis: Analysis, at: CoilAt, { a, b, index }: Branch): Bounce | undefined {
  const { pickUp, dropOut } = at.coil;
  for (const name of WAKING) {
    const state = analysis.state(name);
    const element = state?.elements[index];
    if (state === undefined || element?.type !== "contact") continue;
    // In already, and not by this output; by this output: then the rest of its chain is closed at any rate.
    if (isIn(state, at) && !element.closed) continue;
    const on = element.closed ? state : analysis.solveChanged(state, { shorts: [[a, b]], hold: true });
    const volts = Math.abs(on.between(at.plus, at.minus));
    // Of unstated pick-up: what would hold any coil.
    if (volts >= (pickUp ?? dropOut ?? 1) && (!element.closed || isThrough(analysis, state, at, index))) {
      return { state, volts };
    }
  }
  return undefined;
}

/** The output's own pin: the end of the driver that is no supply of its part. */
function pinOf({ network }: Analysis, { a, b }: Branch, part: NetworkPart): string {
  const supply = new Set(part.kind.supplyPairs(part.values).flatMap(({ plus, minus }) => [plus, minus]));
  const ends = [a, b].map((node) => network.terminalOfNode[node]);
  return ends.find((end) => end?.[0] === part.part.id && !supply.has(end[1]))?.[1] ?? "";
}

function look(analysis: Analysis, report: Report, at: CoilAt, among: ReturnType<typeof outputs>): void {
  const place = terminalPlace(at.part, at.coil.plus);
  const bounces = among.flatMap(({ driver, part }) => {
    const boot = part.values.choice(BOOT);
    const bounce = boot === "off" ? undefined : bounceOf(analysis, at, driver);
    return bounce === undefined ? [] : [{ ...bounce, part, boot, pin: pinOf(analysis, driver, part) }];
  });
  const wrong = bounces.find(({ boot }) => boot !== undefined);
  const unknown = bounces.filter(({ boot }) => boot === undefined);
  const [first] = unknown;
  const factsOf = (bounce: (typeof bounces)[number]): Facts => ({
    part: { place: partPlace(at.part) },
    output: { place: terminalPlace(bounce.part, bounce.pin) },
    volts: { value: bounce.volts, dimension: "voltage" },
    states: { states: [bounce.state.name] },
  });
  if (wrong !== undefined) {
    report.fails({
      message: wrong.boot === "on" ? "on" : "undefined",
      severity: "WARNING",
      facts: factsOf(wrong),
      where: [place, terminalPlace(wrong.part, wrong.pin)],
      states: [wrong.state.name],
      value: wrong.volts,
      ...(at.coil.pickUp === undefined ? {} : { limit: at.coil.pickUp }),
      unit: "V",
    });
  } else if (first !== undefined) {
    const missing = unknown.map(({ part }): MissingField => ({ part: part.part.id, parameter: BOOT }));
    report.notChecked({ where: [place], reason: "boot", facts: factsOf(first), missing });
  } else report.passes(place);
}

export const outputUndefined = defineCheck({
  id: "output-undefined",
  group: "coils",
  title: "Contactor that an output may close while it starts up",
  about:
    "Looks at contactors of the traction circuit that hang on outputs of controllers and control units: it turns each output that is not stated to be off while its program starts on by itself, with the key off and just turned on, and looks whether the contactor gets the voltage that it pulls in on. " +
    "A timer, a relay or a second contact that is still open in the coil's chain holds it, and then the check passes.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    undefined: {
      title:
        "While {output} starts up nobody knows what it does; if it is on for a moment in {states}, {part} gets {volts} and closes.",
      why: "The contactor then closes for an instant onto capacitors that nothing has charged, and welds; so it stays closed when it should open.",
      mend: "Put something into the coil's chain that stays open meanwhile: a delay relay of a few seconds or a contact of the pre-charge relay; or use an output that is stated to be off while it starts up.",
    },
    on: {
      title: "While {output} starts up it is on; in {states} {part} then gets {volts} and closes.",
      why: "The contactor closes at each start for an instant onto capacitors that nothing has charged, and welds; so it stays closed when it should open.",
      mend: "Put something into the coil's chain that stays open meanwhile: a delay relay of a few seconds or a contact of the pre-charge relay; or use an output that is stated to be off while it starts up.",
    },
  },
  reasons: {
    boot: "{part} hangs on {output}; what that does while it starts up is not stated.",
  },
  run(analysis, report) {
    const among = outputs(analysis);
    for (const at of mainCoils(analysis)) look(analysis, report, at, among);
  },
});
