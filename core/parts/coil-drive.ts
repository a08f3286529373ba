/**
 * Coils of contactors and relays: their parameters, elements, suppression, and the hysteresis by which they pull in
 * and drop out. A coil pulls in at pickUp x coilVoltage, drops below dropOut x coilVoltage, and stays where it was in
 * between, so that latches and back-feeds show.
 */
import type { Henry, Ohm, Second, Volt, Watt } from "../quantity/kinds.ts";
import { plainNumber } from "../quantity/print.ts";
import type {
  CoilSpec,
  InTime,
  ParameterSpec,
  PartContext,
  PartState,
  Sensed,
  SupplyPair,
  Told,
  Values,
} from "./define.ts";
import type { Element } from "./element.ts";
import { diode, JUNCTION_DROP } from "./make-element.ts";
import { choice, NO_YES, quantity } from "./parameter.ts";

/**
 * A coil whose voltage nobody stated still has to pull in or not. It is taken for the lowest coil voltage in use on
 * vehicles (12 V; common practice, no source): then it pulls in at any higher one too and lets go last, so that what
 * its contact makes live is seen. What depends on the right voltage is reported as not checked.
 */
const ASSUMED_COIL_VOLTAGE: Volt = 12;

/** Held by an economiser, a coil draws at least this part of its pull-in power (hold power is cut by 70-85 %). */
const HOLD_PART = 0.3;

/**
 * Time constant of a coil of unstated inductance. Measured on an automotive relay with a diode: the current lingers for
 * 25-30 ms, some three time constants (published measurement; seen). What depends on it is reported as not checked.
 */
export const ASSUMED_COIL_TIME: Second = 10e-3;

/** An economiser gives full current for about this long (published designs: 100 and 200 ms; seen). */
const FULL_CURRENT_FOR: Second = 0.1;

/** Small resistance of a clamp that conducts. */
const CLAMP_RESISTANCE: Ohm = 0.1;

const coilVoltage = quantity("voltage", {
  title: "Coil voltage",
  explanation: "The voltage that the coil is made for; on less the contacts may not close, on more the coil burns.",
  where: "Printed on the coil or the housing, beside the coil terminals.",
  least: 0,
});
const coilMin = quantity("voltage", {
  title: "Coil voltage, least",
  explanation: "The lowest steady voltage at which the coil is certain to work.",
  where: "Data sheet, coil data.",
  least: 0,
});
const coilMax = quantity("voltage", {
  title: "Coil voltage, most",
  explanation: "The highest steady voltage that the coil stands without overheating.",
  where: "Data sheet, coil data.",
  least: 0,
});
const coilResistance = quantity("resistance", {
  title: "Coil resistance",
  explanation: "Decides the current that the coil draws from its switch or driver.",
  where: "Measure between the coil terminals with a multimeter, or see the data sheet.",
  least: 0.1,
});
const ratio = (title: string, explanation: string, standing: string): ParameterSpec =>
  quantity("ratio", {
    title,
    explanation,
    where: "Data sheet, coil data.",
    default: standing,
    rating: true,
    least: 0.01,
    most: 1,
  });

const pickUp = ratio(
  "Pick-up",
  "The part of the coil voltage at which the contacts are certain to close from rest.",
  "70 %",
);
const dropOut = (standing: string): ParameterSpec =>
  ratio("Drop-out", "The part of the coil voltage below which the contacts let go.", standing);

const suppression = choice(["none", "diode", "zener", "bidirectional"], {
  title: "Built-in suppression",
  explanation:
    "What inside the part takes up the coil's kick when it is switched off; without any, the switch takes it.",
  where: "Data sheet or a small diagram on the housing; a plus sign at one coil terminal tells of a diode.",
});

const coilInductance = quantity("inductance", {
  title: "Coil inductance",
  explanation: "Decides how long the coil's current lingers when it is switched off.",
  where: "Data sheet; seldom given.",
  least: 0,
});

/** Parameters of a relay's coil. */
export const relayCoilParameters: Readonly<Record<string, ParameterSpec>> = {
  coilVoltage,
  coilMin,
  coilMax,
  coilResistance,
  coilInductance,
  pickUp,
  dropOut: dropOut("10 %"),
};

