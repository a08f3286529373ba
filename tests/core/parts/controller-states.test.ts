/**
 * What a controller does in small drawings, worked by hand: alive, throttle, enable pins, contactor, current drawn.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import type { PartState } from "../../../core/parts/define.ts";
import { drawing, type Drawing } from "../../harness/drawing.ts";

const HEAVY = { size: "35 mm2", length: "0.3 m" };
const THIN = { size: "1.5 mm2", length: "1 m" };

type Given = Readonly<Record<string, string>>;

const USUAL: Given = {
  logicFeed: "pack-fed",
  contactorDriver: "low-side",
  throttleInput: "resistance-rising",
  throttleFaultBand: "yes",
  currentContinuous: "200 A",
};

/** Six blocks, key, contactor on the controller's driver with a resistor across it, series motor. */
function cart(
  controller: Given = {},
  without: { readonly precharge?: boolean; readonly throttle?: boolean } = {},
): Drawing {
  const sketch = drawing();
  for (let block = 1; block <= 6; block += 1) {
    sketch.part(`G${block}`, "battery-block", { chemistry: "flooded-lead", cells: "6", resistance: "5 mohm" });
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  sketch
    .part("Q1", "contactor", { coilVoltage: "72 V", coilPower: "20 W" })
    .part("T1", "dc-controller", { ...USUAL, ...controller })
    .part("M1", "motor-series", {
      currentContinuous: "180 A",
      armatureResistance: "10 mohm",
      fieldResistance: "10 mohm",
    })
    .part("S1", "key-switch")
    .wires(HEAVY, "G6:+ - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-")
    .wires(HEAVY, "T1:M- - M1:S2", "M1:S1 - M1:A2", "M1:A1 - T1:M+")
    .wires(
      THIN,
      "G6:+ - S1:battery",
      "S1:ignition - T1:logic+",
      "S1:ignition - Q1:coil+",
      "Q1:coil- - T1:contactor-out",
    );
  if (without.precharge !== true) {
    sketch.part("R1", "resistor", { resistance: "750 ohm" }).wires(THIN, "Q1:line - R1:1", "R1:2 - Q1:load");
  }
  if (without.throttle !== true) {
    sketch.part("B1", "throttle-two-wire").wires(THIN, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2");
  }
  return sketch;
}

class Look {
  readonly analysis: Analysis;
  constructor(sketch: Drawing) {
    this.analysis = analyse(sketch.build());
  }
  part(designation: string) {
    const part = this.analysis.network.parts.find((candidate) => candidate.part.designation === designation);
    if (part === undefined) throw new Error(`no ${designation}`);
    return part;
  }
  solved(state: string) {
    const solved = this.analysis.state(state);
    if (solved === undefined) throw new Error(`no state ${state}`);
    return solved;
  }
  of(designation: string, state: string): PartState {
    return this.solved(state).partStates[this.part(designation).index] ?? {};
  }
  between(state: string, plus: string, minus: string): number {
    const node = (end: string): number => {
      const [designation = "", terminal = ""] = end.split(":");
      return this.part(designation).nodes.get(terminal) ?? NaN;
    };
    return this.solved(state).between(node(plus), node(minus));
  }
  current(state: string, designation: string, element: string): number {
    const { firstBranch, branchCount } = this.part(designation);
    const { branches } = this.analysis.network;
    for (let index = firstBranch; index < firstBranch + branchCount; index += 1) {
      if (branches[index]?.name === element) return this.solved(state).currents[index] ?? NaN;
    }
    throw new Error(`${designation} has no ${element}`);
  }
  /** One field of the controller's state in every state of the drawing. */
  row(field: string) {
    return Object.fromEntries(this.analysis.states.map(({ name }) => [name, this.of("T1", name)[field]]));
  }
}

/** Pre-charge by a relay on precharge-out, its coil fed at `feed`; a stop behind the key cuts the main coil. */
function withPrechargeRelay(feed: string): Look {
  const sketch = drawing()
    .part("G1", "battery-pack", { blocks: "6", resistance: "5 mohm" })
    .part("Q1", "contactor", { coilVoltage: "72 V", coilPower: "20 W" })
    .part("K1", "relay", { coilVoltage: "72 V", coilResistance: "2 kohm" })
    .part("R1", "resistor", { resistance: "100 ohm" })
    .part("T1", "dc-controller", USUAL)
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-")
    .wires(THIN, "G1:+ - S1:battery", "S1:ignition - T1:logic+", "S1:ignition - S9:11", "S9:12 - Q1:coil+")
    .wires(THIN, "Q1:coil- - T1:contactor-out", `${feed} - K1:coil+`, "K1:coil- - T1:precharge-out")
    .wires(THIN, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load");
  return new Look(sketch);
}

describe("a pack-fed controller with a two-wire throttle", () => {
  const look = new Look(cart());

  it("lives with the key, idles in ready and drives forward with the throttle", () => {
    expect(look.row("logic")).toEqual({
      parked: "dead",
      "key-on": "live",
      "pre-charging": "live",
      ready: "live",
      driving: "live",
      "driving-low": "live",
    });
    expect(look.row("throttle")).toMatchObject({ "key-on": "idle", ready: "idle", driving: "pressed" });
    expect(look.row("drive")).toMatchObject({ ready: "off", driving: "forward", "driving-low": "forward" });
  });

  it("pulls the contactor in, as the resistor across it has filled the bus", () => {
    expect(look.row("contactor")).toMatchObject({ parked: false, "key-on": true, driving: true });
    expect(look.of("Q1", "driving")).toEqual({ coil: true });
  });

  it("draws the lesser of the two continuous currents, from the pack too (duty 1)", () => {
    expect(look.current("driving", "T1", "output-stage")).toBeCloseTo(180, 6);
    // Besides: logic 50 mA, coil 20 W at 72 V, throttle a few mA.
    const pack = look.current("driving", "G1", "emf");
    expect(pack).toBeGreaterThan(180.2);
    expect(pack).toBeLessThan(180.6);
    // 6 x 12.70 V less 180 A through 30 mohm and the jumpers, cables and joints.
    expect(look.between("driving", "T1:B+", "T1:B-")).toBeLessThan(76.2 - 180 * 0.03);
    expect(look.between("driving", "T1:B+", "T1:B-")).toBeGreaterThan(68.5);
    // 180 A through both windings, 20 mohm.
    expect(look.between("driving", "M1:A1", "M1:A2")).toBeCloseTo(1.8, 3);
  });

  it("is dead and its contactor open once the key is off again", () => {
    const after = look.analysis.parkedAfterDriving;
    expect(after?.partStates[look.part("T1").index]).toMatchObject({ logic: "dead", contactor: false, drive: "off" });
    expect(after?.partStates[look.part("Q1").index]).toEqual({ coil: false });
  });

  it("reads 0 ohm and 5 kohm through 5 V behind 1 kohm", () => {
    // 5 V / (1 kohm + 100 ohm) and 5 V / (1 kohm + 5 kohm + 100 ohm).
    expect(look.current("ready", "T1", "throttle-input") * 1000).toBeCloseTo(4.545, 2);
    expect(look.current("driving", "T1", "throttle-input") * 1000).toBeCloseTo(0.8197, 3);
  });
});

describe("the main contactor's driver", () => {
  it("waits for a bus that nothing charges", () => {
    const look = new Look(cart({ nominalMin: "72 V" }, { precharge: true }));
    expect(look.row("contactor")).toMatchObject({ "key-on": false, ready: false, driving: false });
    expect(look.row("precharge")).toMatchObject({ "key-on": true, ready: true });
    expect(look.between("ready", "T1:B+", "T1:B-")).toBeLessThan(8);
  });

  it("does not wait where the controller charges its bus itself", () => {
    const look = new Look(cart({ prechargeInternal: "yes" }, { precharge: true }));
    // Empty in key-on, full in ready.
    expect(look.row("contactor")).toMatchObject({ parked: false, "key-on": false, ready: true, driving: true });
    expect(look.row("precharge")).toMatchObject({ "key-on": true, ready: false, driving: false });
  });

  it("waits while a load holds the bus below its threshold", () => {
    // 750 ohm from the pack, 1 kohm on the bus: 76.2 V x 1000 / 1750 = 43.5 V, 57 % of the pack.
    const loaded = (threshold: string): Look =>
      new Look(
        cart({ prechargeThreshold: threshold })
          .part("R2", "resistor", { resistance: "1 kohm" })
          .wires(THIN, "T1:B+ - R2:1", "R2:2 - T1:B-"),
      );
    const waits = loaded("90 %");
    expect(waits.between("ready", "T1:B+", "T1:B-")).toBeCloseTo(43.5, 0);
    expect(waits.of("T1", "ready")).toMatchObject({ contactor: false, precharge: true });
    expect(loaded("50 %").of("T1", "ready")).toMatchObject({ contactor: true, precharge: false });
  });

  it("lets go when the emergency stop cuts coils and the bus is lost, waits for the key, and does not hunt", () => {
    const look = withPrechargeRelay("S9:12");
    // Ahead of the stop, the relay could fill the bus again and again.
    expect(withPrechargeRelay("S9:11").analysis.states.flatMap(({ chatter }) => chatter)).toEqual([]);
    // Empty capacitors in key-on: the relay fills them first.
    expect(look.of("T1", "key-on")).toMatchObject({ contactor: false, precharge: true });
    expect(look.of("K1", "key-on")).toMatchObject({ coil: true });
    expect(look.of("T1", "ready")).toMatchObject({ contactor: true, precharge: false });
    expect(look.of("K1", "ready")).toMatchObject({ coil: false });
    expect(look.of("T1", "emergency-stop")).toMatchObject({
      start: "lost",
      contactor: false,
      precharge: false,
      drive: "off",
    });
    expect(look.of("Q1", "emergency-stop")).toEqual({ coil: false });
    expect(look.analysis.states.flatMap(({ chatter }) => chatter)).toEqual([]);
  });
});

describe("the throttle", () => {
  it("that is broken is a fault, which opens the contactor and stops the drive", () => {
    const look = new Look(
      cart({}, { throttle: true }).part("B1", "throttle-two-wire").wires(THIN, "B1:1 - T1:throttle-1"),
    );
    expect(look.row("throttle")).toMatchObject({ ready: "fault", driving: "fault" });
    expect(look.row("contactor")).toMatchObject({ ready: false, driving: false });
    expect(look.row("drive")).toMatchObject({ driving: "off" });
  });

  it("that is broken reads as full where the controller does not look for faults", () => {
    const look = new Look(
      cart({ throttleFaultBand: "no" }, { throttle: true })
        .part("B1", "throttle-two-wire")
        .wires(THIN, "B1:1 - T1:throttle-1"),
    );
    expect(look.row("throttle")).toMatchObject({ ready: "pressed", driving: "pressed" });
    // The state asks for no motion in ready; that the throttle reads pressed is what a check looks at.
    expect(look.row("drive")).toMatchObject({ ready: "off", driving: "forward" });
  });

  it("of the other kind (5 kohm at idle) is read as it is stated", () => {
    const other = { resistanceIdle: "5 kohm", resistanceFull: "0 ohm" };
    const wired = (controller: Given): Look =>
      new Look(
        cart(controller, { throttle: true })
          .part("B1", "throttle-two-wire", other)
          .wires(THIN, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2"),
      );
    expect(wired({ throttleInput: "resistance-falling" }).row("throttle")).toMatchObject({
      ready: "idle",
      driving: "pressed",
    });
    expect(wired({}).row("throttle")).toMatchObject({ ready: "pressed", driving: "idle" });
  });

  const threeWire = (controller: Given, wires: readonly string[]): Look => {
    const sketch = cart({ throttleInput: "divider", ...controller }, { throttle: true }).part(
      "B1",
      "throttle-three-wire",
    );
    for (const wire of wires) sketch.wires(THIN, wire);
    return new Look(sketch);
  };
  const ALL = ["B1:high - T1:throttle-1", "B1:wiper - T1:throttle-2", "B1:low - T1:throttle-3"];

  it("with three wires is read as a part of its own supply", () => {
    expect(threeWire({}, ALL).row("throttle")).toMatchObject({ ready: "idle", driving: "pressed" });
    expect(threeWire({ throttleMode: "centre-zero" }, ALL).row("drive")).toMatchObject({ driving: "forward" });
  });

  it("with three wires and a lost ground reads full", () => {
    const lost = ALL.filter((wire) => !wire.includes("low"));
    expect(threeWire({ throttleFaultBand: "no" }, lost).row("throttle")).toMatchObject({ ready: "pressed" });
    expect(threeWire({ throttleIdle: "0.5 V", throttleFull: "4.5 V" }, lost).row("throttle")).toMatchObject({
      ready: "fault",
    });
  });

  it("that is not drawn does what the state asks", () => {
    expect(new Look(cart({}, { throttle: true })).row("throttle")).toMatchObject({ ready: "idle", driving: "pressed" });
  });
});

describe("enable pins", () => {
  const withSelector = (): Drawing =>
    cart()
      .part("S2", "selector-switch")
      .wires(THIN, "S1:ignition - S2:common", "S2:a - T1:forward", "S2:b - T1:reverse");

  it("decide the direction", () => {
    const look = new Look(withSelector());
    expect(look.row("drive")).toMatchObject({ driving: "forward", reversing: "reverse" });
    const swapped = cart().part("S2", "selector-switch");
    swapped.wires(THIN, "S1:ignition - S2:common", "S2:b - T1:forward", "S2:a - T1:reverse");
    expect(new Look(swapped).row("drive")).toMatchObject({ driving: "reverse", reversing: "forward" });
  });

  it("stop the drive when the interlock is not fed, and leave the contactor in", () => {
    const stopped = new Look(
      cart().part("S3", "micro-switch", { actuator: "cover" }).wires(THIN, "S3:no - T1:interlock"),
    );
    expect(stopped.row("drive")).toMatchObject({ driving: "off" });
    expect(stopped.row("contactor")).toMatchObject({ driving: true });
    const fed = new Look(cart().wires(THIN, "S1:ignition - T1:interlock"));
    expect(fed.row("drive")).toMatchObject({ driving: "forward" });
  });

  it.each([
    ["the return", "T1:B-"],
    ["a supply", "S1:ignition"],
  ])("let it drive while charge-inhibit is closed to %s, and not while it hangs open", (_, to) => {
    const sketch = cart()
      .part("T3", "charger", { mainsPlug: "yes", outputVoltageMax: "88.9 V", inhibitFollows: "plugged" })
      .wires(THIN, "T3:out+ - G6:+", "T3:out- - G1:-", "T3:inhibit-1 - T1:charge-inhibit", `T3:inhibit-2 - ${to}`);
    const look = new Look(sketch);
    expect(look.row("drive")).toMatchObject({ driving: "forward" });
    const plugged = look.analysis.plugged.find((state) => state.condition.throttle === "full");
    expect(plugged?.partStates[look.part("T3").index]).toMatchObject({ mains: true });
    expect(plugged?.partStates[look.part("T1").index]).toMatchObject({ logic: "live", drive: "off" });
  });

  it("hold a pedal off that is pressed at key-on, where the controller has a lockout", () => {
    // From parked, where the logic is dead, straight to a pressed pedal with the key on.
    const look = (lockout: string): Look =>
      new Look(cart({ highPedalLockout: lockout }).state("pressed-at-key-on", "parked", { B1: "full", S1: "on" }));
    expect(look("yes").of("T1", "pressed-at-key-on")).toMatchObject({ throttle: "pressed", start: "locked" });
    expect(look("no").of("T1", "pressed-at-key-on")).toMatchObject({ throttle: "pressed", start: "running" });
    expect(look("yes").of("T1", "driving")).toMatchObject({ start: "running", drive: "forward" });
  });
});

describe("regeneration", () => {
  it("turns the current round, up to the cut voltage", () => {
    const look = new Look(cart({ regeneration: "yes", regenerationCutVoltage: "95 V" }));
    expect(look.row("drive")).toMatchObject({ regenerating: "regeneration" });
    expect(look.current("regenerating", "T1", "output-stage")).toBeCloseTo(-180, 6);
    expect(look.between("regenerating", "T1:B+", "T1:B-")).toBeGreaterThan(76.2 + 180 * 0.03);
    const cut = new Look(cart({ regeneration: "yes", regenerationCutVoltage: "78 V" }));
    expect(cut.between("regenerating", "T1:B+", "T1:B-")).toBeLessThan(78.1);
    expect(-cut.current("regenerating", "T1", "output-stage")).toBeGreaterThan(10);
    expect(-cut.current("regenerating", "T1", "output-stage")).toBeLessThan(100);
  });
});

describe("a controller that states no current", () => {
  it("says so where it drives", () => {
    const sketch = drawing()
      .part("G1", "battery-pack", { blocks: "4", resistance: "5 mohm" })
      .part("T1", "ac-controller", { logicFeed: "pack-fed" })
      .part("M1", "motor-ac")
      .wires(HEAVY, "G1:+ - T1:B+", "G1:- - T1:B-", "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
      .wires(THIN, "G1:+ - T1:logic+");
    const look = new Look(sketch);
    expect(look.solved("driving").remarks.map(({ remark }) => remark)).toEqual([
      expect.stringMatching(/states a continuous current/),
    ]);
    expect(look.solved("ready").remarks).toEqual([]);
    expect(look.current("driving", "T1", "output-stage")).toBe(0);
    // The phases stand at half the bus.
    expect(look.between("driving", "T1:U", "T1:B-")).toBeCloseTo(look.between("driving", "T1:B+", "T1:B-") / 2, 3);
  });
});

describe("a controller that does not state its contactor driver", () => {
  it("says that its output does nothing", () => {
    const sketch = drawing()
      .part("G1", "battery-pack", { blocks: "4", resistance: "5 mohm" })
      .part("T1", "dc-controller", { logicFeed: "pack-fed" })
      .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "20 W" })
      .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-")
      .wires(THIN, "G1:+ - T1:logic+", "G1:+ - Q1:coil+", "Q1:coil- - T1:contactor-out");
    const look = new Look(sketch);
    expect(look.solved("ready").remarks.map(({ remark }) => remark)).toEqual([
      "does not state its contactor driver, so that contactor-out does nothing",
    ]);
    expect(look.of("Q1", "ready")).toEqual({ coil: false });
  });
});

describe("12 V logic", () => {
  const isolated = (feed: string): Look => {
    const sketch = drawing()
      .part("G1", "battery-pack", { blocks: "8", resistance: "5 mohm" })
      .part("G9", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", capacity: "50 Ah" })
      .part("X1", "chassis-point")
      .part("T1", "ac-controller", { ...USUAL, logicFeed: feed, nominalMin: "96 V" })
      .part("R1", "resistor", { resistance: "100 ohm" })
      .wires(HEAVY, "G1:- - T1:B-")
      .wires(THIN, "G1:+ - R1:1", "R1:2 - T1:B+", "G9:+ - T1:logic+", "G9:- - X1:stud", "T1:logic- - X1:stud");
    return new Look(sketch);
  };

  it("is isolated from the pack, or shares its minus", () => {
    const apart = isolated("isolated-12v");
    expect(apart.of("T1", "ready")).toMatchObject({ logic: "live", contactor: true });
    // A floating pack: B- some way below chassis, by its leaks.
    expect(apart.solved("ready").volts[apart.part("T1").nodes.get("B-") ?? 0]).toBeLessThan(-20);
    const shared = isolated("shared-12v");
    expect(shared.of("T1", "ready")).toMatchObject({ logic: "live" });
    expect(Math.abs(shared.solved("ready").volts[shared.part("T1").nodes.get("B-") ?? 0] ?? NaN)).toBeLessThan(0.1);
  });

  it("judges the bus by the least nominal voltage when it cannot see the pack", () => {
    // 90 % of 96 V; the pack of eight full blocks stands at 101.6 V.
    expect(isolated("isolated-12v").between("ready", "T1:B+", "T1:B-")).toBeGreaterThan(100);
    expect(isolated("isolated-12v").row("contactor")).toMatchObject({ ready: true, parked: true });
  });
});
