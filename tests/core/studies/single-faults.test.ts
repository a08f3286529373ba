/** What single faults lead to: drawings small enough to know by hand, then the demo vehicles, then anything at all. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { singleFaults } from "../../../core/circuit/faults.ts";
import { faultConsequence, faultMotion, singleFaultStudy } from "../../../core/studies/single-faults.ts";
import type { Consequence } from "../../../core/studies/single-faults.ts";
import type { EffectKind } from "../../../core/studies/single-faults-effects.ts";
import { SEVERITY_ORDER } from "../../../core/studies/single-faults-effects.ts";
import { demos, isFaulty } from "../../demos/demo-files.ts";
import { anyDrawing } from "../../harness/any-drawing.ts";
import { drawing } from "../../harness/drawing.ts";

const POWER = { size: "35 mm2", length: "0.5 m" };
const SMALL = { size: "1.5 mm2", length: "1 m" };

/** 48 V, key, emergency stop, contactor on the 12 V side, a controller with a voltage throttle. */
function cart(controller: Readonly<Record<string, string>>, pedal: "three-wire" | "two-wire" = "three-wire") {
  const sketch = drawing()
    .part("G1", "battery-pack", { chemistry: "agm-lead", blocks: "4", capacity: "100 Ah", duty: "traction" })
    .part("G2", "battery-block", { chemistry: "agm-lead", capacity: "40 Ah", duty: "auxiliary" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("F1", "fuse", { rating: "200 A", curve: "bolted-strip" })
    .part("F2", "fuse", { rating: "10 A", curve: "blade" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "48 V",
      voltageMin: "36 V",
      currentContinuous: "100 A",
      contactorDriver: "none",
      serialIsolated: "yes",
      ...controller,
    })
    .part("M1", "motor-permanent-magnet", { resistance: "100 mohm", currentContinuous: "100 A" })
    .part("B1", pedal === "two-wire" ? "throttle-two-wire" : "throttle-three-wire")
    .wires(POWER, "G1:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "M1:+ - T1:M+", "M1:- - T1:M-")
    .wires(SMALL, "G2:- - X1:stud", "G2:+ - F2:1", "F2:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - Q1:coil+")
    .wires(SMALL, "Q1:coil- - X1:stud", "S9:12 - T1:logic+", "T1:logic- - X1:stud");
  return pedal === "two-wire"
    ? sketch.wires(SMALL, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2")
    : sketch.wires(SMALL, "B1:high - T1:throttle-1", "B1:wiper - T1:throttle-2", "B1:low - T1:throttle-3");
}

const DIVIDER = { throttleInput: "divider", throttleFaultBand: "no" };

function of(analysis: Analysis, key: string): Consequence {
  const fault = singleFaults(analysis).find((each) => each.key === key);
  if (fault === undefined) throw new Error(`no fault ${key}`);
  return faultConsequence(analysis, fault);
}

const kinds = ({ effects }: Consequence): readonly EffectKind[] => effects.map(({ kind }) => kind);
const wireTo = (analysis: Analysis, terminal: string): string => {
  const { network } = analysis;
  const wire = network.project.wires.find(({ ends }) =>
    ends.some((end) => end !== null && network.label(end) === terminal),
  );
  if (wire === undefined) throw new Error(`no wire at ${terminal}`);
  return wire.id;
};

describe("what a single fault leads to", () => {
  const analysis = analyse(cart(DIVIDER).build());
  const fault = (kind: string, terminal: string): Consequence => of(analysis, `${kind} ${wireTo(analysis, terminal)}`);

  it("drives as drawn, so that a loss of drive means something", () => {
    expect(analysis.state("driving")?.partStates.some(({ drive }) => drive === "forward")).toBe(true);
  });

  it("is full speed where a voltage input loses its ground (the trade's classic), DANGER", () => {
    const lost = fault("wire-open", "B1:low");
    expect(lost.severity).toBe("DANGER");
    expect(kinds(lost)).toContain("moves-at-idle");
    expect(lost.effects[0]?.states).toContain("idle");
  });

  it("is a stop, no more than NOTICE, where the controller takes a two-wire throttle that is open for a fault", () => {
    const sane = analyse(cart({ throttleFaultBand: "yes" }, "two-wire").build());
    const lost = of(sane, `wire-open ${wireTo(sane, "B1:1")}`);
    expect(lost.severity).toBe("NOTICE");
    expect(kinds(lost)).toEqual(["drive-lost"]);
  });

  it("is a stop lost, WARNING, where the key or the emergency stop is welded, as the other still ends the drive", () => {
    for (const key of ["contact-welded p7 ignition", "contact-welded p8 contact"]) {
      const welded = of(analysis, key);
      expect(kinds(welded)).toContain("stop-lost");
      expect(kinds(welded)).not.toContain("cannot-be-stopped");
      expect(welded.severity).toBe("WARNING");
    }
  });

  it("cannot be stopped, DANGER, where one bridge feeds past key and emergency stop", () => {
    const bypass = cart(DIVIDER)
      .part("X5", "terminal-strip", { positions: "2" })
      .wires(SMALL, "F2:2 - X5:1a", "S9:12 - X5:2a");
    const both = analyse(bypass.build());
    const bridged = of(both, "terminals-bridged p12 1a 2a");
    expect(bridged.severity).toBe("DANGER");
    expect(bridged.effects[0]).toMatchObject({ kind: "cannot-be-stopped", states: ["key-off", "emergency-stop"] });
  });

  it("keeps the controller live after key-off where the contactor is welded", () => {
    const welded = of(analysis, "contact-welded p6 contact");
    const live = welded.effects.find(({ kind }) => kind === "stays-live");
    expect(live?.states).toEqual(["key-off", "emergency-stop"]);
    expect(live?.value).toBeGreaterThan(45);
    expect(welded.hidden).toBe(false);
  });

  it("does not pull in, no DANGER, where the coil's wire is open", () => {
    const open = fault("wire-open", "Q1:coil+");
    expect(open.severity).toBe("NOTICE");
    expect(kinds(open)).toEqual(expect.arrayContaining(["drive-lost", "does-not-close"]));
  });

  it("blows the fuse where the 12 V feed behind it rubs through, and burns where no fuse is in its way", () => {
    const behind = fault("conductor-to-chassis", "S1:battery");
    expect(kinds(behind)).toContain("device-clears");
    expect(kinds(behind)).not.toContain("unprotected-current");
    expect(behind.severity).toBe("CAUTION");
    const ahead = fault("conductor-to-chassis", "F2:1");
    expect(kinds(ahead)).toContain("unprotected-current");
    const burning = ahead.effects.find(({ kind }) => kind === "unprotected-current");
    // 1.5 mm2 is read as 16 AWG: 15 A at 60 C, at most 35 A (33 CFR 183.425, table 5).
    expect(burning?.limit).toBe(35);
    expect(burning?.value).toBeGreaterThan(100);
  });

  it("is a first isolation fault where a traction wire rubs through on a floating pack, and a meter shows it", () => {
    const rubbed = fault("conductor-to-chassis", "T1:B-");
    expect(rubbed.effects).toMatchObject([{ kind: "traction-on-chassis", severity: "CAUTION" }]);
    expect(rubbed.hidden).toBe(false);
  });

  it("is hidden where a wire lies beside another that does the same work", () => {
    const twice = cart(DIVIDER).wires(SMALL, "Q1:coil- - X1:stud");
    const both = analyse(twice.build());
    const spare = of(both, `wire-open ${both.network.project.wires.at(-1)?.id ?? ""}`);
    expect(spare).toMatchObject({ effects: [], hidden: true });
    expect(of(analysis, `wire-open ${wireTo(analysis, "Q1:coil-")}`).hidden).toBe(false);
  });
});

describe("the study of a whole drawing", () => {
  it.each(demos.map((demo) => [demo.name, demo] as const))("is ranked worst first on %s", (name, demo) => {
    const study = singleFaultStudy(analyse(demo.project));
    const ranks = study.map(({ severity }) =>
      severity === undefined ? SEVERITY_ORDER.length : SEVERITY_ORDER.indexOf(severity),
    );
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    for (const { effects, severity } of study) expect(severity).toBe(effects[0]?.severity);
    if (isFaulty(demo)) return;
    // The sound demos are built so that no single fault of throttle or contacts moves the vehicle.
    expect(study.filter((each) => kinds(each).some((kind) => kind === "moves-at-idle"))).toEqual([]);
    expect(study.filter((each) => kinds(each).some((kind) => kind === "cannot-be-stopped"))).toEqual([]);
    expect(study.length, name).toBeGreaterThan(100);
  });

  it("says of motion alone what it says of everything", () => {
    const project = cart(DIVIDER).build();
    const motions = ["moves-at-idle", "cannot-be-stopped", "stop-lost"];
    const told = (effects: Consequence["effects"]): readonly string[] =>
      effects.filter(({ kind }) => motions.includes(kind)).map(({ kind, severity }) => `${severity} ${kind}`);
    const [whole, motion] = [analyse(project), analyse(project)];
    const alone = singleFaults(motion).map((fault) => [fault.key, told(faultMotion(motion, fault))]);
    expect(alone).toEqual(
      singleFaults(whole).map((fault) => [fault.key, told(faultConsequence(whole, fault).effects)]),
    );
    expect(alone.some(([, effects]) => (effects?.length ?? 0) > 0)).toBe(true);
  });

  it("does not depend on the order of parts and wires in the file", () => {
    const project = cart(DIVIDER).build();
    const turned = { ...project, parts: [...project.parts].reverse(), wires: [...project.wires].reverse() };
    const told = (analysis: Analysis): readonly string[] =>
      singleFaultStudy(analysis)
        .map(({ fault, effects, hidden }) => {
          const what = effects.map(({ kind, severity, states }) => `${severity} ${kind} ${states.join(" ")}`);
          return `${fault.key}: ${hidden ? "hidden" : ""} ${what.join("; ")}`;
        })
        .sort();
    expect(told(analyse(turned))).toEqual(told(analyse(project)));
  });

  it("never throws, however unfinished the drawing", () => {
    fc.assert(
      fc.property(anyDrawing(), (project) => {
        const wires = project.wires.map((wire, index) =>
          index % 4 === 0 ? { ...wire, ends: [wire.ends[0], null] as const } : wire,
        );
        const study = singleFaultStudy(analyse({ ...project, wires }));
        expect(
          study.every(({ hidden, effects }) => !hidden || effects.every(({ kind }) => kind !== "drive-lost")),
        ).toBe(true);
      }),
      { numRuns: 25, seed: 5 },
    );
  }, 60_000);
});
