/** The findings report from the window: whole or not at all, and with the numbers of the margin. */
import { describe, expect, it } from "vitest";
import { deleteEntries } from "../../../core/project/commands/delete.ts";
import { notesOf } from "../../../core/documents/numbering.ts";
import type { ReportQuestion } from "../../../renderer/window/analysis/protocol.ts";
import { reportName } from "../../../renderer/window/save-report.ts";
import { demos } from "../../demos/demo-files.ts";
import { connected } from "../../harness/connected-analysis.ts";

const project = demos.find(({ name }) => name === "yard-tug-48v-faulty")?.project;
if (project === undefined) throw new Error("There is no such demo.");

const QUESTION: ReportQuestion = {
  about: "report",
  origin: { file: "tug.loomwright", made: "2026-11-25", programVersion: "0.1.0" },
  typeface: { format: "woff2", regular: "AAAA" },
};

describe("the findings report", () => {
  it("asked for while checks are running waits until all have answered, and bears the margin's numbers", async () => {
    const { store, ask, heard } = connected(project, 0);
    expect(store.now.working).toBe(true);
    const html = await ask(QUESTION);
    expect(heard.at(-1)?.whole).toBe(true);
    const notes = notesOf(store.now.checked?.document ?? null);
    expect(notes.length).toBeGreaterThan(3);
    for (const { number, finding } of notes) {
      const at = html?.indexOf(`id="finding-${String(number)}" data-finding="${finding.id}"`) ?? -1;
      expect(at, finding.id).toBeGreaterThan(0);
    }
    // Asked again with nothing to do it answers at once, with the same.
    expect(await ask(QUESTION)).toBe(html);
  });

  it("is not made for a drawing that changes meanwhile, and is for the changed one", async () => {
    const { store, ask, settled } = connected(project, 0);
    const overtaken = ask(QUESTION);
    store.perform(deleteEntries, { parts: [], wires: [store.project.wires[0]?.id ?? ""] });
    expect(await overtaken).toBeUndefined();
    await settled();
    expect(await ask(QUESTION)).toContain("</html>");
  });

  it("is named after the drawing", () => {
    expect(reportName("village tug.loomwright")).toBe("village tug-findings.html");
    expect(reportName("Untitled")).toBe("Untitled-findings.html");
  });
});
