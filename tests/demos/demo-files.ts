/** The demo projects as the tests read them: the file, the document, and the table of findings of its README. */
import { readdirSync, readFileSync } from "node:fs";
import * as path from "node:path";
import { SEVERITIES } from "../../core/checks/define.ts";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";

const FOLDER = path.resolve(import.meta.dirname, "../../demo-projects");

export interface Demo {
  readonly name: string;
  readonly text: string;
  readonly project: Project;
  /** Rows of the README's table: check, severity, first place, as the command line prints them. */
  readonly expected: readonly string[];
}

export const isFaulty = (demo: Demo): boolean => demo.name.includes("faulty");

export const demos: readonly Demo[] = readdirSync(FOLDER, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort()
  .map((name): Demo => {
    const text = readFileSync(path.join(FOLDER, name, `${name}.loomwright`), "utf8");
    const read = readProject(text);
    if (!read.ok) throw new Error(`${name}: ${read.problems.join(" ")}`);
    return { name, text, project: read.project, expected: tableOf(name) };
  });

/** One line of a table, as found or as expected. */
export function row(check: string, severity: string, place: string): string {
  return `${check} ${severity} ${place}`;
}

/** The rows under the heading "Findings expected": `| check | severity | place | ... |`. */
function tableOf(name: string): readonly string[] {
  const readme = readFileSync(path.join(FOLDER, name, "README.md"), "utf8");
  const section = readme.split(/^## /m).find((part) => part.startsWith("Findings expected"));
  if (section === undefined) throw new Error(`${name}/README.md has no heading "Findings expected"`);
  return section
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .slice(2)
    .map((line) => {
      const [check = "", severity = "", place = ""] = line
        .split("|")
        .slice(1)
        .map((cell) => cell.trim().replaceAll("`", ""));
      if (!SEVERITIES.some((known) => known === severity)) throw new Error(`${name}/README.md: "${line}"`);
      return row(check, severity, place);
    });
}
