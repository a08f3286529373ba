/** Every field that somebody stated in a project, and the project without it. */
import type { Project, TitleBlock, Wire } from "../../core/project/document.ts";

export interface StatedField {
  /** "G1 capacity", "W12 length". */
  readonly name: string;
  /** Alike fields of alike things: "battery-block capacity", "wire length". */
  readonly sort: string;
  without(): Project;
}

/** A copy without one key. */
function omit<T extends object>(value: T, key: string): T {
  return Object.fromEntries(Object.entries(value).filter(([name]) => name !== key)) as T;
}

const replaced = <T>(list: readonly T[], index: number, value: T): readonly T[] => list.with(index, value);

const WIRE_FIELDS: readonly (keyof Wire)[] = [
  "size",
  "length",
  "colour",
  "insulation",
  "sheath",
  "lugs",
  "boots",
  "torque",
  "zones",
  "conduit",
  "grommets",
];

function partFields(project: Project): readonly StatedField[] {
  return project.parts.flatMap((part, index) => {
    const { designation, kind, parameters } = part;
    const fields = ["zone", "enclosure", "panel", "face", "covers"].filter((field) => Object.hasOwn(part, field));
    return [
      ...Object.keys(parameters).map((field) => ({
        name: `${designation} ${field}`,
        sort: `${kind} ${field}`,
        without: () => ({
          ...project,
          parts: replaced(project.parts, index, { ...part, parameters: omit(parameters, field) }),
        }),
      })),
      ...fields.map((field) => ({
        name: `${designation} ${field}`,
        sort: `${kind} ${field}`,
        without: () => ({ ...project, parts: replaced(project.parts, index, omit(part, field)) }),
      })),
    ];
  });
}

function wireFields(project: Project): readonly StatedField[] {
  return project.wires.flatMap((wire, index) => {
    const changed = (changedWire: Wire): Project => ({
      ...project,
      wires: replaced(project.wires, index, changedWire),
    });
    const { insulation } = wire;
    const whole = WIRE_FIELDS.filter((field) => Object.hasOwn(wire, field)).map((field) => ({
      name: `${wire.number} ${field}`,
      sort: `wire ${field}`,
      without: () => changed(omit(wire, field)),
    }));
    const inner = Object.keys(insulation ?? {}).map((field) => ({
      name: `${wire.number} insulation ${field}`,
      sort: `wire insulation ${field}`,
      without: () => changed({ ...wire, insulation: omit(insulation ?? {}, field) }),
    }));
    return [...whole, ...inner];
  });
}

export function statedFields(project: Project): readonly StatedField[] {
  const zones = project.zones.flatMap((zone, index) =>
    Object.hasOwn(zone, "ambient")
      ? [
          {
            name: `zone ${zone.name ?? zone.id} ambient`,
            sort: "zone ambient",
            without: () => ({ ...project, zones: replaced(project.zones, index, omit(zone, "ambient")) }),
          },
        ]
      : [],
  );
  const enclosures = project.enclosures.flatMap((enclosure, index) =>
    ["zone", "toolClosed", "conductive", "voltageSign"]
      .filter((field) => Object.hasOwn(enclosure, field))
      .map((field) => ({
        name: `${enclosure.name} ${field}`,
        sort: `enclosure ${field}`,
        without: () => ({ ...project, enclosures: replaced(project.enclosures, index, omit(enclosure, field)) }),
      })),
  );
  const title = Object.keys(project.title).map((field) => ({
    name: `title ${field}`,
    sort: `title ${field}`,
    without: () => ({ ...project, title: omit<TitleBlock>(project.title, field) }),
  }));
  const shared =
    project.sharedNegative === undefined
      ? []
      : [{ name: "sharedNegative", sort: "sharedNegative", without: () => omit(project, "sharedNegative") }];
  return [...partFields(project), ...wireFields(project), ...zones, ...enclosures, ...title, ...shared];
}
