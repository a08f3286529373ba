/**
 * The findings report as one HTML file that needs nothing else: no script, no request, typeface and sheets inside. It is
 * made to be printed on A4 and to be read by machines that read aloud: headings in order, tables with headers.
 */
import { SEVERITIES } from "../checks/define.ts";
import type { Severity } from "../checks/define.ts";
import { penMarksSvg } from "../drawing/pen-marks.ts";
import { escapeXml, toSvg } from "../drawing/svg.ts";
import { clipText } from "../layout/text-line.ts";
import { NO_PROOF, VOLTAGE_KILLS, WHILE_YOU_WORK } from "./cautions.ts";
import type {
  FindingsReport,
  ReportFinding,
  ReportMissing,
  ReportPlace,
  ReportSheet,
  ReportTally,
} from "./findings-report.ts";
import { reportStyle } from "./report-style.ts";
import type { ReportTypeface } from "./report-style.ts";

const text = escapeXml;
/** Room of the running title's two halves, mm, measured as text of 2.5 mm; they are printed a little larger. */
const ROOM = { left: 88, right: 55 } as const;

/** What a short reference means. */
const SHORT = "1/B4 means: on sheet 1, in the zone B4 of its frame.";

const counted = (count: number, one: string, many: string): string => `${String(count)} ${count === 1 ? one : many}`;

/** Equal reports give equal bytes. Without a typeface the reader's own stands in. */
export function reportHtml(report: FindingsReport, typeface?: ReportTypeface): string {
  const { origin, name, revision } = report;
  const drawnAs = revision === "" ? "" : `, revision ${revision}`;
  const style = reportStyle(
    {
      head: clipText(`Findings report: ${name}`, 2.5, ROOM.left),
      right: clipText(`Made ${origin.made}${drawnAs}`, 2.5, ROOM.right),
      foot: "No proof of safety: see the first page.",
    },
    typeface,
  );
  return `<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">
<title>Findings report: ${text(name)}</title>
<style>
${style}</style>
</head>
<body>
<main>
${head(report)}
${glance(report)}
${whatItIs()}
${findings(report)}
${accepted(report)}
${notChecked(report)}
${report.sheets.map(sheetPage).join("\n")}
${lookedAt(report)}
</main>
</body>
</html>
`;
}

function head({ facts, name, origin, size, sheets: drawn, states }: FindingsReport): string {
  const rows: readonly (readonly [string, string | null])[] = [
    ...facts.map(({ caption, text: said }) => [caption, said] as const),
    [
      "Drawing",
      `${origin.file}: ${counted(size.parts, "part", "parts")}, ${counted(size.wires, "wire", "wires")}, ${counted(drawn.length, "sheet", "sheets")}`,
    ],
    ["Solved in", states.join(", ")],
    ["Report made", `${origin.made}, by Loomwright ${origin.programVersion}`],
  ];
  return `<h1>Findings report</h1>
<p class="subtitle">${text(name)}</p>
<table class="facts">
<caption>The drawing that was looked at</caption>
<tbody>
${rows.map(([caption, said]) => `<tr><th scope="row">${text(caption)}</th><td>${said === null || said === "" ? '<span class="none">not stated</span>' : text(said)}</td></tr>`).join("\n")}
</tbody>
</table>`;
}

function whatItIs(): string {
  return `<section aria-labelledby="what">
<h2 id="what">What this report is and is not</h2>
<p><strong>${text(NO_PROOF)}</strong></p>
<p>It is a list of what a program found in a drawing. It knows what the drawing states and nothing else: not how a wire was crimped, not what was built otherwise than drawn. What it could not check stands as <em>not checked</em>: read that list as carefully as the findings. It replaces no inspection, and no approval that the law asks for. Where it and a maker&apos;s data sheet, a local rule or a licensed person differ, they hold and it does not.</p>
<h3>${text(VOLTAGE_KILLS)}</h3>
<ul class="cautions">
${WHILE_YOU_WORK.map((caution) => `<li>${text(caution)}</li>`).join("\n")}
</ul>
</section>`;
}

