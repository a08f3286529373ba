/** Contacts that follow their coils in time: pull-in, release, timers, chatter, what a switched-off coil does. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import type { Transition, TransitionName } from "../../../../core/circuit/transition/transition.ts";
import type { Parameters, Project } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";

const WIRE = { size: "16 mm2", length: "0.1 m" } as const;
const COIL: Parameters = { coilVoltage: "12 V", coilResistance: "36 ohm", coilInductance: "0.5 H" };

/** A 12 V battery, the key, a contactor whose contact lights a lamp. */
function keyed(parameters: Parameters): Project {
  return drawing()
    .defaults(WIRE)
    .part("G1", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary", resistance: "1 mohm" })
    .part("S1", "key-switch")
    .part("Q1", "contactor", { ...COIL, ...parameters })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .wires(WIRE, "G1:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-")
    .wires(WIRE, "G1:+ - Q1:line", "Q1:load - P1:+", "P1:- - G1:-")
    .build();
}

function transition(project: Project, name: TransitionName): Transition {
  const found = analyse(project).transition(name);
  if (found === undefined) throw new Error(`no transition ${name}`);
  return found;
}

function time(found: Transition, what: string, designation: string): number {
  const event = found.events.find((each) => each.what === what && each.part?.part.designation === designation);
  return event?.time ?? NaN;
}

/** Battery voltage at rest: its own EMF, as the coil sees it to a thousandth. */
const restVolts = (found: Transition): number => found.at(0).between(1, 2);

const RISE = 0.5 / 36;

describe("a contactor", () => {
  it("pulls in when its current reaches pick-up, and touches after the stated closing time at nominal voltage", () => {
    const found = transition(keyed({ closeTime: "25 ms" }), "key-on");
    // i R = V (1 - exp(-t R / L)) (circuit theory) reaches 70 % of 12 V.
    const pull = -RISE * Math.log(1 - 8.4 / restVolts(found));
    expect(time(found, "pulls-in", "Q1") / pull).toBeCloseTo(1, 2);
    const nominal = -RISE * Math.log(1 - 0.7);
    expect((time(found, "closes", "Q1") - pull) / (0.025 - nominal)).toBeCloseTo(1, 2);
    expect(found.trouble).toBeUndefined();
    expect(found.assumed).toEqual([]);
  });

  // t = (L / R) ln(I0 / I) and, with the diode's drop U, (L / R) ln((I0 R + U) / (I R + U)) (circuit theory); plain diodes
  // are known to delay the release (published measurement on an automotive relay; seen).
  it("lets go late with a diode across its coil, soon without", () => {
    const diode = transition(keyed({ suppression: "diode", dropOut: "10 %", openTime: "12 ms" }), "key-off");
    const volts = restVolts(diode);
    expect(volts).toBeGreaterThan(12);
    const wanted = RISE * Math.log((volts + 0.7) / (1.2 + 0.7));
    expect(time(diode, "drops-out", "Q1") / wanted).toBeCloseTo(1, 1);
    expect(time(diode, "opens", "Q1") - time(diode, "drops-out", "Q1")).toBeCloseTo(0.012, 5);
    const [turnOff] = diode.turnOffs;
    expect(turnOff?.peak).toBeLessThan(1);
    expect(turnOff?.decay).toBeCloseTo(time(diode, "drops-out", "Q1"), 6);

    const plain = transition(keyed({ suppression: "none", openTime: "12 ms" }), "key-off");
    expect(time(plain, "drops-out", "Q1")).toBeLessThan(0.002);
    // The key's contact strikes an arc: 327 V, the least at which air breaks down (handbooks, from memory), and the EMF.
    expect(plain.turnOffs[0]?.peak).toBeGreaterThan(327);
    expect(plain.turnOffs[0]?.peak).toBeLessThan(345);

    const zener = transition(keyed({ suppression: "zener" }), "key-off");
    expect(zener.turnOffs[0]?.peak).toBeGreaterThan(12);
    expect(zener.turnOffs[0]?.peak).toBeLessThan(14);
    expect(time(zener, "drops-out", "Q1")).toBeLessThan(time(diode, "drops-out", "Q1"));
  });

  it("with an economiser draws its full current for 100 ms and then less, without letting go", () => {
    const found = transition(keyed({ economiser: "yes" }), "key-on");
    const branch = found.closings.find(({ part }) => part.part.designation === "Q1")!.part.firstBranch;
    const current = (at: number): number => found.at(at).currents[branch]!;
    const closed = time(found, "closes", "Q1");
    expect(current(closed + 0.09) * 36).toBeGreaterThan(11.5);
    expect(current(closed + 0.2) / current(closed + 0.09)).toBeCloseTo(0.3, 2);
    expect(found.openings).toEqual([]);
  });

  it("names the inductance that nobody stated", () => {
    const found = transition(keyed({ coilInductance: null }), "key-on");
    expect(found.assumed.map(({ part, parameter }) => [part.part.designation, parameter])).toEqual([
      ["Q1", "coilInductance"],
    ]);
    expect(found.closings.some(({ part }) => part.part.designation === "Q1")).toBe(true);
  });
});

describe("a timer relay", () => {
  const timed = (mode: string, delay: Parameters): Project =>
    drawing()
      .defaults(WIRE)
      .part("G1", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary", resistance: "1 mohm" })
      .part("S1", "key-switch")
      .part("K1", "timer-relay", { supplyVoltage: "12 V", mode, ...delay })
      .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
      .wires(WIRE, "G1:+ - K1:supply+", "K1:supply- - G1:-", "G1:+ - S1:battery", "S1:ignition - K1:trigger")
      .wires(WIRE, "G1:+ - K1:common", "K1:no - P1:+", "P1:- - G1:-")
      .build();

  it("moves its contact when its time is over, by the clock", () => {
    const found = transition(timed("on-delay", { delay: "2.5 s" }), "key-on");
    expect(time(found, "elapses", "K1")).toBeCloseTo(2.5, 6);
    expect(time(found, "closes", "K1")).toBeCloseTo(2.5, 6);
    const off = transition(timed("off-delay", { delay: "3 s" }), "key-off");
    expect(time(off, "opens", "K1")).toBeCloseTo(3, 6);
  });

  it("forgets a trigger that went away before its time was over", () => {
    const found = transition(timed("off-delay", { delay: "0.5 s" }), "key-off-on");
    expect(time(found, "opens", "K1")).toBeNaN();
  });

  it("names a delay that nobody stated", () => {
    const found = transition(timed("on-delay", {}), "key-on");
    expect(found.assumed.map(({ parameter }) => parameter)).toEqual(["delay"]);
  });
});

describe("chatter", () => {
  it("of a relay that cuts its own coil is named and stops the clock", () => {
    const project = drawing()
      .defaults(WIRE)
      .part("G1", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary", resistance: "1 mohm" })
      .part("S1", "key-switch")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", suppression: "diode" })
      .wires(WIRE, "G1:+ - S1:battery", "S1:ignition - K1:common", "K1:nc - K1:coil+", "K1:coil- - G1:-")
      .build();
    const found = transition(project, "key-on");
    expect(found.chatter.map(({ part }) => part.designation)).toEqual(["K1"]);
    expect(found.trouble).toContain("K1");
    expect(found.times.at(-1)).toBeLessThan(2);
  });

  it("is not what a contact does that moves twice", () => {
    const found = transition(keyed({}), "key-off-on");
    expect(found.chatter).toEqual([]);
    expect(found.trouble).toBeUndefined();
  });
});
