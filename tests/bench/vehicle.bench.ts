/** The whole job on a vehicle of 300 parts and 600 wires: solve and check every state; one sheet as SVG. */
import { analyse } from "../../core/circuit/analyse.ts";
import { tractionWires } from "../../core/circuit/questions.ts";
import { runChecks } from "../../core/checks/run.ts";
import { drawSheet } from "../../core/drawing/sheet.ts";
import { toSvg } from "../../core/drawing/svg.ts";
import { placeParts } from "../../core/layout/place.ts";
import type { Project } from "../../core/project/document.ts";
import { largeVehicle } from "../harness/large-vehicle.ts";
import { median, timed, type Row } from "./row.ts";

const DOCUMENTS = 30;

/** One wire is measured anew: what somebody does again and again while drawing. */
function lengthened(project: Project): Project {
  const [first, ...rest] = project.wires;
  return first === undefined ? project : { ...project, wires: [{ ...first, length: "0.6 m" }, ...rest] };
}

export function rows(): Row[] {
  const solving: number[] = [];
  const checking: number[] = [];
  const again: number[] = [];
  const documents = Array.from({ length: DOCUMENTS }, (_, seed) => largeVehicle(68, seed));
  for (const project of documents) {
    const start = performance.now();
    const analysis = analyse(project);
    const solved = performance.now();
    runChecks(analysis);
    solving.push(solved - start);
    checking.push(performance.now() - start);
    const edited = lengthened(project);
    const edit = performance.now();
    runChecks(analyse(edited));
    again.push(performance.now() - edit);
  }
  const [project] = documents;
  if (project === undefined) return [];
  const size = `${project.parts.length} parts, ${project.wires.length} wires`;
  const placed = placeParts({ ...project, parts: project.parts.map((part) => ({ ...part, views: [] })) });
  const traction = tractionWires(analyse(placed));
  const drawing = placed.sheets.map(({ id }) => {
    const start = performance.now();
    toSvg(drawSheet(placed, id, { traction: (wire) => traction.has(wire) }));
    return performance.now() - start;
  });
  const inTime = analyse(project);
  const slowest = inTime.transitionNames
    .map((name) => {
      const start = performance.now();
      const end = inTime.transition(name)?.times.at(-1) ?? 0;
      return { name, end, took: performance.now() - start };
    })
    .reduce((most, each) => (each.took > most.took ? each : most));
  return [
    timed(`the slowest transition in time (${slowest.name}, ${slowest.end.toFixed(1)} s of it)`, slowest.took, 1000),
    timed(`solve every state, ${size}`, median(solving)),
    timed(`solve and check everything, ${size}`, median(checking), 100),
    timed("solve and check everything again after an edit", median(again)),
    timed(`SVG of a sheet, median of its ${placed.sheets.length}`, median(drawing)),
  ];
}
