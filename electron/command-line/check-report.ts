/** The findings of a drawing as a person reads them in a terminal window. What was not checked has its own heading and count. */
import type { Analysis } from "../../core/circuit/analysis.ts";
import { CHECKS } from "../../core/checks/catalogue.ts";
import type { Place } from "../../core/checks/define.ts";
import { placeId } from "../../core/checks/finding.ts";
import type { CheckRun, Finding, NotCheckedItem } from "../../core/checks/finding.ts";
import { Names } from "../../core/checks/text.ts";
import { worst } from "../../core/checks/fold.ts";
import { missingData } from "../../core/checks/words/missing-data.ts";
import type { Lacking } from "../../core/checks/words/missing-data.ts";
import { kindOf } from "../../core/parts/catalogue.ts";
import { NO_PROOF } from "../../core/documents/cautions.ts";
import { sourceWords } from "../../core/documents/source-words.ts";
import type { Project } from "../../core/project/document.ts";
import { wrap } from "./table.ts";

/** Longer lists of places are cut and the rest counted. */
const MOST_PLACES = 10;
const MOST_STATES = 12;
/** Of so few places each part is told with what it is: "T2 (DC-DC converter)". */
const EXPLAINED = 4;

const titleOf = (check: string): string => CHECKS.find(({ id }) => id === check)?.title ?? check;

/** Where to look, each part with what it is when there are few. */
function placesOf(where: readonly Place[], project: Project, names: Names): string {
  const distinct = [...new Map(where.map((place) => [placeId(place), place])).values()];
  if (distinct.length > EXPLAINED || distinct.every((place) => "wire" in place))
    return names.places(distinct, MOST_PLACES);
  const explained = new Set<string>();
  return distinct
    .map((place) => {
      const name = names.place(place);
      const part = "part" in place ? project.parts.find(({ id }) => id === place.part) : undefined;
      if (part === undefined || explained.has(part.id)) return name;
      explained.add(part.id);
      const kind = kindOf(part.kind)?.title;
      return kind === undefined ? name : `${name} (${kind})`;
    })
    .join(", ");
}

/** What folds under a finding, each check once with all its places. */
function foldedLines(item: Finding, names: Names): readonly string[] {
  const groups = new Map<string, Finding[]>();
  for (const under of item.folded) groups.set(under.check.id, [...(groups.get(under.check.id) ?? []), under]);
  return [...groups].flatMap(([check, group]) => {
    const [first] = group;
    if (first === undefined) return [];
    const places = new Map(
      group.flatMap(({ failure }) => failure.where.slice(0, 1).map((place) => [placeId(place), place] as const)),
    );
    const at = names.places([...places.values()], MOST_PLACES);
    if (check === item.check.id) return [wrap(`The same at: ${at}`, "    ")];
    const severity = group.reduce((all, { failure }) => worst(all, failure.severity), first.failure.severity);
    return [wrap(`Follows from it: ${severity} ${first.check.title}: ${at} [${check}]`, "    ")];
  });
}

function finding(item: Finding, number: number | null, project: Project, names: Names): string {
  const states = item.failure.states ?? [];
  const lines = [
    `${number === null ? "" : `${number}. `}${item.severity}  ${item.check.title}  [${item.check.id}]`,
    wrap(item.title, "    "),
    wrap(`At: ${placesOf(item.failure.where, project, names)}`, "    "),
  ];
  if (states.length > 0) lines.push(wrap(`In: ${names.states(states, MOST_STATES)}`, "    "));
  lines.push(wrap(`Why: ${item.why}`, "    "), wrap(`Mend: ${item.mend}`, "    "));
  lines.push(wrap(`Source: ${sourceWords(item.source)}`, "    "));
  if (item.accepted !== null) {
    lines.push(wrap(`Accepted by ${item.accepted.who}, ${item.accepted.when}: ${item.accepted.why}`, "    "));
  }
  return [...lines, ...foldedLines(item, names)].join("\n");
}

