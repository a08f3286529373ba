/**
 * What a controller's electronics do: come alive on the logic supply, read the throttle and the enable pins, close the
 * contactor's driver once the bus is charged, drive. Shared by direct-current and three-phase controllers.
 *
 * State: `logic` live or dead; `start` dead, reading (alive, inputs not yet read), locked (high-pedal lockout), running,
 * or lost (its contactor was cut by something else: it waits for the key, as controllers do, and does not hunt);
 * `proof` counts the looks since the contactor's driver closed, for which the pre-charge path stays in; `throttle` idle, pressed or fault; `contactor`, `precharge`: drivers on; `drive` off, forward, reverse or
 * regeneration; `remark` where something has to be said about it.
 */
import type { Ampere, Ratio, Second, Volt } from "../quantity/kinds.ts";
import { PRECHARGE_LEAST } from "../standards/precharge.ts";
import { readPedal, throttleWired, type Pedal } from "./controller-throttle.ts";
import { referenceOf } from "./controller-terminals.ts";
import type { InTime, PartContext, PartState, Sensed, Values } from "./define.ts";
import { FED_ABOVE, isFed, LOGIC_LEAST } from "./input-pin.ts";

/** A closed driver lets go when the bus falls below this part of its threshold, as when its contactor was cut (common practice, no source). */
const BUS_LOST: Ratio = 0.5;
/** Looks for which the pre-charge path stays in after the driver closed: time for relays between driver and contactor. */
const PROOF_LOOKS = 3;
/** In time one such look takes this long (common practice, no source). */
const LOOK: Second = 0.1;
/** The output stage starts and stops this long after logic, interlock and pedal say so (common practice, no source). */
const STAGE: Second = 1e-3;
/** One round of its program: until then its outputs stay as they are (common practice, no source). */
const ROUND: Second = 0.01;
/** From the logic's getting its supply until its program runs (common practice, no source). */
const START_UP: Second = 0.05;
/** Between these a biased input hangs open (see `inhibitBias`). */
const HANGING_ABOVE: Volt = 1;

const DEAD: PartState = {
  logic: "dead",
  start: "dead",
  proof: 0,
  throttle: "idle",
  contactor: false,
  precharge: false,
  drive: "off",
};

export const controllerAtRest = (): PartState => DEAD;

export const isLive = (state: PartState): boolean => state["logic"] === "live";

/** Motor current that flows while driving: the lesser of the motor's and the controller's; undefined if neither is stated. */
export function drivingCurrent(context: PartContext): Ampere | undefined {
  const known = [context.motorCurrent, context.values.number("currentContinuous")].filter(
    (current) => current !== undefined,
  );
  return known.length === 0 ? undefined : Math.min(...known);
}

/**
 * The pack's voltage as the controller knows it, against which the bus is judged: what pack-sense sees ahead of the
 * contactor; else, fed from the pack, its logic supply (unless that is below the pack's least, so from 12 V); else the
 * stated least nominal or working voltage; else nothing more than that something is there.
 */
function packAsKnown(values: Values, sensed: Sensed, reference: string): Volt {
  const least = values.number("nominalMin") ?? values.number("voltageMin");
  if (sensed.wired("pack-sense") && values.choice("packSense") !== "load-side") {
    return Math.max(sensed.between("pack-sense", "B-"), FED_ABOVE);
  }
  if (reference === "B-" && values.choice("logicFeed") !== "shared-12v") {
    const logic = sensed.between("logic+", "B-");
    if (logic >= (values.number("voltageMin") ?? least ?? 0)) return logic;
  }
  return least ?? FED_ABOVE;
}

/** Unwired = not used. */
const fedIfWired = (sensed: Sensed, pin: string, reference: string): boolean =>
  !sensed.wired(pin) || isFed(sensed.between(pin, reference));

function isInhibited(sensed: Sensed, reference: string): boolean {
  if (!sensed.wired("charge-inhibit")) return false;
  const volts = sensed.between("charge-inhibit", reference);
  return volts > HANGING_ABOVE && !isFed(volts);
}

/** Direction by the pins; both or none of those wired fed is no direction; none wired is whatever is asked for. */
function direction(sensed: Sensed, reference: string, asked: "forward" | "reverse"): "forward" | "reverse" | undefined {
  const forward = sensed.wired("forward");
  const reverse = sensed.wired("reverse");
  if (!forward && !reverse) return asked;
  const isForward = forward
    ? isFed(sensed.between("forward", reference))
    : !isFed(sensed.between("reverse", reference));
  const isReverse = reverse && isFed(sensed.between("reverse", reference));
  if (isForward === isReverse) return undefined;
  return isForward ? "forward" : "reverse";
}

/** An unwired throttle is taken as one that the drawing does not show: it does what the state asks. */
function pedalOf(context: PartContext, sensed: Sensed, reference: string): Pedal {
  if (throttleWired(sensed.wired)) return readPedal(context, sensed, reference);
  return context.condition.throttle === "full" ? "forward" : "idle";
}

