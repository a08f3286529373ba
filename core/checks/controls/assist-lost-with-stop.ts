/** Brake or steering assistance that goes with the drive when it is stopped. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Ratio, Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { isEnabled, movedBy, running, withMoved } from "../words/drive-enable.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";

/** On less than this part of the voltage that it had while driving a motor or a booster does no work (common practice, no source). */
const LOST_BELOW: Ratio = 0.5;
/** What is not fed while driving cannot be lost. */
const LEAST: Volt = 1;

export const assistLostWithStop = defineCheck({
  id: "assist-lost-with-stop",
  group: "controls",
  title: "Brake or steering assistance goes with the stop",
  about:
    "Presses the emergency stop while driving, or turns the key off where no emergency stop takes the drive away, and looks whether a load or pump that assists braking or steering is still fed. A vacuum tank or a steering that works without help is not seen.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    lost: {
      title: "{assist} loses its supply of {before} together with the drive when {breaks} is used.",
      why: "Whoever stops a vehicle that runs away needs brake and steering in that moment more than ever.",
      mend: "Feed {assist} from a part of the 12 V side that stays on when {breaks} is used.",
    },
  },
  reasons: {
    purpose: "{assist} loses its supply when {breaks} is used, and whether braking or steering needs it is not stated.",
  },
  run(analysis, report) {
    const stop = stopOf(analysis);
    const assists = supplyPairs(analysis.network).filter(({ part, pair }) => isAssist(part) && !pair.main);
    if (stop === undefined || assists.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const at of assists) {
      const place = terminalPlace(at.part, at.pair.plus);
      const purpose = at.part.values.choice("purpose");
      const [before, after] = [voltsAt(stop.driving, at), voltsAt(stop.stopped, at)];
      if (purpose === "other" || before < LEAST) report.doesNotApply(place);
      else if (after >= LOST_BELOW * before) report.passes(place);
      else {
        const facts = {
          assist: { place: partPlace(at.part) },
          breaks: { places: stop.breaks },
          before: { value: before, dimension: "voltage" },
        } as const;
        if (purpose === undefined)
          report.notChecked({
            where: [place],
            reason: "purpose",
            facts,
            missing: [{ part: at.part.part.id, parameter: "purpose" }],
          });
        else
          report.fails({
            message: "lost",
            facts,
            severity: "NOTICE",
            where: [place, ...stop.breaks],
            states: [stop.stopped.name],
            value: after,
            limit: before,
            unit: "V",
          });
      }
    }
  },
});

/** A consumer that can state what it is for. */
const isAssist = ({ kind }: NetworkPart): boolean =>
  kind.traits.load === true && Object.hasOwn(kind.parameters, "purpose");

const voltsAt = (state: SolvedState, { plus, minus }: PairAt): Volt => {
  const volts = Math.abs(state.between(plus, minus));
  return Number.isNaN(volts) ? 0 : volts;
};

interface Stopped {
  readonly driving: SolvedState;
  readonly stopped: SolvedState;
  readonly breaks: readonly Place[];
}

/** The break that stops the drive: the emergency stop if one does, else the key. */
function stopOf(analysis: Analysis): Stopped | undefined {
  const { driving, enabled } = running(analysis);
  if (driving === undefined) return undefined;
  for (const change of [{ emergencyStop: "pressed" }, { key: "off" }] as const) {
    const set = movedBy(analysis, driving.condition, change);
    const breaks = Object.keys(set).map((part) => ({ part }));
    if (breaks.length === 0) continue;
    const stopped = withMoved(analysis, driving, set);
    if (enabled.some((drive) => !isEnabled(analysis, stopped, drive))) return { driving, stopped, breaks };
  }
  return undefined;
}