/** Parameters of a contactor's coil. */
export const contactorCoilParameters: Readonly<Record<string, ParameterSpec>> = {
  coilVoltage,
  coilMin,
  coilMax,
  coilPower: quantity("power", {
    title: "Coil power",
    explanation: "Power that the coil draws to pull in; with the coil voltage it gives the current.",
    where: "Data sheet, or work it out: volts times amperes at the coil.",
    least: 0,
  }),
  coilResistance,
  coilInductance,
  pickUp,
  dropOut: dropOut("20 %"),
};

export const suppressionParameter = suppression;

export const economiserParameter = choice(NO_YES, {
  title: "Economiser",
  explanation: "Electronics that lower the coil current once the contact has closed; they need plus on coil+.",
  where: "Data sheet; the coil draws much at first and little afterwards.",
});

/** Pull-in resistance from coilResistance, or coilVoltage squared by coilPower; undefined where neither is stated. */
function coilOhms(values: Values): Ohm | undefined {
  const stated = values.number("coilResistance");
  if (stated !== undefined) return stated;
  const volts = values.number("coilVoltage");
  const power = values.number("coilPower");
  return volts !== undefined && power !== undefined && power > 0 ? (volts * volts) / power : undefined;
}

/**
 * Coil and built-in suppression, elements "coil" and (only where built in) "suppression". `power` is what a coil
 * without stated resistance is taken to draw at its voltage.
 */
export function coilElements(values: Values, state: PartState, power: Watt): readonly Element[] {
  const nominal = values.number("coilVoltage") ?? ASSUMED_COIL_VOLTAGE;
  const ohms = coilOhms(values) ?? (nominal * nominal) / power;
  const held = state["saving"] === true;
  const elements: Element[] = [
    {
      type: "coil",
      name: "coil",
      a: "coil+",
      b: "coil-",
      role: "coil",
      resistance: held ? ohms / HOLD_PART : ohms,
      inductance: values.number("coilInductance"),
    },
  ];
  switch (values.choice("suppression")) {
    case "diode":
      elements.push(diode("suppression", "coil-", "coil+"));
      break;
    case "zener":
      // Diode and zener of about the supply voltage in series: conducts only backwards, and only above both.
      elements.push(diode("suppression", "coil-", "coil+", nominal + JUNCTION_DROP));
      break;
    case "bidirectional":
      // Varistor or double zener at about twice the coil voltage (common practice, no source).
      elements.push({
        type: "clamp",
        name: "suppression",
        a: "coil+",
        b: "coil-",
        role: "diode",
        clamp: 2 * nominal,
        resistance: CLAMP_RESISTANCE,
        oneWay: false,
      });
      break;
    default:
      // None, or nobody said: then the coil's kick goes wherever the wiring lets it.
      break;
  }
  return elements;
}

/** Does a coil (or supply) that stood as `was` pull in at this voltage? The hysteresis of every relay. */
export function pulledIn(was: boolean, volts: Volt, pickUpVolts: Volt, dropOutVolts: Volt): boolean {
  if (volts >= pickUpVolts) return true;
  return volts < dropOutVolts ? false : was;
}

interface Thresholds {
  readonly pickUp: Volt;
  readonly dropOut: Volt;
  readonly oneWay: boolean;
}

/** Every relay of a drawing is asked in hundreds of states: its figures are looked up once. */
const thresholds = new WeakMap<Values, Thresholds>();

function thresholdsOf(values: Values): Thresholds {
  let known = thresholds.get(values);
  if (known === undefined) {
    const nominal = values.number("coilVoltage") ?? ASSUMED_COIL_VOLTAGE;
    known = {
      pickUp: (values.number("pickUp") ?? 0.7) * nominal,
      dropOut: (values.number("dropOut") ?? 0.2) * nominal,
      oneWay: values.choice("economiser") === "yes",
    };
    thresholds.set(values, known);
  }
  return known;
}

/**
 * Next state of a coil kind: `{ coil }`, and `saving` behind an economiser, whose electronics do not let a reversed coil
 * pull in. In time it is the current that pulls, so that a diode across the coil delays the release.
 */
