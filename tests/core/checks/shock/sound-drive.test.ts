/** Taking a field away never makes a check pass; one mistake put in is found where it is. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { CHECKS } from "../../../../core/checks/catalogue.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import type { Project } from "../../../../core/project/document.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";
import { drive320, inverter, LITHIUM } from "./known-good-drive.ts";

const MINE = CHECKS.filter(({ id }) =>
  [
    ...["overvoltage", "logic-overvoltage", "undervoltage", "charger-mismatch", "insulation-low"],
    ...["traction-on-chassis", "traction-on-auxiliary", "isolation-low", "serial-port-live"],
    ...["exposed-beside-low-voltage", "exposed-opposite-poles"],
  ].includes(id),
);

describe("one mistake in a sound drive", () => {
  const MISTAKEN = ["traction-on-chassis", "traction-on-auxiliary"];
  const ids = (project: Project): readonly string[] =>
    MINE.flatMap((check) =>
      runCheck(check, analyse(project)).failures.map(({ severity }) => `${severity} ${check.id}`),
    );

  const TRACTION = [
    ...["G1:-", "G4:+", "G8:+", "Q9:load", "F1:2", "Q1:load", "T1:B+", "T1:B-", "F2:2", "K1:common", "R1:2"],
    ...["T1:U", "M1:V"],
  ];
  test.each(TRACTION)("a chafed cable at %s is found at that wire", (at) => {
    const project = drive320().wire(at, "X1:stud", HEAVY).build();
    const wire = project.wires[project.wires.length - 1]?.id ?? "";
    const found = MINE.filter(({ id }) => MISTAKEN.includes(id)).flatMap((check) =>
      runCheck(check, analyse(project)).failures.map(({ where }) => where[0]),
    );
    expect(found).toEqual([{ wire }]);
  });

  test.each(["K1:coil+", "T1:logic+", "F20:2", "B5:1"])("a wire from the pack's plus to %s is found", (at) => {
    const found = ids(drive320().wire("F1:2", at, SMALL).build());
    expect(found.filter((text) => /traction-on-auxiliary|logic-overvoltage/.test(text))).not.toEqual([]);
  });

  test("two more blocks than the drive stands", () => {
    expect(ids(inverter(10, withTwelveVolts(pack(10, LITHIUM))).build())).toContain("DANGER overvoltage");
  });
});

describe("a field taken away", () => {
  /** "check place" of everything that passes. */
  const passing = (project: Project): ReadonlySet<string> => {
    const analysis = analyse(project);
    return new Set(
      MINE.flatMap((check) => runCheck(check, analysis).passed.map((place) => `${check.id} ${JSON.stringify(place)}`)),
    );
  };
  const sound = drive320()
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "50 A", inputMin: "120 V", inputMax: "400 V" })
    .part("P1", "gauge", { isolated: "yes", senseMax: "400 V", supplyMin: "9 V", supplyMax: "16 V", finish: "booted" })
    .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", chemistry: "nmc", outputVoltageMax: "369.6 V" })
    .part("P2", "display", { isolated: "yes" })
    .wires(SMALL, "Q1:load - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud")
    .wires(SMALL, "F20:2 - P1:supply+", "P1:supply- - X1:stud", "F1:1 - P1:sense+", "G1:- - P1:sense-")
    .wires(SMALL, "T3:out+ - F1:1", "T3:out- - G1:-")
    .wires(SMALL, "F20:2 - P2:supply+", "P2:supply- - X1:stud", "T1:serial-ground - P2:serial-ground")
    .wire("F1:1", "P1:sense+", { ...SMALL, insulation: { volts: "600 V" } })
    .build();

  test("never makes anything pass that did not", () => {
    const before = passing(sound);
    expect(before.size).toBeGreaterThan(20);
    const moved: string[] = [];
    const see = (what: string, project: Project): void => {
      for (const pass of passing(project)) if (!before.has(pass)) moved.push(`${what}: ${pass}`);
    };
    sound.parts.forEach((part, index) => {
      // Of the blocks the lowest and the highest speak for all.
      if (/^G[2-7]$/.test(part.designation)) return;
      for (const name of Object.keys(part.parameters)) {
        const { [name]: _gone, ...parameters } = part.parameters;
        see(`${part.designation}.${name}`, { ...sound, parts: sound.parts.with(index, { ...part, parameters }) });
      }
    });
    // One wire in four: they are alike.
    sound.wires.forEach((wire, index) => {
      if (index % 4 !== 0 && wire.insulation === undefined) return;
      for (const field of ["size", "length", "insulation"] as const) {
        if (wire[field] === undefined) continue;
        const { [field]: _gone, ...rest } = wire;
        see(`${wire.number}.${field}`, { ...sound, wires: sound.wires.with(index, rest) });
      }
    });
    expect(moved).toEqual([]);
  }, 60_000);
});
