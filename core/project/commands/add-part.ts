import { castDraft } from "immer";
import { nextDesignation } from "../designation.ts";
import type { Part, ViewPlacement } from "../document.ts";
import { knownPart } from "../lookup.ts";
import { choiceOf } from "../nearest.ts";
import { normaliseParameters } from "../normalise.ts";
import { DESIGNATION } from "../schema.ts";
import { defineCommand, newId, Refused } from "./define.ts";
import { requirePlacement } from "./move-view.ts";
import { requireReference } from "./references.ts";

export interface AddPart {
  readonly kind: string;
  /** Left out: the next free one of the kind's letter. */
  readonly designation?: string;
  readonly parameters?: Part["parameters"];
  readonly views?: readonly ViewPlacement[];
  readonly zone?: string;
  readonly enclosure?: string;
  readonly panel?: Part["panel"];
}

/** Puts a new part on the drawing. Gives its id. */
export const addPart = defineCommand<AddPart, string>({
  id: "add-part",
  label: (given) => `Add ${given.designation ?? given.kind}`,
  change(draft, given, { before, kinds }) {
    const kind = kinds.get(given.kind);
    if (kind === undefined) {
      throw new Refused(`There is no kind of part called "${given.kind}". ${choiceOf(given.kind, kinds.keys())}`);
    }
    const designation = given.designation ?? nextDesignation(before, kind.letter);
    if (!DESIGNATION.test(designation)) {
      throw new Refused(`"${designation}" is no designation. Write letters and a number, such as F1 or Q12a.`);
    }
    requireReference(before, "z", given.zone);
    requireReference(before, "e", given.enclosure);
    const typed: Part = {
      id: newId(draft, "p"),
      designation,
      kind: given.kind,
      parameters: given.parameters ?? {},
      views: [],
      ...(given.zone === undefined ? {} : { zone: given.zone }),
      ...(given.enclosure === undefined ? {} : { enclosure: given.enclosure }),
      ...(given.panel === undefined ? {} : { panel: given.panel }),
    };
    const terminals = knownPart(typed, kinds)?.terminalIds ?? new Set<string>();
    const parameters = normaliseParameters(kind, typed.parameters, terminals, (field, why) => {
      throw new Refused(`${designation}, ${field}: ${why}`);
    });
    const part: Part = { ...typed, parameters, views: given.views ?? [] };
    for (const placement of part.views) requirePlacement(before, part, placement, kinds);
    if (new Set(part.views.map(({ view }) => view)).size < part.views.length) {
      throw new Refused(`${designation}: one of its views is placed twice. Place each only once.`);
    }
    draft.parts.push(castDraft(part));
    return part.id;
  },
});