/** One field, where to fill it in, where a person finds it, and what waits for it. */
function fieldLine({ thing, label, find, places, names: called, checks }: Lacking, names: Names): string {
  const of =
    thing === "title" ? "the title block" : called.length > 0 ? called.join(", ") : names.places(places, MOST_PLACES);
  const waiting = checks.map((check) => titleOf(check).toLowerCase());
  const shown = waiting.length > 3 ? [...waiting.slice(0, 2), `${waiting.length - 2} more`] : waiting;
  return wrap(`${label}, of ${of}. ${find}. Needed for: ${shown.join("; ")}.`, "    ");
}

/** What no field would open: by check, the reason told once. */
function reasonLines(items: readonly NotCheckedItem[], names: Names): readonly string[] {
  const byCheck = new Map<string, NotCheckedItem[]>();
  for (const item of items) byCheck.set(item.check, [...(byCheck.get(item.check) ?? []), item]);
  return [...byCheck].map(([check, [first, ...rest]]) => {
    if (first === undefined) return "";
    const others = names.places(
      rest.flatMap(({ where }) => where.slice(0, 1)),
      MOST_PLACES,
    );
    const alike = rest.length === 0 ? "" : ` Likewise: ${others}.`;
    return wrap(`${titleOf(check)}: ${first.why}${alike}`, "    ");
  });
}

/** The fields to fill in first, what the gravest checks wait for on top; then what cannot be told for another reason. */
function notChecked(items: readonly NotCheckedItem[], analysis: Analysis, names: Names): string {
  const fields = missingData(analysis.network, items).map((lacking) => fieldLine(lacking, names));
  const open = reasonLines(
    items.filter(({ missing }) => missing.length === 0),
    names,
  );
  const blocks = fields.length > 0 ? ["  Fill these in, those on top first:", ...fields] : [];
  if (open.length > 0) blocks.push("  Cannot be told while the drawing is as it is:", ...open);
  return blocks.join("\n");
}

/** The closing line of counts, as in `check --json`. */
function countsLine(run: CheckRun): string {
  const { counts } = run;
  const words = (["DANGER", "WARNING", "CAUTION", "NOTICE"] as const).map((word) => `${counts[word]} ${word}`);
  return `${words.join(", ")}, ${counts.accepted} accepted; ${counts.notChecked} not checked; ${counts.passed} passed; ${counts.doesNotApply} do not apply.`;
}

/** Tells what the section of what was not checked tells as well, with more to it. */
const TOLD_BELOW = "data-missing";

/** The whole report, without a newline at its end; findings are numbered as in the window and in the printed report. */
export function checkReport(name: string, project: Project, analysis: Analysis, run: CheckRun): string {
  const states = analysis.states.map((state) => state.name);
  const names = new Names(project, states);
  const open = run.findings.filter((item) => item.accepted === null);
  const told = open.filter(({ check }) => check.id !== TOLD_BELOW);
  const accepted = run.findings.filter((item) => item.accepted !== null);
  const blocks = [
    wrap(`${name}: ${project.parts.length} parts, ${project.wires.length} wires.`, ""),
    wrap(`Solved in: ${states.join(", ")}.`, ""),
    `\nFindings (${told.length})`,
    told.length > 1 ? "Mend them from the top and check again: what is further down may be gone then.\n" : "",
    ...(told.length === 0
      ? ["  None."]
      : told.map((item) => `${finding(item, open.indexOf(item) + 1, project, names)}\n`)),
  ];
  if (accepted.length > 0) {
    const texts = accepted.map((item) => `${finding(item, null, project, names)}\n`);
    blocks.push(`\nAccepted (${accepted.length})\n`, ...texts);
  }
  blocks.push(`\nNot checked (${run.notChecked.length})\n`);
  blocks.push(
    run.notChecked.length === 0
      ? "  Nothing: every check had what it needed."
      : notChecked(run.notChecked, analysis, names),
  );
  if (told.length < open.length) {
    const fields = open.length - told.length;
    const numbers = open.flatMap(({ check }, index) => (check.id === TOLD_BELOW ? [index + 1] : []));
    const which = fields === 1 ? `number ${numbers[0]}` : `numbers ${numbers[0]} to ${numbers.at(-1)}`;
    blocks.push(wrap(`${fields} NOTICE below ${fields === 1 ? "stands" : "stand"} for these fields (${which}).`, "  "));
  }
  blocks.push("", wrap(countsLine(run), ""), wrap(NO_PROOF, ""));
  return blocks.join("\n");
}
