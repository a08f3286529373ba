/** Wires without a number, all in one finding: they are numbered in one go. */
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { rename } from "../../project/commands/rename.ts";
import { compareNatural, nextWireNumber } from "../../project/designation.ts";
import type { Project, Wire } from "../../project/document.ts";
import type { Place, Remedy } from "../define.ts";
import { defineCheck } from "../define.ts";

const isNumbered = ({ number }: Wire): boolean => number.trim() !== "";

function numberThem(wires: readonly Wire[]): Remedy {
  return {
    id: "number-wires",
    label: "Number them, counting on from the highest number in use",
    apply: (project) =>
      wires.reduce(
        (done: Project, { id }) =>
          execute(done, rename, { what: "wire", id, name: nextWireNumber(done) }, KINDS).project,
        project,
      ),
  };
}

export const wireUnnumbered = defineCheck({
  id: "wire-unnumbered",
  group: "drawing",
  title: "Wire without a number",
  about: "Lists the wires that bear no number. Whether the sleeves in the vehicle bear the same numbers it cannot see.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "The number of a wire is always in the document." },
  messages: {
    none: {
      title: "Without a number: {wires}.",
      why: "A wire without a number is in no cut list, bears no marker, and cannot be told from its neighbours when a fault is sought.",
      mend: "Give each a number of its own and put it on markers at both ends.",
    },
  },
  reasons: {},
  run({ network: { project } }, report) {
    const place = ({ id }: Wire): Place => ({ wire: id });
    if (project.wires.length === 0) report.doesNotApply();
    report.passes(...project.wires.filter(isNumbered).map(place));
    const without = project.wires.filter((wire) => !isNumbered(wire)).sort((a, b) => compareNatural(a.id, b.id));
    if (without.length === 0) return;
    const where = without.map(place);
    report.fails({
      message: "none",
      facts: { wires: { places: where } },
      severity: "NOTICE",
      where,
      remedies: [numberThem(without)],
    });
  },
});
