import type { Part } from "../document.ts";
import { knownPart } from "../lookup.ts";
import { normaliseParameters } from "../normalise.ts";
import { defineCommand, entryAt, indexOf, Refused } from "./define.ts";
import { settlePart } from "./terminals.ts";

export interface SetParameter {
  readonly changes: readonly {
    readonly part: string;
    readonly name: string;
    /** As typed; null = known to be unknown; undefined = back to the kind's default. */
    readonly value: string | null | undefined;
  }[];
}

/** States parameters of parts. Where that takes terminals away, wires on them become loose. */
export const setParameter = defineCommand<SetParameter>({
  id: "set-parameter",
  label: ({ changes }, before) => {
    const [first] = changes;
    const name = before.parts.find(({ id }) => id === first?.part)?.designation ?? "";
    return changes.length === 1 ? `Set ${first?.name ?? ""} of ${name}` : `Set ${changes.length} parameters`;
  },
  change(draft, { changes }, { before, kinds }) {
    const wanted = new Map<string, Record<string, string | null>>();
    for (const { part: id, name, value } of changes) {
      const old = entryAt(before.parts, indexOf(before, "p", id));
      const parameters = wanted.get(id) ?? { ...old.parameters };
      if (value === undefined) delete parameters[name];
      else parameters[name] = value;
      wanted.set(id, parameters);
    }
    for (const [id, typed] of wanted) {
      const index = indexOf(before, "p", id);
      const old = entryAt(before.parts, index);
      const trial: Part = { ...old, parameters: typed };
      const known = knownPart(trial, kinds);
      if (known === undefined) throw new Refused(`${old.designation} is of a kind that is not known here.`);
      const had = knownPart(old, kinds)?.terminalIds ?? new Set<string>();
      const parameters = normaliseParameters(
        known.kind,
        typed,
        // `finish-` of a terminal that goes with this very change is dropped below, not refused.
        new Set([...known.terminalIds, ...had]),
        (field, why) => {
          throw new Refused(`${old.designation}, ${field}: ${why}`);
        },
      );
      const target = entryAt(draft.parts, index).parameters;
      for (const name of new Set([...Object.keys(old.parameters), ...Object.keys(parameters)])) {
        const value = parameters[name];
        if (value === undefined) delete target[name];
        else if (value !== old.parameters[name]) target[name] = value;
      }
      settlePart(draft, before, { ...old, parameters }, index, kinds);
    }
  },
});