function driveOf(context: PartContext, sensed: Sensed, reference: string, pedal: Pedal): string {
  const { values, condition } = context;
  const { drive } = condition;
  if (drive === "none" || !fedIfWired(sensed, "interlock", reference) || isInhibited(sensed, reference)) return "off";
  const way = direction(sensed, reference, drive === "reverse" ? "reverse" : "forward");
  if (way === undefined) return "off";
  if (drive === "regeneration") return values.choice("regeneration") === "yes" ? "regeneration" : "off";
  if (pedal === "idle" || pedal === "fault") return "off";
  if (sensed.wired("brake") && isFed(sensed.between("brake", reference))) return "off";
  return values.choice("throttleMode") === "centre-zero" ? pedal : way;
}

function drivesContactor({ values, wired }: PartContext): boolean {
  const side = values.choice("contactorDriver");
  return (side === "high-side" || side === "low-side") && wired("contactor-out");
}

function startOf(context: PartContext, pedal: Pedal): string {
  const pressed = pedal === "forward" || pedal === "reverse";
  switch (context.state["start"]) {
    case "reading":
      return context.values.choice("highPedalLockout") === "yes" && pressed ? "locked" : "running";
    case "locked":
      return pressed ? "locked" : "running";
    default:
      return "running";
  }
}

const NO_CURRENT_KNOWN =
  "neither controller nor motor states a continuous current, so that none is counted while driving";

const DRIVER_UNKNOWN = "does not state its contactor driver, so that contactor-out does nothing";

/** What has to be said about a controller in a state, if anything. */
function remarkOf(context: PartContext, drive: string): string | undefined {
  if (drive !== "off" && drivingCurrent(context) === undefined) return NO_CURRENT_KNOWN;
  const unknown = context.values.choice("contactorDriver") === undefined && context.wired("contactor-out");
  return unknown ? DRIVER_UNKNOWN : undefined;
}

/** The next discrete state of a controller. */
export function settleController(context: PartContext, sensed: Sensed): PartState {
  const { values, state } = context;
  const reference = referenceOf(values, sensed.wired);
  const logicLeast = values.number("logicMin") ?? LOGIC_LEAST;
  if (sensed.between("logic+", reference) < logicLeast) return DEAD;
  // The 5 V for the throttle is there only from the next look on.
  if (!isLive(state)) return { ...DEAD, logic: "live", start: "reading" };

  const pedal = pedalOf(context, sensed, reference);
  const throttle = pedal === "fault" ? "fault" : pedal === "idle" ? "idle" : "pressed";
  const start = startOf(context, pedal);
  const sound = pedal !== "fault";

  const bus = sensed.between("B+", "B-");
  const pack = packAsKnown(values, sensed, reference);
  const threshold = values.number("prechargeThreshold") ?? PRECHARGE_LEAST;
  const proof = Number(state["proof"]);
  const proven = proof >= PROOF_LOOKS;
  // In time only: a pre-charge that does not get there within the stated time is given up until the logic is off.
  const waits = sensed.coilVolts !== undefined && values.number("prechargeTimeout") !== undefined;
  const givenUp = state["givenUp"] === true;
  if (state["start"] === "lost" || (proven && drivesContactor(context) && bus < BUS_LOST * threshold * pack)) {
    return { ...DEAD, logic: "live", start: "lost", throttle };
  }
  const contactor =
    sound &&
    !givenUp &&
    (bus >= threshold * pack || (state["contactor"] === true && bus >= BUS_LOST * threshold * pack));

  const drive = sound && start === "running" ? driveOf(context, sensed, reference, pedal) : "off";
  const remark = remarkOf(context, drive);
  return {
    logic: "live",
    start,
    throttle,
    proof: contactor ? Math.min(proof + 1, PROOF_LOOKS) : 0,
    contactor,
    precharge: sound && !givenUp && (!contactor || !proven),
    drive,
    ...(waits ? { givenUp: givenUp || !contactor } : {}),
    ...(remark === undefined ? {} : { remark }),
  };
}

/**
 * A controller in time: its output stage follows after a millisecond; the pre-charge path stays in while it proves that
 * the contactor has closed; a stated pre-charge time that runs out without a charged bus is the end of it.
 */
export const controllerInTime: InTime = {
  delays: ({ values, state }, to) => ({
    ...(isLive(to) ? { contactor: ROUND, precharge: ROUND } : {}),
    ...(isLive(to) && !isLive(state) ? { logic: START_UP, start: START_UP } : {}),
    drive: STAGE,
    proof: Number(to["proof"]) > Number(state["proof"]) ? LOOK : 0,
    givenUp: to["givenUp"] === true ? (values.number("prechargeTimeout") ?? 0) : 0,
  }),
  done: ({ state }, to) => {
    if (to["givenUp"] === true && state["givenUp"] !== true) {
      return { what: "elapses", reason: "the time for the pre-charge is over and the bus is not charged" };
    }
    if (to["drive"] === state["drive"]) return undefined;
    if (to["drive"] === "off") return { what: "stops", element: "output-stage", reason: "the drive stops" };
    return { what: "starts", element: "output-stage", reason: `the drive starts, ${String(to["drive"])}` };
  },
  starting: ({ values, state }, to) => {
    const boot = values.choice("outputBootState");
    if ((boot !== "on" && boot !== "undefined") || isLive(state) || !isLive(to)) return undefined;
    // The first round of its program ends it.
    return { lasts: START_UP - ROUND, state: { ...to, contactor: true, precharge: true } };
  },
};
