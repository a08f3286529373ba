/** Stands in for the harness of the table tests while the pictures are drawn: keeps each table instead of testing it. */
import type { Check } from "../../core/checks/define.ts";
import type { CheckTable } from "../harness/check-table.ts";

/** By the check's id. */
export const tables = new Map<string, { readonly check: Check; readonly table: CheckTable }>();

export function checkTable(check: Check, table: CheckTable): void {
  tables.set(check.id, { check, table });
}
