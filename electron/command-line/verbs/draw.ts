/** draw FILE --out DIR: one picture a sheet. */
import * as path from "node:path";
import { analyse } from "../../../core/circuit/analyse.ts";
import { tractionWires } from "../../../core/circuit/questions.ts";
import { sheetFileName } from "../../../core/drawing/sheet-file-name.ts";
import { drawSheet } from "../../../core/drawing/sheet.ts";
import { toSvg } from "../../../core/drawing/svg.ts";
import type { Project } from "../../../core/project/document.ts";
import { makeFolder, writeWhole } from "../files.ts";
import { openProject } from "../open-project.ts";
import { Refusal } from "../refusal.ts";
import { TYPEFACE } from "../typeface.ts";
import type { Verb } from "../verb.ts";

/** File name and content of each sheet. */
function drawSheets(project: Project): { readonly name: string; readonly text: string }[] {
  const traction = tractionWires(analyse(project));
  return project.sheets.map((sheet, index) => ({
    name: `${sheetFileName(index, sheet.name)}.svg`,
    text: toSvg(
      drawSheet(project, sheet.id, { traction: (wire) => traction.has(wire) }),
      TYPEFACE === undefined ? {} : { typeface: TYPEFACE },
    ),
  }));
}

export const draw: Verb = {
  name: "draw",
  does: "the sheets as SVG files",
  accepts: { files: ["FILE"], options: { out: "DIR" }, needed: ["out"], switches: ["svg"], notBuilt: ["pdf"] },
  run(given) {
    const [name = ""] = given.files;
    const out = given.needed("out");
    const project = openProject(name);
    if (project.sheets.length === 0) throw new Refusal(`${name}: it has no sheet to draw. Add one.`);
    const sheets = drawSheets(project);
    makeFolder(out);
    const written = sheets.map((sheet) => {
      const file = path.join(out, sheet.name);
      writeWhole(file, sheet.text);
      return file;
    });
    return { text: written.join("\n"), exit: 0 };
  },
};
