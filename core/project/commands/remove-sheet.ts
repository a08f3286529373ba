import { defineCommand, entryAt, indexOf } from "./define.ts";

/** Removes a sheet. What was placed on it stays in the drawing, unplaced. */
export const removeSheet = defineCommand<{ readonly sheet: string }>({
  id: "remove-sheet",
  label: ({ sheet }, before) => `Remove sheet ${before.sheets.find(({ id }) => id === sheet)?.name ?? ""}`,
  change(draft, { sheet }, { before }) {
    draft.sheets.splice(indexOf(before, "s", sheet), 1);
    before.parts.forEach((part, index) => {
      if (!part.views.some((placement) => placement.sheet === sheet)) return;
      const target = entryAt(draft.parts, index);
      target.views = target.views.filter((placement) => placement.sheet !== sheet);
    });
    before.wires.forEach((wire, index) => {
      if (wire.routes?.some((route) => route.sheet === sheet) !== true) return;
      const target = entryAt(draft.wires, index);
      target.routes = (target.routes ?? []).filter((route) => route.sheet !== sheet);
    });
  },
});
