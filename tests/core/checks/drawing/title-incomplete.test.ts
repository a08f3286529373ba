/** ISO 7200 wants the creator and the date of issue in every title block; vehicle and revision are common practice. */
import { titleIncomplete } from "../../../../core/checks/drawing/title-incomplete.ts";
import type { TitleBlock } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const FULL: TitleBlock = { vehicle: "Hay cart", author: "A. Fitter", date: "2026-11-25", revision: "B" };

const titled = (title: TitleBlock) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" })
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wire("G20:+", "P1:+", { size: "1 mm2", length: "1 m" })
    .wire("P1:-", "G20:-", { size: "1 mm2", length: "1 m" })
    .title(title)
    .build();

const without = (...fields: readonly (keyof TitleBlock)[]): TitleBlock =>
  Object.fromEntries(Object.entries(FULL).filter(([name]) => !fields.includes(name as keyof TitleBlock)));

checkTable(titleIncomplete, {
  fails: [
    {
      name: "no author",
      drawing: titled(without("author")),
      at: "sheet Sheet 1",
      message: "lacks",
      severity: "NOTICE",
    },
    { name: "nothing at all", drawing: titled({}), at: "sheet Sheet 1", message: "lacks", severity: "NOTICE" },
    {
      name: "a revision of blanks alone",
      drawing: titled({ ...FULL, revision: "  " }),
      at: "sheet Sheet 1",
      message: "lacks",
      severity: "NOTICE",
    },
    {
      name: "neither vehicle nor date",
      drawing: titled(without("vehicle", "date")),
      at: "sheet Sheet 1",
      message: "lacks",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "the four that are needed", drawing: titled(FULL), at: "sheet Sheet 1" },
    { name: "first issue", drawing: titled({ ...FULL, revision: "A" }), at: "sheet Sheet 1" },
    { name: "more than is needed", drawing: titled({ ...FULL, owner: "Village workshop" }), at: "sheet Sheet 1" },
  ],
  doesNotApply: [{ name: "an empty drawing", drawing: drawing().title({}).build() }],
});
