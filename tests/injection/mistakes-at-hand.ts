/** Mistakes of the hand and on paper: wires left off, lugs, boots, bonds, signs, numbers, titles. */
import { figure, known, ofKind, wiresAt, withoutWire, withParameters, withPart, withWire } from "./edit.ts";
import type { Mistake, Site } from "./edit.ts";
import { above60 } from "./mistakes-power.ts";
import type { Project } from "../../core/project/document.ts";

const CONTROLLERS = ["dc-controller", "ac-controller"];

export const MISTAKES_AT_HAND: readonly Mistake[] = [
  {
    id: "loose wire",
    what: "one end of a wire on nothing",
    expects: ["wire-loose-end"],
    sites: (project) =>
      project.wires.map(({ id }) => ({
        make: () => withWire(project, id, (wire) => ({ ...wire, ends: [wire.ends[0], null] })),
      })),
  },
  {
    id: "needed terminal empty",
    what: "the only wire of a needed terminal left off",
    expects: ["terminal-unconnected"],
    sites: (project) =>
      known(project).flatMap(({ part, terminals }) =>
        terminals
          .filter(({ required }) => required)
          .flatMap(({ id }): Site[] => {
            const [only, second] = wiresAt(project, part.id, id);
            return only === undefined || second !== undefined ? [] : [{ make: () => withoutWire(project, only.id) }];
          }),
      ),
  },
  {
    id: "two parts of one name",
    what: "a part called like another",
    expects: ["designation-duplicate"],
    sites: (project) =>
      project.parts.slice(1, 20).map(({ id }) => ({
        make: () => withPart(project, id, (part) => ({ ...part, designation: project.parts[0]?.designation ?? "" })),
      })),
  },
  {
    id: "lug of another hole",
    what: "an M5 lug on an M8 stud",
    expects: ["lug-misfit"],
    sites: (project) =>
      project.wires
        .filter(({ lugs }) => lugs?.[0] === "M8")
        .map(({ id }) => ({
          make: () => withWire(project, id, (wire) => ({ ...wire, lugs: ["M5", wire.lugs?.[1] ?? null] })),
        })),
  },
  {
    id: "case not bonded",
    what: "the wire from a metal case to the chassis left off",
    expects: ["enclosure-unbonded"],
    sites: (project) =>
      above60(project)
        ? ofKind(project, ...CONTROLLERS, "charger", "motor-series", "motor-ac").flatMap(({ id }): Site[] =>
            wiresAt(project, id, "case").map((wire) => ({ make: () => withoutWire(project, wire.id) })),
          )
        : [],
  },
  {
    id: "bare live stud",
    what: "boots off a controller's B+ outside a box",
    expects: ["exposed-live"],
    sites: (project) =>
      above60(project)
        ? ofKind(project, ...CONTROLLERS)
            .filter(({ enclosure }) => enclosure === undefined)
            .map(({ id }) => ({ make: () => bare(project, id, "B+") }))
        : [],
  },
  {
    id: "no voltage sign",
    what: "a box of the traction circuit without its sign",
    expects: ["warning-mark-missing"],
    sites: (project) =>
      above60(project)
        ? project.enclosures
            .filter(({ voltageSign }) => voltageSign === true)
            .map(({ id }) => ({
              make: () => ({
                ...project,
                enclosures: project.enclosures.map((box) => (box.id === id ? { ...box, voltageSign: false } : box)),
              }),
            }))
        : [],
  },
  {
    id: "wire too thin to last",
    what: "a single wire of 0.5 mm2",
    expects: ["conductor-fragile"],
    sites: (project) =>
      project.wires
        .filter(({ sheath, length }) => sheath !== true && figure(length) > 0.3)
        .map(({ id }) => ({ make: () => withWire(project, id, (wire) => ({ ...wire, size: "0.5 mm2" })) })),
  },
  {
    id: "wire too short",
    what: "one centimetre where the panel asks for more",
    expects: ["wire-short"],
    sites: (project) =>
      project.wires
        .filter(({ length, ends }) => figure(length) > 0.3 && sameBox(project, ends))
        .map(({ id }) => ({ make: () => withWire(project, id, (wire) => ({ ...wire, length: "0.01 m" })) })),
  },
  {
    id: "wire without a number",
    what: "a number left out",
    expects: ["wire-unnumbered"],
    sites: (project) =>
      project.wires.map(({ id }) => ({
        make: () => withWire(project, id, (wire) => ({ ...wire, number: "" })),
      })),
  },
  {
    id: "title without author",
    what: "the author left out",
    expects: ["title-incomplete"],
    sites: (project) => [
      {
        make: () => {
          const { author: _, ...title } = project.title;
          return { ...project, title };
        },
      },
    ],
  },
  {
    id: "part on no sheet",
    what: "a view taken off the sheet",
    expects: ["view-unplaced"],
    sites: (project) =>
      project.parts
        .filter(({ views }) => views.length > 0)
        .map(({ id }) => ({
          make: () => withPart(project, id, (part) => ({ ...part, views: part.views.slice(1) })),
        })),
  },
];

function sameBox(project: Project, ends: Project["wires"][number]["ends"]): boolean {
  const [a, b] = ends.map((end) => project.parts.find(({ id }) => id === end?.[0]));
  return a?.enclosure !== undefined && a.enclosure === b?.enclosure && a.panel !== undefined && b?.panel !== undefined;
}

/** A terminal and the lugs on it without boots. */
function bare(project: Project, part: string, terminal: string): Project {
  let made = withParameters(project, part, { finish: "bare" });
  for (const { id } of wiresAt(project, part, terminal)) {
    made = withWire(made, id, (wire) => ({
      ...wire,
      boots: wire.ends.map((end, index) => (end?.[0] === part ? false : (wire.boots?.[index] ?? true))) as [
        boolean,
        boolean,
      ],
    }));
  }
  return made;
}
