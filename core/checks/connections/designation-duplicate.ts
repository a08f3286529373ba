/** Two parts of one designation, two wires of one number. */
import { KINDS, kindOf } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { rename } from "../../project/commands/rename.ts";
import { compareNatural, nextDesignation, nextWireNumber } from "../../project/designation.ts";
import type { Part, Project, Wire } from "../../project/document.ts";
import type { Place, Remedy } from "../define.ts";
import { defineCheck } from "../define.ts";

/** Groups of one name, the oldest first: it keeps its name. */
function grouped<T extends { readonly id: string }>(
  items: readonly T[],
  name: (item: T) => string,
): readonly (readonly T[])[] {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(name(item));
    if (group === undefined) groups.set(name(item), [item]);
    else group.push(item);
  }
  return [...groups.values()].map((group) =>
    group.length === 1 ? group : group.sort((a, b) => compareNatural(a.id, b.id)),
  );
}

/** The first keeps its name; each of the others gets the next free one. */
function renameOthers(
  what: "part" | "wire",
  others: readonly { readonly id: string }[],
  next: (project: Project, id: string) => string,
): Remedy {
  return {
    id: "rename-others",
    label: "Give all but the first the next free name",
    apply: (project) =>
      others.reduce(
        (done, { id }) => execute(done, rename, { what, id, name: next(done, id) }, KINDS).project,
        project,
      ),
  };
}

const nextForPart = (project: Project, id: string): string => {
  const part = project.parts.find((each) => each.id === id);
  return nextDesignation(project, kindOf(part?.kind ?? "")?.letter ?? "X");
};

export const designationDuplicate = defineCheck({
  id: "designation-duplicate",
  group: "connections",
  title: "Name given twice",
  about:
    "Looks for parts that share a designation and wires that share a number. Wires without a number are the business of the check for unnumbered wires.",
  severities: ["CAUTION"],
  source: { text: "IEC 81346-1: a designation names one object unambiguously", known: "memory" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "Names are always in the document." },
  messages: {
    parts: {
      title: "{count} parts are called {name}.",
      why: "Labels, wire lists and fault-finding go by this name: a builder will wire the wrong one.",
      mend: "Give every part a designation of its own.",
    },
    wires: {
      title: "{count} wires have the number {name}.",
      why: "The number on the sleeve is how a wire is found again; with two alike the wrong one gets cut or moved.",
      mend: "Give every wire a number of its own.",
    },
  },
  reasons: {},
  run({ network: { project } }, report) {
    const tell = (
      message: "parts" | "wires",
      group: readonly { readonly id: string }[],
      name: string,
      place: (id: string) => Place,
      remedy: () => Remedy,
    ): void => {
      const places = group.map(({ id }) => place(id));
      if (places.length < 2) report.passes(...places);
      else {
        report.fails({
          message,
          facts: { count: String(places.length), name },
          severity: "CAUTION",
          where: places,
          remedies: [remedy()],
        });
      }
    };
    for (const group of grouped(project.parts, (part: Part) => part.designation)) {
      const [first, ...others] = group;
      if (first === undefined) continue;
      tell(
        "parts",
        group,
        first.designation,
        (part) => ({ part }),
        () => renameOthers("part", others, nextForPart),
      );
    }
    const numbered = project.wires.filter(({ number }) => number !== "");
    for (const group of grouped(numbered, (wire: Wire) => wire.number)) {
      const [first, ...others] = group;
      if (first === undefined) continue;
      tell(
        "wires",
        group,
        first.number,
        (wire) => ({ wire }),
        () => renameOthers("wire", others, nextWireNumber),
      );
    }
  },
});
