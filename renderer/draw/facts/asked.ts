/** Which fields the checks could not do without, counted: what the facts mark and the margin lists. */
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import type { MissingField } from "../../../core/checks/define.ts";
import { fieldKey } from "../../../core/documents/missing-groups.ts";

/** How many checks wait for a field. */
export type Asked = (field: MissingField) => number;

export function askedIn(checked: CheckDocument | null): Asked {
  const checks = new Map<string, Set<string>>();
  for (const { check, fields } of checked?.notChecked ?? []) {
    for (const field of fields) {
      const key = fieldKey(field);
      const known = checks.get(key);
      if (known === undefined) checks.set(key, new Set([check]));
      else known.add(check);
    }
  }
  return (field) => checks.get(fieldKey(field))?.size ?? 0;
}