export function settleCoil({ values, state }: PartContext, sensed: Sensed): PartState {
  const { pickUp, dropOut, oneWay } = thresholdsOf(values);
  const across = sensed.coilVolts?.("coil") ?? sensed.between("coil+", "coil-");
  const coil = pulledIn(state["coil"] === true, oneWay ? across : Math.abs(across), pickUp, dropOut);
  return oneWay ? { coil, saving: coil && state["coil"] === true } : { coil };
}

/** Henry; where nobody stated it, by the usual time constant. `ohms`: of the coil at full current. */
export function coilInductanceOf(values: Values, ohms: Ohm): Henry {
  return values.number("coilInductance") ?? ASSUMED_COIL_TIME * ohms;
}

/**
 * From the current's reaching pick-up until the contacts touch: the stated closing time counts from switching on, so
 * the time in which the current rises at nominal voltage is taken off.
 */
function travel(values: Values): Second {
  const ohms = coilOhms(values);
  const constant = ohms === undefined ? ASSUMED_COIL_TIME : coilInductanceOf(values, ohms) / ohms;
  const rise = -constant * Math.log(1 - Math.min(values.number("pickUp") ?? 0.7, 0.99));
  return Math.max((values.number("closeTime") ?? 0) - rise, 0);
}

/** Contacts of a coil in time: they touch and part after their travel; an economiser saves after its full current. */
export const coilInTime: InTime = {
  delays: ({ values }, to) => ({
    coil: to["coil"] === true ? travel(values) : (values.number("openTime") ?? 0),
    saving: to["saving"] === true ? FULL_CURRENT_FOR : 0,
  }),
  wished: ({ values, state }, to, sensed): Told | undefined => {
    if (to["coil"] === state["coil"]) return undefined;
    const { pickUp, dropOut } = thresholdsOf(values);
    const pullsIn = to["coil"] === true;
    const value = Math.round(1000 * sensed.between("coil+", "coil-")) / 1000;
    const limit = pullsIn ? pickUp : dropOut;
    const figures = `coil ${plainNumber(value, 3)} V ${pullsIn ? "above" : "below"} ${plainNumber(limit, 3)} V`;
    return { what: pullsIn ? "pulls-in" : "drops-out", element: "coil", value, limit, unit: "V", reason: figures };
  },
};

export const coilAtRest = (): PartState => ({ coil: false });

/** The coil as the coil checks read it: nothing assumed, undefined where unstated. */
export function coilSpec(values: Values): CoilSpec {
  const nominal = values.number("coilVoltage");
  const part = (name: string): Volt | undefined => {
    const share = values.number(name);
    return nominal === undefined || share === undefined ? undefined : share * nominal;
  };
  return {
    element: "coil",
    plus: "coil+",
    minus: "coil-",
    nominal,
    least: values.number("coilMin"),
    most: values.number("coilMax"),
    pickUp: part("pickUp"),
    dropOut: part("dropOut"),
    resistance: coilOhms(values),
    suppression: values.choice("suppression"),
  };
}

/** A coil with a diode, a zener or an economiser inside must not be reversed; a plain one may lie either way. */
export function coilSupplyPairs(values: Values): readonly SupplyPair[] {
  const inside = values.choice("suppression");
  return inside === "diode" || inside === "zener" || values.choice("economiser") === "yes"
    ? [{ plus: "coil+", minus: "coil-", polarised: true, direction: "input", main: false }]
    : [];
}

export const COIL_NOTES: readonly string[] = [
  "A coil of unstated voltage is taken for a 12 V coil when solving, so that it pulls in wherever it could.",
  "Built-in zener: taken at the coil voltage, in series with a diode; bidirectional: at twice the coil voltage.",
  "In a transition a coil of unstated inductance has a time constant of 10 ms (measured: its current lingers 25-30 ms over a diode; seen).",
  "An economiser gives full current for 100 ms (published designs: 100 and 200 ms; seen).",
  "An economiser is taken to hold at 30 % of the pull-in power (published: cut by 70-85 %; seen).",
];
