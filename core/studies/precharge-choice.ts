/**
 * Pre-charge: the resistor that brings the bus to the wanted share of the pack in the wanted time, what it goes
 * through, and what becomes of it if the bus is shorted. Numbers only.
 */
import type { Ampere, Farad, Joule, Ohm, Ratio, Second, Volt, Watt } from "../quantity/kinds.ts";
import {
  capacitorEnergy,
  inrushCurrent,
  inrushPower,
  largestPrechargeResistor,
  PRECHARGE_ENERGY_SOURCE,
  PRECHARGE_SOURCE,
  PRECHARGE_TARGET,
  PRECHARGE_TARGET_SOURCE,
  PRECHARGE_TIMEOUT_SOURCE,
  PRECHARGE_TIMEOUT_TAUS,
  prechargeTime,
  settledVoltage,
  timeConstant,
} from "../standards/precharge.ts";
import { E12_SOURCE, standardResistorBelow } from "../standards/resistor-series.ts";
import { inputOf } from "./study.ts";
import type { Step, Study } from "./study.ts";

export interface PrechargeQuestion {
  /** All capacitance on the bus. Undefined: unknown. */
  readonly capacitance: Farad | undefined;
  /** The pack at its highest. */
  readonly volts: Volt;
  /** Wanted time; unstated: 1 s. */
  readonly time?: Second | undefined;
  /** Wanted share of the pack at closing; unstated: 95 %. */
  readonly share?: Ratio | undefined;
  /** A resistor that is there already: judged instead of chosen. */
  readonly resistor?: Ohm | undefined;
  /** What loads on the bus draw meanwhile, constant. */
  readonly load?: Ampere | undefined;
  /** A bleeder across the bus. */
  readonly bleeder?: Ohm | undefined;
}

export interface PrechargeAnswer {
  /** The standard value (E12) at or below the largest that is fast enough, or the one that was given. */
  readonly resistor: Ohm;
  /** The largest that is fast enough; undefined without a capacitance, or where a load keeps the bus below the share. */
  readonly largest: Ohm | undefined;
  readonly timeConstant: Second;
  /** Where the bus ends, load and bleeder counted. */
  readonly settles: Volt;
  /** When it reaches the share; Infinity: never. */
  readonly reaches: Second;
  /** The bus after the wanted time: what the main contactor closes onto. */
  readonly atClosing: Volt;
  readonly peakCurrent: Ampere;
  readonly peakPower: Watt;
  /** Heat in the resistor at each full charge, whatever its value. */
  readonly pulseEnergy: Joule;
  /** With the bus shorted it turns this into heat for good, unless something ends it... */
  readonly shortedPower: Watt;
  /** ... and this is when to give up. */
  readonly timeout: Second;
}

/** One second: within the half to two seconds of published designs. */
const USUAL_TIME: Second = 1;

/**
 * R = t/(-ln(1 - q) C), rounded down to a value that is sold. A load or a bleeder lowers where the bus settles and the
 * resistor is chosen so that it still reaches the share; where no resistor can, `largest` is undefined.
 * @returns answer undefined where the capacitance is unknown and no resistor was given
 */
export function choosePrecharge(question: PrechargeQuestion): Study<PrechargeQuestion, PrechargeAnswer | undefined> {
  const { capacitance, volts, time = USUAL_TIME, share = PRECHARGE_TARGET } = question;
  const inputs = [
    inputOf("Capacitance of the bus", capacitance, "capacitance"),
    inputOf("Pack, highest", volts, "voltage", undefined, "solved"),
    inputOf("Wanted time", question.time, "time", USUAL_TIME),
    inputOf("Wanted share of the pack", question.share, "ratio", PRECHARGE_TARGET),
    inputOf("Resistor", question.resistor, "resistance"),
    inputOf("Load on the bus meanwhile", question.load, "current", 0),
    inputOf("Bleeder across the bus", question.bleeder, "resistance"),
  ];
  if (capacitance === undefined || capacitance <= 0) {
    return { inputs, steps: [], answer: undefined, open: [{ what: "resistor", lacks: ["capacitance"] }] };
  }
  const largest = largestResistor(question, capacitance, time, share);
  const resistor = question.resistor ?? (largest === undefined ? undefined : standardResistorBelow(largest));
  const steps: Step[] = [
    { name: "Share of the pack at closing", value: share, dimension: "ratio", source: PRECHARGE_TARGET_SOURCE },
    ...(largest === undefined
      ? []
      : [
          {
            name: "Largest resistor that is fast enough",
            value: largest,
            dimension: "resistance" as const,
            source: PRECHARGE_SOURCE,
          },
        ]),
  ];
  if (resistor === undefined) return { inputs, steps, answer: undefined, open: [] };
  const bus = busThrough(question, capacitance, resistor);
  if (question.resistor === undefined) {
    steps.push({ name: "Resistor, standard value", value: resistor, dimension: "resistance", source: E12_SOURCE });
  }
  const answer: PrechargeAnswer = {
    resistor,
    largest,
    timeConstant: timeConstant(resistor, capacitance),
    settles: bus.settles,
    reaches: bus.reaches(share * volts),
    atClosing: bus.at(time),
    peakCurrent: inrushCurrent(volts, resistor),
    peakPower: inrushPower(volts, resistor),
    pulseEnergy: capacitorEnergy(capacitance, volts),
    shortedPower: inrushPower(volts, resistor),
    timeout: PRECHARGE_TIMEOUT_TAUS * timeConstant(resistor, capacitance),
  };
  steps.push(
    { name: "Time constant", value: answer.timeConstant, dimension: "time", source: PRECHARGE_SOURCE },
    { name: "Current at the first moment", value: answer.peakCurrent, dimension: "current", source: PRECHARGE_SOURCE },
    {
      name: "Heat at each full charge",
      value: answer.pulseEnergy,
      dimension: "energy",
      source: PRECHARGE_ENERGY_SOURCE,
    },
    { name: "Time to give up", value: answer.timeout, dimension: "time", source: PRECHARGE_TIMEOUT_SOURCE },
  );
  return { inputs, steps, answer, open: [] };
}

/** The bus behind a resistor, with a load of constant current and a bleeder: one exponential. */
function busThrough({ volts, load = 0, bleeder = Infinity }: PrechargeQuestion, capacitance: Farad, resistor: Ohm) {
  const divided = bleeder === Infinity ? 1 : bleeder / (bleeder + resistor);
  const settles = Math.max(0, divided * settledVoltage(volts, resistor, load));
  const tau = timeConstant(resistor * divided, capacitance);
  return {
    settles,
    at: (time: Second): Volt => settles * (1 - Math.exp(-time / tau)),
    reaches: (target: Volt): Second =>
      settles <= target ? Infinity : prechargeTime(resistor * divided, capacitance, target / settles),
  };
}

/** Without a load the formula; with one, halving between nothing and that. */
function largestResistor(question: PrechargeQuestion, capacitance: Farad, time: Second, share: Ratio): Ohm | undefined {
  const target = share * question.volts;
  const most = largestPrechargeResistor(capacitance, share, time);
  const isFast = (resistor: Ohm): boolean =>
    busThrough(question, capacitance, resistor).reaches(target) <= time * (1 + 1e-12);
  if (isFast(most)) return most;
  let [low, high] = [most * 1e-6, most];
  if (!isFast(low)) return undefined;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (isFast(middle)) low = middle;
    else high = middle;
  }
  return low;
}
