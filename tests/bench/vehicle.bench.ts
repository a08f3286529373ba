/** The whole job on a vehicle of 300 parts and 600 wires: solve and check every state; one sheet as SVG. */
import { analyse } from "../../core/circuit/analyse.ts";
import { tractionWires } from "../../core/circuit/questions.ts";
import { runChecks } from "../../core/checks/run.ts";
import { drawSheet } from "../../core/drawing/sheet.ts";
import { toSvg } from "../../core/drawing/svg.ts";
import { placeParts } from "../../core/layout/place.ts";
import { patchesBetween } from "../../core/project/difference.ts";
import type { Part, Project, Wire } from "../../core/project/document.ts";
import { AnalysisEngine } from "../../renderer/window/analysis/engine.ts";
import type { FromWorker } from "../../renderer/window/analysis/protocol.ts";
import { largeVehicle } from "../harness/large-vehicle.ts";
import { median, timed, type Row } from "./row.ts";

const DOCUMENTS = 30;
const AGAIN = 6;

/** What somebody does again and again while drawing. */
const EDITS: readonly {
  readonly what: string;
  readonly below: number;
  readonly edit: (project: Project) => Project;
}[] = [
  {
    what: "after a wire of the main circuit was measured anew",
    below: 30,
    edit: (project) => withWire(project, (wire, index) => (index === 0 ? [{ ...wire, length: "0.6 m" }] : [wire])),
  },
  {
    what: "after the wire of a lamp was measured anew",
    below: 30,
    edit: (project) => withWire(project, (wire, index) => (index === 400 ? [{ ...wire, length: "0.6 m" }] : [wire])),
  },
  {
    what: "after a wire was taken out",
    below: 100,
    edit: (project) => withWire(project, (wire, index) => (index === 400 ? [] : [wire])),
  },
  {
    what: "after a symbol was moved",
    below: 30,
    edit: (project) =>
      withPart(project, (part) => ({ ...part, views: part.views.map((view) => ({ ...view, x: view.x + 2.5 })) })),
  },
  {
    what: "after a part was renamed",
    below: 30,
    edit: (project) => withPart(project, (part) => ({ ...part, designation: `${part.designation}9` })),
  },
  {
    what: "after a rating was stated",
    below: 30,
    edit: (project) =>
      withPart(project, (part) => ({ ...part, parameters: { ...part.parameters, interrupting: "20 kA" } })),
  },
];

function withWire(project: Project, edit: (wire: Wire, index: number) => readonly Wire[]): Project {
  return { ...project, wires: project.wires.flatMap(edit) };
}

/** Its main fuse, F1. */
function withPart(project: Project, edit: (part: Part) => Part): Project {
  return { ...project, parts: project.parts.map((part) => (part.designation === "F1" ? edit(part) : part)) };
}

/** The worker of the window, with what it has told so far and when. */
class Worker {
  readonly told: { readonly message: FromWorker; readonly at: number }[] = [];
  readonly #engine: AnalysisEngine;
  #revision = 0;
  #project: Project;

  constructor(project: Project) {
    this.#project = project;
    this.#engine = new AnalysisEngine(
      (message) => this.told.push({ message, at: performance.now() }),
      () => Promise.resolve(),
    );
  }

  async open(): Promise<void> {
    await this.#engine.hear({ say: "open", revision: (this.#revision = 1), project: this.#project });
  }

  /** Milliseconds until the first finding that is another than before, if one is, and until all have been told. */
  async edit(
    edit: (project: Project) => Project,
  ): Promise<{ readonly first: number | undefined; readonly all: number }> {
    const before = findingsIn(this.told.at(-1)?.message);
    this.told.length = 0;
    const after = edit(this.#project);
    const patches = patchesBetween(this.#project, after);
    this.#project = after;
    const start = performance.now();
    const from = this.#revision;
    this.#revision += 1;
    await this.#engine.hear({ say: "edit", from, revision: this.#revision, patches });
    const changed = this.told.find(({ message }) => message.say === "checked" && findingsIn(message) !== before);
    return { first: changed && changed.at - start, all: performance.now() - start };
  }
}

const findingsIn = (message: FromWorker | undefined): string =>
  message?.say === "checked" ? JSON.stringify(message.view.document.findings) : "";

async function again(documents: readonly Project[]): Promise<Row[]> {
  const times = EDITS.map(() => ({ all: [] as number[], first: [] as number[], undone: [] as number[] }));
  for (const project of documents.slice(0, AGAIN)) {
    const worker = new Worker(project);
    await worker.open();
    for (const [index, { edit }] of EDITS.entries()) {
      const { all, first, undone } = times[index]!;
      const edited = await worker.edit(edit);
      all.push(edited.all);
      if (edited.first !== undefined) first.push(edited.first);
      undone.push((await worker.edit(() => project)).all);
    }
  }
  return EDITS.flatMap(({ what, below }, index) => {
    const { all, first, undone } = times[index]!;
    return [
      timed(`everything checked again ${what}`, median(all), below),
      ...(first.length === 0 ? [] : [timed("  until the first finding that changed is told", median(first))]),
      timed("  and once more when that is undone", median(undone)),
    ];
  });
}

export async function rows(): Promise<Row[]> {
  const solving: number[] = [];
  const checking: number[] = [];
  const documents = Array.from({ length: DOCUMENTS }, (_, seed) => largeVehicle(68, seed));
  for (const project of documents) {
    const start = performance.now();
    const analysis = analyse(project);
    const solved = performance.now();
    runChecks(analysis);
    solving.push(solved - start);
    checking.push(performance.now() - start);
  }
  const [project] = documents;
  if (project === undefined) return [];
  const size = `${project.parts.length} parts, ${project.wires.length} wires`;
  const placed = placeParts({ ...project, parts: project.parts.map((part) => ({ ...part, views: [] })) });
  const onSheets = documents.map(({ parts }) => ({
    ...placed,
    parts: parts.map((part, index) => ({ ...part, views: placed.parts[index]?.views ?? [] })),
  }));
  const traction = tractionWires(analyse(placed));
  const drawing = placed.sheets.map(({ id }) => {
    const start = performance.now();
    toSvg(drawSheet(placed, id, { traction: (wire) => traction.has(wire) }));
    return performance.now() - start;
  });
  const transitions = documents.slice(0, AGAIN).map((document) => {
    const analysis = analyse(document);
    const start = performance.now();
    for (const name of analysis.transitionNames) analysis.transition(name);
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
    timed(`all transitions in time, ${size}`, median(transitions), 250),
    timed(`solve every state, ${size}`, median(solving)),
    timed(`solve and check everything, ${size}`, median(checking), 300),
    ...(await again(onSheets)),
    timed(`SVG of a sheet, median of its ${placed.sheets.length}`, median(drawing)),
  ];
}
