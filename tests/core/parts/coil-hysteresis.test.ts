/** Pull-in and drop-out of everything that a voltage moves, walked through by tables of volts and what must stand. */
import { describe, expect, it } from "vitest";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { Condition } from "../../../core/parts/condition.ts";
import type { PartState, Sensed } from "../../../core/parts/define.ts";
import { readValues } from "../../../core/parts/values.ts";
import { conditionIn } from "./operating-conditions.ts";

const READY = conditionIn("ready");

/** Settles a part once for each step: the volts of its terminals against its reference. */
function walk(
  name: string,
  parameters: Readonly<Record<string, string>>,
  steps: readonly Readonly<Record<string, number>>[],
  conditions: readonly Condition[] = [],
): readonly PartState[] {
  const kind = kindOf(name);
  if (kind?.settle === undefined || kind.initial === undefined) throw new Error(`${name} does not settle`);
  const values = readValues(kind, parameters);
  let state = kind.initial(values);
  return steps.map((volts, index) => {
    const sensed: Sensed = {
      between: (a, b) => (volts[a] ?? 0) - (volts[b] ?? 0),
      through: () => 0,
      wired: (terminal) => terminal in volts,
      volts: (terminal) => volts[terminal] ?? 0,
    };
    state =
      kind.settle?.(
        {
          values,
          condition: conditions[index] ?? READY,
          position: "",
          state,
          wired: sensed.wired,
          motorCurrent: undefined,
        },
        sensed,
      ) ?? state;
    return state;
  });
}

const coilWalk = (name: string, parameters: Readonly<Record<string, string>>, volts: readonly number[]): string =>
  walk(
    name,
    parameters,
    volts.map((each) => ({ "coil+": each, "coil-": 0 })),
  )
    .map(({ coil }) => (coil === true ? "1" : "0"))
    .join("");

describe("coils", () => {
  it.each([
    // 12 V contactor: pulls in at 8.4 V, lets go below 2.4 V.
    ["contactor", { coilVoltage: "12 V" }, [0, 5, 8.3, 8.5, 5, 2.5, 2.3, 5], "00011100"],
    ["changeover-contactor", { coilVoltage: "48 V" }, [33, 34, 10, 9], "0110"],
    // 12 V relay: pulls in at 8.4 V, lets go below 1.2 V.
    ["relay", { coilVoltage: "12 V" }, [8.3, 8.4, 2.3, 1.3, 1.1], "01110"],
    // A plain coil does not mind which way round it is.
    ["relay", { coilVoltage: "24 V" }, [-16, -17, -3, -2], "0110"],
    ["contactor", { coilVoltage: "12 V", pickUp: "50 %", dropOut: "40 %" }, [5.9, 6.1, 4.9, 4.7], "0110"],
    // Behind an economiser's electronics a reversed coil stays out.
    ["contactor", { coilVoltage: "12 V", economiser: "yes" }, [-12, 12, -12], "010"],
    // Nobody stated the voltage: it pulls in wherever a 12 V coil would, so that what it makes live is seen.
    ["contactor", {}, [1, 8.5, 96, 3, 2], "01110"],
  ] as const)("%s %j at %j V", (name, parameters, volts, closed) => {
    expect(coilWalk(name, parameters, volts)).toBe(closed);
  });

  it("moves the power contact, the auxiliary contact and both sides of a changeover together", () => {
    const positions = (name: string, parameters: Readonly<Record<string, string>>, coil: boolean): string => {
      const kind = kindOf(name);
      if (kind === undefined) throw new Error(`there is no kind ${name}`);
      return kind
        .circuit({
          values: readValues(kind, parameters),
          condition: READY,
          position: "",
          state: { coil },
          wired: () => true,
          motorCurrent: undefined,
        })
        .flatMap((each) => (each.type === "contact" ? [`${each.name}:${each.closed ? "closed" : "open"}`] : []))
        .join(" ");
    };
    expect(positions("contactor", { poles: "2" }, false)).toBe("contact:open contact-2:open aux:open");
    expect(positions("contactor", { aux: "make" }, true)).toBe("contact:closed aux:closed");
    expect(positions("contactor", { aux: "break" }, true)).toBe("contact:closed aux:open");
    expect(positions("contactor", { aux: "break" }, false)).toBe("contact:open aux:closed");
    expect(positions("changeover-contactor", {}, false)).toBe("nc:closed no:open");
    expect(positions("changeover-contactor", {}, true)).toBe("nc:open no:closed");
    expect(positions("relay", { poles: "2" }, true)).toBe("no:closed nc:open no-2:closed nc-2:open");
  });
});

describe("timer relay", () => {
  const timed = (timers: Condition["timers"]): Condition => ({ ...READY, timers });
  const on = (states: readonly PartState[]): string => states.map(({ coil }) => (coil === true ? "1" : "0")).join("");
  const fed = { "supply+": 12, "supply-": 0 };

  it("waits before it switches on, and starts with the supply where no trigger is wired", () => {
    const states = walk(
      "timer-relay",
      { supplyVoltage: "12 V", mode: "on-delay" },
      [{ "supply+": 0, "supply-": 0 }, fed, fed, fed, { "supply+": 1, "supply-": 0 }],
      [timed("by-circuit"), timed("not-elapsed"), timed("elapsed"), timed("by-circuit"), timed("by-circuit")],
    );
    expect(on(states)).toBe("00110");
  });

  it("needs its trigger where one is wired", () => {
    const states = walk("timer-relay", { supplyVoltage: "12 V", mode: "on-delay" }, [
      { ...fed, trigger: 0 },
      { ...fed, trigger: 12 },
      { ...fed, trigger: 0 },
    ]);
    expect(on(states)).toBe("010");
  });

  it("holds after its trigger has gone until the time is over", () => {
    const states = walk(
      "timer-relay",
      { supplyVoltage: "12 V", mode: "off-delay" },
      [
        { ...fed, trigger: 0 },
        { ...fed, trigger: 12 },
        { ...fed, trigger: 0 },
        { ...fed, trigger: 0 },
      ],
      [timed("not-elapsed"), timed("not-elapsed"), timed("not-elapsed"), timed("elapsed")],
    );
    expect(on(states)).toBe("0110");
  });
});

describe("electronic switches", () => {
  it("turns a solid-state switch on at its least control voltage, the right way round only", () => {
    const states = walk(
      "solid-state-switch",
      { controlMin: "4 V" },
      [0, 3.9, 4, 12, -12].map((volts) => ({ "control+": volts, "control-": 0 })),
    );
    expect(states.map(({ on }) => on)).toEqual([false, false, true, true, false]);
  });

  it("feeds a Hall throttle's signal from 4 V of supply on", () => {
    const states = walk(
      "throttle-hall",
      {},
      [0, 3.9, 4.3, 5].map((volts) => ({ supply: volts, ground: 0 })),
    );
    expect(states.map(({ fed }) => fed)).toEqual([false, false, true, true]);
  });

  it("lets a battery monitor conduct once its cells supply it, and where it is drawn in outline", () => {
    const states = walk("battery-monitor", { taps: "2" }, [
      { "pack+": 0, "B-": 0 },
      { "pack+": 52, "B-": 0 },
      { "tap-2": 6.4, "tap-0": 0 },
      { "B-": 0, "P-": 0 },
    ]);
    expect(states.map(({ on }) => on)).toEqual([false, true, true, true]);
  });
});