function glance({ verdict, counts }: FindingsReport): string {
  const columns: readonly (readonly [string, number])[] = [
    ...SEVERITIES.map((severity) => [badge(severity), counts[severity]] as const),
    ["Accepted", counts.accepted],
    ["Not checked", counts.notChecked],
    ["Passed", counts.passed],
    ["Does not apply", counts.doesNotApply],
  ];
  return `<section class="whole" aria-labelledby="glance">
<h2 id="glance">At a glance</h2>
<p class="verdict">${text(verdict)}</p>
<table class="outcomes">
<thead><tr>${columns.map(([what]) => `<th scope="col">${what}</th>`).join("")}</tr></thead>
<tbody><tr>${columns.map(([, count]) => `<td>${String(count)}</td>`).join("")}</tr></tbody>
</table>
</section>`;
}

const BARS: Readonly<Record<Severity, number>> = { DANGER: 4, WARNING: 3, CAUTION: 2, NOTICE: 1 };

/** A signal word (ANSI Z535, ISO 3864-2) in its box; the bars tell it in grey as well. */
function badge(severity: Severity): string {
  return `<span class="severity ${severity}">${"<i></i>".repeat(BARS[severity])}<span class="word">${severity}</span></span>`;
}

function findings({ findings: list }: FindingsReport): string {
  return `<section aria-labelledby="findings">
<h2 id="findings">Findings, in the order in which to mend them</h2>
${list.length === 0 ? "<p>None.</p>" : `<p class="note lead">The numbers are those in the margin of the program&apos;s window and on the sheets further down. ${SHORT}</p>`}
${list.map(article).join("\n")}
</section>`;
}

function article(finding: ReportFinding, index: number): string {
  const { number, severity, title, where, states, value, limit, why, mend, source, follows, id, check } = finding;
  const key = number === null ? `accepted-${String(index + 1)}` : `finding-${String(number)}`;
  const rows: (readonly [string, string, string?])[] = [["Where", places(where)]];
  if (states !== "") rows.push(["When", text(states)]);
  if (value !== null)
    rows.push(["Figure", `${text(value)}${limit === null ? "" : `, against a limit of ${text(limit)}`}`]);
  rows.push(["Why", text(why)], ["What to do", text(mend), "mend"], ["Source", text(source)]);
  if (follows.length > 0) rows.push(["Follows from it", consequences(follows)]);
  if (finding.accepted !== null) {
    const { who, when, why: reason } = finding.accepted;
    rows.push(["Accepted", `${text(who)}, ${text(when)}: ${text(reason)}`]);
  }
  rows.push(["Check", `${text(finding.checkTitle)} <span class="note">(${text(check)})</span>`]);
  return `<article class="finding" id="${key}" data-finding="${text(id)}" aria-labelledby="${key}-title">
<header>${number === null ? "" : `<span class="pen-number">${String(number)}</span>`}${badge(severity)}<h3 id="${key}-title">${text(title)}</h3></header>
<dl>
${rows.map(([caption, said, kind]) => `<dt>${caption}</dt><dd${kind === undefined ? "" : ` class="${kind}"`}>${said}</dd>`).join("\n")}
</dl>
</article>`;
}

function consequences(follows: ReportFinding["follows"]): string {
  return `<ul class="follows">${follows
    .map(
      ({ severity, title, where }) =>
        `<li>${badge(severity)} ${text(title)} <span class="note">${places(where)}</span></li>`,
    )
    .join("")}</ul>`;
}

/** More places than this are told in short, "1/B4", as the sheets write where a wire goes on. */
const FEW_PLACES = 4;

function places(where: readonly ReportPlace[]): string {
  if (where.length === 0) return "the drawing as a whole";
  const short = where.length > FEW_PLACES;
  return where.map(({ name, at }) => `${text(name)}${references(at, short)}`).join("; ");
}

/** " (sheet 1, B4)" or " (1/B4)", each leading to its sheet. */
function references(at: ReportPlace["at"], short: boolean): string {
  if (at.length === 0) return "";
  const one = ({ sheet, zone }: ReportPlace["at"][number]): string => {
    const number = String(sheet);
    const said = zone === "" ? `sheet ${number}` : short ? `${number}/${zone}` : `sheet ${number}, ${zone}`;
    return `<a href="#sheet-${number}">${text(said)}</a>`;
  };
  return ` (${at.map(one).join("; ")})`;
}

