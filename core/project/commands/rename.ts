import type { Draft } from "immer";
import type { Project } from "../document.ts";
import { DESIGNATION } from "../schema.ts";
import { defineCommand, entryAt, indexOf, Refused } from "./define.ts";

export interface Rename {
  readonly what: "part" | "wire" | "sheet" | "zone" | "enclosure" | "cable";
  readonly id: string;
  /** A part's designation, a wire's number, the name of anything else. */
  readonly name: string;
}

/** Gives a new name. Only readings refer to one, and follow; two equal names are a matter for the checks. */
export const rename = defineCommand<Rename>({
  id: "rename",
  label: ({ what, name }) => `Rename ${what} to ${name}`,
  change(draft, { what, id, name }, { before }) {
    switch (what) {
      case "part":
        if (!DESIGNATION.test(name)) {
          throw new Refused(`"${name}" is no designation. Write letters and a number, such as F1 or Q12a.`);
        }
        renamePlaces(draft, before, id, name);
        entryAt(draft.parts, indexOf(before, "p", id)).designation = name;
        return;
      case "wire":
        entryAt(draft.wires, indexOf(before, "w", id)).number = name;
        return;
      case "sheet":
        entryAt(draft.sheets, indexOf(before, "s", id)).name = name;
        return;
      case "zone":
        entryAt(draft.zones, indexOf(before, "z", id)).name = name;
        return;
      case "enclosure":
        entryAt(draft.enclosures, indexOf(before, "e", id)).name = name;
        return;
      case "cable":
        entryAt(draft.cables, indexOf(before, "c", id)).name = name;
        return;
    }
  },
});

/** Readings name their places as on the drawing. */
function renamePlaces(draft: Draft<Project>, before: Project, id: string, name: string): void {
  const old = before.parts.find((part) => part.id === id)?.designation;
  if (old === undefined || before.parts.filter(({ designation }) => designation === old).length > 1) return;
  const moved = (place: string): string => (place.startsWith(`${old}:`) ? `${name}${place.slice(old.length)}` : place);
  before.readings.forEach(({ plus, minus }, index) => {
    if (moved(plus) === plus && moved(minus) === minus) return;
    const reading = entryAt(draft.readings, index);
    reading.plus = moved(plus);
    reading.minus = moved(minus);
  });
}
