/** The findings of a drawing as a person reads them in a terminal window. What was not checked has its own heading and count. */
import type { Analysis } from "../../core/circuit/analysis.ts";
import { CHECKS } from "../../core/checks/catalogue.ts";
import type { CheckRun, Finding, NotCheckedItem } from "../../core/checks/finding.ts";
import { Names } from "../../core/checks/text.ts";
import type { Project } from "../../core/project/document.ts";
import { wrap } from "./table.ts";

const KNOWN: Readonly<Record<string, string>> = {
  seen: "",
  memory: " (from memory: confirm it)",
  calc: " (calculated)",
  none: "",
};

/** Said under every report: an empty list is no promise. */
const CAUTION =
  "A drawing that passes is not proof of safety. The maker's data, local rules and a licensed or competent person come first.";

function finding(item: Finding, names: Names): string {
  const where = item.failure.where.map((place) => names.place(place)).join(", ");
  const states = item.failure.states ?? [];
  const lines = [`${item.severity}  ${where}  [${item.check.id}]`, wrap(item.title, "  ")];
  if (states.length > 0) lines.push(wrap(`In: ${some(states, MOST_STATES)}.`, "  "));
  lines.push(wrap(`Why: ${item.why}`, "  "), wrap(`Mend: ${item.mend}`, "  "));
  lines.push(wrap(`Source: ${item.source.text}${KNOWN[item.source.known] ?? ""}`, "  "));
  if (item.accepted !== null) {
    lines.push(wrap(`Accepted by ${item.accepted.who}, ${item.accepted.when}: ${item.accepted.why}`, "  "));
  }
  for (const under of item.folded) {
    const at = under.failure.where.map((place) => names.place(place)).join(", ");
    lines.push(wrap(`Follows from it: ${under.failure.severity} ${under.check.id} at ${at}`, "  "));
  }
  return lines.join("\n");
}

/** The first `most` names, and how many more there are. */
function some(names: readonly string[], most: number): string {
  if (names.length <= most) return names.join(", ");
  return `${names.slice(0, most - 1).join(", ")} and ${names.length - most + 1} more`;
}

/** Up to this many things that lack the same field are listed one by one. */
const ONE_BY_ONE = 3;
const MOST_NAMES = 8;
const MOST_STATES = 12;

/** The fields that an item waits for, without the names of the things that lack them. */
function fieldsOf(item: NotCheckedItem): string {
  const names = item.missing.map((field) => {
    if ("part" in field) return field.parameter;
    return "title" in field ? field.title : field.field;
  });
  return [...new Set(names)].sort().join(" ");
}

function notCheckedLines(alike: readonly NotCheckedItem[], names: Names): readonly string[] {
  const whereOf = (item: NotCheckedItem): string => item.where.map((place) => names.place(place)).join(", ");
  const line = (where: string, why: string, missing: readonly string[]): string =>
    wrap(
      `${where === "" ? "" : `${where}: `}${why}${missing.length === 0 ? "" : ` Fill in ${some(missing, MOST_NAMES)}.`}`,
      "    ",
    );
  const [first] = alike;
  if (first === undefined || alike.length <= ONE_BY_ONE || fieldsOf(first) === "") {
    return alike.map((item) =>
      line(
        whereOf(item),
        item.why,
        item.missing.map((field) => names.missing(field)),
      ),
    );
  }
  const missing = new Set(alike.flatMap((item) => item.missing.map((field) => names.missing(field))));
  return [line(`${alike.length} places`, `${first.why} The same holds for the others.`, [...missing])];
}

/** By check, and within a check by the fields that are missing: one line for many wires that lack the same. */
function notChecked(items: readonly NotCheckedItem[], names: Names): string {
  const byCheck = new Map<string, Map<string, NotCheckedItem[]>>();
  for (const item of items) {
    const groups = byCheck.get(item.check) ?? new Map<string, NotCheckedItem[]>();
    byCheck.set(item.check, groups.set(fieldsOf(item), [...(groups.get(fieldsOf(item)) ?? []), item]));
  }
  const blocks = [...byCheck].map(([check, groups]) => {
    const count = [...groups.values()].reduce((sum, list) => sum + list.length, 0);
    const title = CHECKS.find(({ id }) => id === check)?.title;
    const lines = [...groups.values()].flatMap((list) => notCheckedLines(list, names));
    return [`  ${title === undefined ? "" : `${title} `}[${check}] (${count})`, ...lines].join("\n");
  });
  return blocks.join("\n");
}

/** The closing line of counts, as in `check --json`. */
function countsLine(run: CheckRun): string {
  const { counts } = run;
  const words = (["DANGER", "WARNING", "CAUTION", "NOTICE"] as const).map((word) => `${counts[word]} ${word}`);
  return `${words.join(", ")}, ${counts.accepted} accepted; ${counts.notChecked} not checked; ${counts.passed} passed; ${counts.doesNotApply} do not apply.`;
}

/** The whole report, without a newline at its end. */
export function checkReport(name: string, project: Project, analysis: Analysis, run: CheckRun): string {
  const names = new Names(project);
  const states = analysis.states.map((state) => state.name).join(", ");
  const open = run.findings.filter((item) => item.accepted === null);
  const accepted = run.findings.filter((item) => item.accepted !== null);
  const blocks = [
    wrap(`${name}: ${project.parts.length} parts, ${project.wires.length} wires.`, ""),
    wrap(`Solved in: ${states}.`, ""),
    `\nFindings (${open.length})\n`,
    ...(open.length === 0 ? ["  None."] : open.map((item) => `${finding(item, names)}\n`)),
  ];
  if (accepted.length > 0) {
    blocks.push(`\nAccepted (${accepted.length})\n`, ...accepted.map((item) => `${finding(item, names)}\n`));
  }
  blocks.push(`\nNot checked (${run.notChecked.length})\n`);
  blocks.push(
    run.notChecked.length === 0 ? "  Nothing: every check had what it needed." : notChecked(run.notChecked, names),
  );
  blocks.push("", wrap(countsLine(run), ""), wrap(CAUTION, ""));
  return blocks.join("\n");
}