function accepted({ accepted: list }: FindingsReport): string {
  return `<section aria-labelledby="accepted">
<h2 id="accepted">Accepted findings</h2>
${list.length === 0 ? "<p>None.</p>" : `<p class="note">Somebody looked at each of these and let it stand. They bear no number on the sheets.</p>`}
${list.map(article).join("\n")}
</section>`;
}

function notChecked({ notChecked: groups, unfounded, counts }: FindingsReport): string {
  const tables = groups.map(missingTable).join("\n");
  const others = unfounded.map(
    ({ checkTitle, why, where }) => `<li><strong>${text(checkTitle)}</strong>, ${places(where)}: ${text(why)}</li>`,
  );
  const intro =
    counts.notChecked === 0
      ? "Nothing: every check had what it needed."
      : groups.length === 0
        ? "None of these counts as passed."
        : `Each of these needs a value that nobody has stated. None of them counts as passed. ${SHORT}`;
  return `<section aria-labelledby="not-checked">
<h2 id="not-checked">Not checked</h2>
<p class="lead">${intro}</p>
${tables}
${others.length === 0 ? "" : `<h3><span class="not-checked">For another reason</span></h3>\n<ul>\n${others.join("\n")}\n</ul>`}
</section>`;
}

/** A table with more rows than this may run over to the next page. */
const MOST_WHOLE = 5;

/** Things that wait with the same checks share a row. */
function missingTable({ title, items }: ReportMissing, index: number): string {
  const id = `missing-${String(index + 1)}`;
  const rows = new Map<string, string[]>();
  for (const { thing, at, checks } of items) {
    const waiting = checks.map(text).join("; ");
    rows.set(waiting, [...(rows.get(waiting) ?? []), `${text(thing)}${references(at, true)}`]);
  }
  const kind = rows.size > MOST_WHOLE ? "missing" : "missing whole";
  return `<section class="${kind}" aria-labelledby="${id}">
<h3 id="${id}"><span class="not-checked">${text(title)}</span></h3>
<table>
<thead><tr><th scope="col">Of</th><th scope="col">What waits for it</th></tr></thead>
<tbody>
${[...rows].map(([waiting, things]) => `<tr><td>${things.join("; ")}</td><td>${waiting}</td></tr>`).join("\n")}
</tbody>
</table>
</section>`;
}

function lookedAt({ tallies }: FindingsReport): string {
  const groups = new Map<string, ReportTally[]>();
  for (const tally of tallies) groups.set(tally.group, [...(groups.get(tally.group) ?? []), tally]);
  const body = [...groups].map(
    ([group, list]) => `<tbody>
<tr class="group"><th scope="rowgroup" colspan="5">${text(group.charAt(0).toUpperCase() + group.slice(1))}</th></tr>
${list.map(tallyRow).join("\n")}
</tbody>`,
  );
  return `<section aria-labelledby="looked-at">
<h2 id="looked-at">What was looked at</h2>
<p class="lead">Every check, and how many places came to each outcome. What is found counts with its consequences and with what was accepted.</p>
<table class="tallies">
<thead><tr><th scope="col">Check</th><th scope="col" class="number">Found</th><th scope="col" class="number">Not checked</th><th scope="col" class="number">Passed</th><th scope="col" class="number">Does not apply</th></tr></thead>
${body.join("\n")}
</table>
</section>`;
}

function tallyRow({ title, check, found, notChecked: lacking, passed, doesNotApply }: ReportTally): string {
  const cells = [found, lacking, passed, doesNotApply].map((count) => `<td class="number">${String(count)}</td>`);
  return `<tr data-check="${text(check)}"><th scope="row">${text(title)}</th>${cells.join("")}</tr>`;
}

function sheetPage({ number, name, landscape, drawn, marks }: ReportSheet): string {
  const within = `sheet-${String(number)}-`;
  const shown = [...new Set(marks.flatMap(({ numbers }) => numbers))].sort((a, b) => a - b);
  const svg = toSvg(drawn, { within, over: penMarksSvg(marks) });
  return `<section class="sheet ${landscape ? "landscape" : "upright"}" id="sheet-${String(number)}" aria-labelledby="${within}name">
<h2 id="${within}name">Sheet ${String(number)}: ${text(name)}</h2>
${svg}<p>${shown.length === 0 ? "No finding is marked on this sheet." : `Findings marked here: ${shown.join(", ")}.`} Scaled to fit the page: measure nothing on it.</p>
</section>`;
}
