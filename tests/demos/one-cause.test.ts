/** The classic errors, each made alone in a sound vehicle: one cause, one finding, at its place. */
import { expect, it } from "vitest";
import { runChecks } from "../../core/checks/run.ts";
import { Names } from "../../core/checks/text.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Part, Project, WireEnd } from "../../core/project/document.ts";
import { bridge } from "../injection/edit.ts";
import { demos } from "./demo-files.ts";

function sound(name: string): Project {
  const demo = demos.find((candidate) => candidate.name === name);
  if (demo === undefined) throw new Error(`no demo ${name}`);
  return demo.project;
}

function partOf(project: Project, designation: string): Part {
  const part = project.parts.find((candidate) => candidate.designation === designation);
  if (part === undefined) throw new Error(`no part ${designation}`);
  return part;
}

/** With the wire end at one terminal moved to another; both as "F1:1", neither with a colon of its own. */
function moved(project: Project, number: string, from: string, to: string): Project {
  const end = (text: string): WireEnd => {
    const [designation = "", terminal = ""] = text.split(":");
    return [partOf(project, designation).id, terminal];
  };
  const [old, next] = [end(from), end(to)];
  const isOld = (candidate: WireEnd | null): boolean => candidate?.[0] === old[0] && candidate[1] === old[1];
  return {
    ...project,
    wires: project.wires.map((wire) =>
      wire.number === number
        ? { ...wire, ends: [isOld(wire.ends[0]) ? next : wire.ends[0], isOld(wire.ends[1]) ? next : wire.ends[1]] }
        : wire,
    ),
  };
}

function changed(project: Project, designation: string, parameters: Part["parameters"]): Project {
  const part = partOf(project, designation);
  const other = { ...part, parameters: { ...part.parameters, ...parameters } };
  return { ...project, parts: project.parts.map((candidate) => (candidate === part ? other : candidate)) };
}

const numberAt = (project: Project, terminal: string): string => {
  const [designation = "", id] = terminal.split(":");
  const part = partOf(project, designation).id;
  const wire = project.wires.find(({ ends }) => ends.some((end) => end?.[0] === part && end[1] === id));
  if (wire === undefined) throw new Error(`no wire at ${terminal}`);
  return wire.number;
};

/** With one end of a wire on nothing. */
const loosened = (project: Project, number: string, end: 0 | 1): Project => ({
  ...project,
  wires: project.wires.map((wire) =>
    wire.number === number ? { ...wire, ends: end === 0 ? [null, wire.ends[1]] : [wire.ends[0], null] } : wire,
  ),
});

/** With these wires of another size. */
const sized = (project: Project, size: string, ...numbers: readonly string[]): Project => ({
  ...project,
  wires: project.wires.map((wire) => (numbers.includes(wire.number) ? { ...wire, size } : wire)),
});

const joined = (project: Project, from: string, to: string): Project => {
  const [a, b] = [from, to].map((text): WireEnd => {
    const [designation = "", terminal = ""] = text.split(":");
    return [partOf(project, designation).id, terminal];
  });
  if (a === undefined || b === undefined) throw new Error(`no ${from} or ${to}`);
  return bridge(project, a, b);
};

const pickup = sound("farm-pickup-96v");
const tug = sound("yard-tug-48v");

const CLASSICS: readonly (readonly [name: string, wrong: Project, finding: string])[] = [
  [
    "12 V logic fed from the pack",
    moved(pickup, numberAt(pickup, "T1:logic+"), "X6:2", "F2:2"),
    "DANGER logic-overvoltage T1:logic+",
  ],
  [
    "a charger for a pack of another size",
    changed(pickup, "T3", { outputVoltageMax: "147 V" }),
    "DANGER charger-mismatch T3",
  ],
  [
    "a 12 V coil on 48 V",
    changed(tug, "K2", { coilMin: "9 V", coilMax: "16 V" }),
    "WARNING coil-voltage-wrong K2:coil+",
  ],
  [
    "a throttle of twice the resistance",
    changed(tug, "B1", { resistanceFull: "10 kohm" }),
    "WARNING throttle-mismatch T1:throttle-2",
  ],
  ["a wire of the main circuit left loose", loosened(tug, "W5", 1), "WARNING wire-loose-end wire W5"],
  ["a wire of the pack's minus left loose", loosened(tug, "W6", 1), "WARNING wire-loose-end wire W6"],
  [
    "the pack's minus joined to that of the 12 V battery",
    joined(pickup, "T1:B-", "G20:-"),
    "DANGER traction-on-chassis wire W84",
  ],
  ["three main cables too thin", sized(pickup, "16 mm2", "W9", "W10", "W12"), "WARNING conductor-overloaded wire W9"],
];

it.each(CLASSICS)("%s", (_name, wrong, finding) => {
  const names = new Names(wrong);
  const { findings } = runChecks(analyse(wrong));
  const told = findings
    .filter(({ severity }) => severity !== "NOTICE")
    .map(({ severity, check, failure }) => {
      const first = failure.where[0];
      return `${severity} ${check.id} ${first === undefined ? "" : names.place(first)}`;
    });
  expect(told).toEqual([finding]);
});
