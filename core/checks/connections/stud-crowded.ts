/** More lugs on one stud than it can clamp. */
import { LUGS_ON_STUD } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import { terminalPlace } from "../words/places.ts";

export const studCrowded = defineCheck({
  id: "stud-crowded",
  group: "connections",
  title: "Too many lugs on one stud",
  about:
    "Counts the wire ends on every bolted terminal. The order in which lugs are stacked (the largest next to the face) is not in the drawing and is not checked, nor whether the bolt is long enough.",
  severities: ["CAUTION"],
  source: { text: "Common marine practice: no more than four lugs on one stud (ABYC E-11)", known: "memory" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "The wires on a stud are always in the document." },
  messages: {
    crowded: {
      title: "{count} lugs sit on the stud {stud}; four are the most.",
      why: "In a tall stack the outer lugs are pressed by the bolt alone and not by the metal below: they work loose, get hot and can catch fire.",
      mend: "Move some of the wires to a busbar beside it and join that to the stud by one cable, largest lug next to the face.",
    },
  },
  reasons: {},
  run({ network }, report) {
    for (const part of network.parts) {
      for (const { id, form } of part.terminals) {
        const place = terminalPlace(part, id);
        const lugs = network
          .wiresAt([part.part.id, id])
          .reduce((sum, { ends }) => sum + ends.filter((end) => end?.[0] === part.part.id && end[1] === id).length, 0);
        // A single lug is stacked on nothing, whatever the terminal turns out to be once all is stated.
        if (form !== "stud" || lugs < 2) {
          report.doesNotApply(place);
          continue;
        }
        if (lugs <= LUGS_ON_STUD) {
          report.passes(place);
          continue;
        }
        report.fails({
          message: "crowded",
          facts: { count: String(lugs), stud: { place } },
          severity: "CAUTION",
          where: [place],
          value: lugs,
          limit: LUGS_ON_STUD,
        });
      }
    }
  },
});
