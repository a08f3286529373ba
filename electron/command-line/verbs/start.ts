/** start ANSWERS.json --out FILE: a few answers become a complete drawing. */
import { writeProject } from "../../../core/project/write.ts";
import { readAnswers } from "../../../core/starter/answers.ts";
import { startDrawing } from "../../../core/starter/start.ts";
import { readText, sameFile, writeWhole } from "../files.ts";
import { Refusal } from "../refusal.ts";
import type { Verb } from "../verb.ts";

export const start: Verb = {
  name: "start",
  does: "a few answers (JSON) to a complete starter drawing",
  accepts: { files: ["ANSWERS.json"], options: { out: "FILE" }, needed: ["out"] },
  run(given) {
    const [name = ""] = given.files;
    const out = given.needed("out");
    if (sameFile(name, out)) throw new Refusal(`${out}: it holds the answers. Name another file after --out.`);
    const read = readAnswers(readText(name));
    if (!read.ok) {
      const count = read.problems.length === 1 ? "1 answer" : `${read.problems.length} answers`;
      throw new Refusal(
        `Nothing was drawn: ${count} in ${name} to mend.`,
        read.problems.map((problem) => `${name}: ${problem}`),
      );
    }
    const project = startDrawing(read.answers);
    writeWhole(out, writeProject(project));
    const { parts, wires, sheets } = project;
    return {
      text: `${out}: ${parts.length} parts and ${wires.length} wires on ${sheets.length} sheets. Check it, then put the data of your own parts in place of the usual ones.`,
      exit: 0,
    };
  },
};
