/** What a title block must say so that a sheet can be told from its earlier versions, and somebody answers for it. */
import type { TitleBlock } from "../../project/document.ts";
import { TITLE_BLOCK_SOURCE } from "../../standards/title-block.ts";
import { defineCheck } from "../define.ts";

const NEEDED = ["vehicle", "author", "date", "revision"] as const satisfies readonly (keyof TitleBlock)[];

export const titleIncomplete = defineCheck({
  id: "title-incomplete",
  group: "drawing",
  title: "Title block not filled in",
  about:
    "Looks whether the title block names the vehicle, the author, the date and the revision. Whether what it says is true it cannot tell.",
  severities: ["NOTICE"],
  source: {
    text: `${TITLE_BLOCK_SOURCE.text}, creator and date of issue; vehicle and revision: common practice`,
    known: TITLE_BLOCK_SOURCE.known,
  },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "The title block is always in the document." },
  messages: {
    lacks: {
      title: "The title block does not say: {fields}.",
      why: "Two prints of different age look alike in a folder, and nobody knows which one the vehicle was built from or whom to ask.",
      mend: "Fill in {fields} in the title block.",
    },
  },
  reasons: {},
  run({ network: { project } }, report) {
    const [sheet] = project.sheets;
    if (sheet === undefined || (project.parts.length === 0 && project.wires.length === 0)) {
      report.doesNotApply(...project.sheets.map(({ id }) => ({ sheet: id })));
      return;
    }
    const place = { sheet: sheet.id };
    const lacking = NEEDED.filter((field) => (project.title[field] ?? "").trim() === "");
    if (lacking.length === 0) report.passes(place);
    else {
      report.fails({
        message: "lacks",
        facts: { fields: lacking.join(", ") },
        severity: "NOTICE",
        where: [place],
      });
    }
  },
});
