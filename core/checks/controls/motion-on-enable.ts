/** A drive that moves the vehicle as soon as it is enabled, because direction or throttle were set already. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import type { Condition } from "../../parts/condition.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { unstatedActuators } from "../words/chain-contacts.ts";
import type { Positions } from "../words/drive-enable.ts";
import {
  isAwake,
  isController,
  isEnabled,
  isPowered,
  movedBy,
  running,
  unstatedEnable,
  withMoved,
} from "../words/drive-enable.ts";
import { partPlace } from "../words/places.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const motionOnEnable = defineCheck({
  id: "motion-on-enable",
  group: "controls",
  title: "Moves as soon as it is enabled",
  about:
    "Takes the enable away by key, seat contact or toggle switch and gives it back, with the throttle down at a controller and with a direction selected at a motor on contactors: nothing may move before throttle or lever have been back at idle. A controller that states its high-pedal lockout is trusted in this for every one of its enables. A contact of the pedal in the enable chain counts as well: the pedal springs back.",
  severities: ["DANGER"],
  source: {
    text: "Common practice: return to idle before motion (high-pedal lockout, static return to off)",
    known: "none",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    throttle: {
      title: "{part} drives off at once when its enable comes ({enablers}) with the pedal down: no lockout holds it.",
      why: "Whoever turns the key or takes the seat with a foot on the pedal, or with a pedal that sticks, is driven off without warning.",
      mend: "Switch the high-pedal lockout of {part} on, or fit a relay that enables it only after the pedal was at idle.",
    },
    direction: {
      title: "{part} moves as soon as its enable comes ({enablers}) while {levers} stands at a direction.",
      why: "Sitting down or turning the key then starts the vehicle by itself, before anybody expects it; people have been crushed that way.",
      mend: "Let the coils pull in only by way of a pedal contact, or add a relay that holds itself and closes only with {levers} at neutral.",
    },
  },
  reasons: {
    lockout: "Whether {part} waits for the pedal to be let go after its enable has come ({enablers}) is not stated.",
    actuator:
      "Whether {part} moves as soon as its enable comes ({enablers}) depends on what moves a contact, which is not stated.",
    never: "Whether {part} moves as soon as it is enabled cannot be told, as it is enabled in no state.",
  },
  foldsUnder: ["enable-bypasses-key"],
  run(analysis, report) {
    const { enabled, never } = running(analysis);
    if (enabled.length + never.length === 0) report.doesNotApply();
    for (const drive of never)
      report.notChecked({
        where: [drive.place],
        reason: "never",
        facts: { part: { place: partPlace(drive.part) } },
        missing: unstatedEnable(analysis),
      });
    for (const drive of enabled) {
      if (isController(drive)) lookAtController(analysis, drive, report);
      else lookAtMotor(analysis, drive, report);
    }
  },
});

/** What gives the enable and takes it, each as it stands when it takes it. */
const ENABLERS: readonly Partial<Condition>[] = [{ key: "off" }, { seat: "empty" }, { toggle: "off" }];

/** Controls that take the enable away in a state, one list for each sort. */
function enablersIn(analysis: Analysis, state: SolvedState, drive: TractionPair): readonly Positions[] {
  return ENABLERS.map((change) => movedBy(analysis, state.condition, change)).filter(
    (set) => Object.keys(set).length > 0 && !isEnabled(analysis, withMoved(analysis, state, set), drive),
  );
}

/** The state after the controls were taken away and put back to where they stood. */
function againAfter(analysis: Analysis, state: SolvedState, set: Positions): SolvedState {
  const back = Object.fromEntries(
    analysis.network.parts.flatMap(({ part, kind, values }): [string, string][] =>
      part.id in set && kind.control !== undefined ? [[part.id, kind.control.at(state.condition, values)]] : [],
    ),
  );
  return withMoved(analysis, withMoved(analysis, state, set), back);
}

const placesOf = (sets: readonly Positions[]): readonly Place[] =>
  [...new Set(sets.flatMap((set) => Object.keys(set)))].map((part) => ({ part }));

function lookAtController(analysis: Analysis, drive: TractionPair, report: Report): void {
  const { part, place } = drive;
  const { driving } = running(analysis);
  const lockout = part.values.choice("highPedalLockout");
  const enablers = driving === undefined ? [] : enablersIn(analysis, driving, drive);
  if (driving === undefined || enablers.length === 0) {
    report.doesNotApply(place);
    return;
  }
  if (lockout === "yes" || !isEnabled(analysis, withPedalContactsFree(analysis, driving), drive)) {
    report.passes(place);
    return;
  }
  const moving = enablers.filter((set) => {
    const again = againAfter(analysis, driving, set);
    const own = again.partStates[part.index] ?? {};
    // Its contactor follows by itself: whether it is in at once is a matter of the order in which things settle.
    return isAwake(analysis, again, drive) && own["drive"] !== "off";
  });
  const facts = { part: { place: partPlace(part) }, enablers: { places: placesOf(moving) } };
  if (moving.length === 0) report.passes(place);
  else if (lockout === undefined)
    report.notChecked({
      where: [place],
      reason: "lockout",
      facts,
      missing: [{ part: part.part.id, parameter: "highPedalLockout" }],
    });
  else
    report.fails({
      message: "throttle",
      facts,
      severity: "DANGER",
      where: [place, ...placesOf(moving)],
      states: [driving.name],
      remedies: [lockoutOn(part)],
    });
}

function lockoutOn({ part }: NetworkPart): Remedy {
  const changes = [{ part: part.id, name: "highPedalLockout", value: "yes" }];
  return {
    id: "lockout-on",
    label: `Switch the high-pedal lockout of ${part.designation} on`,
    apply: (project) => execute(project, setParameter, { changes }, KINDS).project,
  };
}

/** The throttle's signal still at full, the contacts on the pedal as with nobody on it. */
function withPedalContactsFree(analysis: Analysis, driving: SolvedState): SolvedState {
  const set = movedBy(analysis, driving.condition, { throttle: "idle" }, ({ kind }) => kind.traits.throttle !== true);
  return withMoved(analysis, driving, set);
}

function lookAtMotor(analysis: Analysis, drive: TractionPair, report: Report): void {
  const { part, place } = drive;
  const ready = analysis.state("ready");
  if (ready === undefined || !isPowered(analysis, ready, drive)) {
    // Without the pedal it does not move: letting go of it is the way back to idle.
    report.passes(place);
    return;
  }
  const levers = placesOf([movedBy(analysis, ready.condition, { selector: "b" })]);
  const moving = enablersIn(analysis, ready, drive).filter((set) =>
    isPowered(analysis, againAfter(analysis, ready, set), drive),
  );
  if (levers.length === 0) {
    report.doesNotApply(place);
    return;
  }
  const facts = {
    part: { place: partPlace(part) },
    enablers: { places: placesOf(moving) },
    levers: { places: levers },
  };
  if (moving.length === 0) report.passes(place);
  else if (unstatedActuators(analysis).length > 0)
    report.notChecked({ where: [place], reason: "actuator", facts, missing: unstatedActuators(analysis) });
  else
    report.fails({
      message: "direction",
      facts,
      severity: "DANGER",
      where: [place, ...placesOf(moving), ...levers],
      states: [ready.name],
    });
}
