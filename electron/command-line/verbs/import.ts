/** import WIRES.csv --parts PARTS.csv --out FILE: a wire list becomes a drawing, laid out. */
import { importWireList } from "../../../core/exchange/import-wire-list.ts";
import { writeProject } from "../../../core/project/write.ts";
import { readText, sameFile, writeWhole } from "../files.ts";
import { Refusal } from "../refusal.ts";
import type { Verb } from "../verb.ts";

export const importList: Verb = {
  name: "import",
  does: "a wire list (CSV) to a drawing, laid out",
  accepts: { files: ["WIRES.csv"], options: { parts: "PARTS.csv", out: "FILE" }, needed: ["parts", "out"] },
  run(given) {
    const [wires = ""] = given.files;
    const parts = given.needed("parts");
    const out = given.needed("out");
    for (const input of [wires, parts]) {
      if (sameFile(input, out)) throw new Refusal(`${out}: it is the wire list itself. Name another file after --out.`);
    }
    const list = importWireList(readText(wires), readText(parts));
    if (!list.ok) {
      const name = { wires, parts };
      const lines = list.problems.map(({ file, line, text }) => `${name[file]}, line ${line}: ${text}`);
      const count = lines.length === 1 ? "1 place" : `${lines.length} places`;
      throw new Refusal(`Nothing was imported: ${count} in the wire list to mend.`, lines);
    }
    writeWhole(out, writeProject(list.project));
    return { text: `${out}: ${list.summary}`, exit: 0 };
  },
};
