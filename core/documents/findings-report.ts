/**
 * Everything that the checks have to say of a drawing, put in order for a reader with paper in hand: plain data, with
 * words where the program has words and figures as it prints them. Nothing is judged here. `report-html.ts` writes it.
 */
import { CHECKS } from "../checks/catalogue.ts";
import type { Group, Place, Severity } from "../checks/define.ts";
import type { CheckRun, Counts, Finding } from "../checks/finding.ts";
import { checkJson } from "../checks/report-json.ts";
import type { JsonFinding, JsonPlace } from "../checks/report-json.ts";
import { Names, printFact } from "../checks/text.ts";
import type { Analysis } from "../circuit/analysis.ts";
import { tractionWires } from "../circuit/questions.ts";
import { penAnchors } from "../drawing/pen-anchors.ts";
import type { PenAnchor } from "../drawing/pen-anchors.ts";
import type { PenMark } from "../drawing/pen-marks.ts";
import { drawSheet } from "../drawing/sheet.ts";
import type { DrawnSheet } from "../drawing/sheet.ts";
import { paperSize, zoneAt } from "../layout/paper.ts";
import { routedSheet } from "../layout/route.ts";
import type { Project, Sheet, TitleBlock } from "../project/document.ts";
import type { Dimension } from "../quantity/kinds.ts";
import { missingGroups } from "./missing-groups.ts";
import { MOST_NUMBERS, notesOf, numbersByPlace, placeKey } from "./numbering.ts";
import { sourceWords } from "./source-words.ts";
import { verdict } from "./verdict.ts";

/** What the machine knows and the drawing does not. */
export interface ReportOrigin {
  /** Name of the project file. */
  readonly file: string;
  /** Day on which the report is made, as it is to be printed. */
  readonly made: string;
  readonly programVersion: string;
}

export interface ReportPlace {
  /** "F1:1", "wire W12" */
  readonly name: string;
  /** Number of the sheet, from 1, and the zone of its frame; nothing where it is drawn nowhere. */
  readonly at: readonly { readonly sheet: number; readonly zone: string }[];
}

export interface ReportFinding {
  /** As in the window's margin; null for an accepted one. */
  readonly number: number | null;
  readonly id: string;
  readonly check: string;
  readonly checkTitle: string;
  readonly severity: Severity;
  readonly title: string;
  readonly where: readonly ReportPlace[];
  /** "driving and reversing", "every state"; empty where it belongs to no state. */
  readonly states: string;
  /** With unit, as the sentences print it. */
  readonly value: string | null;
  readonly limit: string | null;
  readonly why: string;
  readonly mend: string;
  /** With how well it is known. */
  readonly source: string;
  readonly follows: readonly {
    readonly check: string;
    readonly severity: Severity;
    readonly title: string;
    readonly where: readonly ReportPlace[];
  }[];
  readonly accepted: { readonly who: string; readonly when: string; readonly why: string } | null;
}

export interface ReportMissing {
  readonly title: string;
  readonly items: readonly {
    readonly thing: string;
    readonly at: ReportPlace["at"];
    /** Titles of the checks that wait for it. */
    readonly checks: readonly string[];
  }[];
}

export interface ReportTally {
  readonly check: string;
  readonly title: string;
  readonly group: Group;
  readonly found: number;
  readonly notChecked: number;
  readonly passed: number;
  readonly doesNotApply: number;
}

export interface ReportSheet {
  readonly number: number;
  readonly name: string;
  readonly landscape: boolean;
  readonly drawn: DrawnSheet;
  readonly marks: readonly PenMark[];
}

export interface FindingsReport {
  readonly origin: ReportOrigin;
  /** Caption and text of the title block's fields; null where nothing is stated. */
  readonly facts: readonly { readonly caption: string; readonly text: string | null }[];
  /** "Yard tug, 48 V": what stands at the head of every page. */
  readonly name: string;
  readonly revision: string;
  readonly size: { readonly parts: number; readonly wires: number };
  readonly states: readonly string[];
  readonly verdict: string;
  readonly counts: Counts;
  readonly findings: readonly ReportFinding[];
  readonly accepted: readonly ReportFinding[];
  readonly notChecked: readonly ReportMissing[];
  /** What no field can mend: a check that stopped, or that lacks more than a statement. */
  readonly unfounded: readonly {
    readonly checkTitle: string;
    readonly why: string;
    readonly where: readonly ReportPlace[];
  }[];
  readonly tallies: readonly ReportTally[];
  readonly sheets: readonly ReportSheet[];
}

/** Pure: the same analysis, run and origin give the same report. */
export function findingsReport(analysis: Analysis, run: CheckRun, origin: ReportOrigin): FindingsReport {
  const { project } = analysis.network;
  const document = checkJson(project, analysis, run);
  const paper = new Paper(project, analysis);
  const names = new Names(project, document.states);
  const numbers = new Map(notesOf(document).map(({ number, finding }) => [finding.id, number]));
  const finding = (item: Finding, json: JsonFinding): ReportFinding => ({
    number: numbers.get(item.key) ?? null,
    id: item.key,
    check: item.check.id,
    checkTitle: item.check.title,
    severity: item.severity,
    title: item.title,
    where: json.where.map((place) => paper.place(place)),
    states: json.states.length === 0 ? "" : names.states(json.states),
    value: figureText(json.value, json.unit, names),
    limit: figureText(json.limit, json.unit, names),
    why: item.why,
    mend: item.mend,
    source: sourceWords(item.source),
    follows: item.folded.map((under, index) => ({
      check: under.check.id,
      severity: under.failure.severity,
      title: under.title,
      where: (json.folded[index]?.where ?? []).map((place) => paper.place(place)),
    })),
    accepted: item.accepted,
  });
  const all = run.findings.flatMap((item, index) => {
    const json = document.findings[index];
    return json === undefined ? [] : [finding(item, json)];
  });
  const titles = new Map(CHECKS.map(({ id, title }) => [id, title]));
  const title = (id: string): string => titles.get(id) ?? id;
  const { groups, unfounded } = missingGroups(project, document.notChecked);
  return {
    origin,
    facts: titleFacts(project.title),
    name: project.title.vehicle ?? project.title.title ?? origin.file,
    revision: project.title.revision ?? "",
    size: { parts: project.parts.length, wires: project.wires.length },
    states: document.states,
    verdict: project.parts.length === 0 ? "Nothing is drawn yet, so nothing was looked at." : verdict(run.counts),
    counts: run.counts,
    findings: all.filter(({ accepted }) => accepted === null),
    accepted: all.filter(({ accepted }) => accepted !== null),
    notChecked: groups.map((group) => ({
      title: group.title,
      items: group.items.map(({ thing, field, checks }) => ({
        thing,
        at: "part" in field ? paper.at(field.part) : "wire" in field ? paper.at(field.wire) : [],
        checks: checks.map(title),
      })),
    })),
    unfounded: unfounded.map(({ check, why, where }) => ({
      checkTitle: title(check),
      why,
      where: where.map((place) => paper.place(place)),
    })),
    tallies: run.tallies.map(({ check, ...counts }) => ({
      check: check.id,
      title: check.title,
      group: check.group,
      ...counts,
    })),
    sheets: paper.sheets(numbersByPlace(notesOf(document), null)),
  };
}

const DIMENSIONS: Readonly<Record<string, Dimension | "resistance-per-volt">> = {
  V: "voltage",
  A: "current",
  ohm: "resistance",
  "ohm/V": "resistance-per-volt",
  W: "power",
  J: "energy",
  s: "time",
  m: "length",
  m2: "size",
  K: "temperature",
};

/** A figure as the sentences print it; one without a unit is a plain number. */
function figureText(value: number | null, unit: string | null, names: Names): string | null {
  if (value === null) return null;
  const dimension = unit === null ? "count" : DIMENSIONS[unit];
  return dimension === undefined ? `${String(value)} ${unit ?? ""}` : printFact({ value, dimension }, names);
}

function titleFacts(title: TitleBlock): FindingsReport["facts"] {
  const fields: readonly (readonly [caption: string, field: keyof TitleBlock])[] = [
    ["Vehicle", "vehicle"],
    ["Title", "title"],
    ["Supplement", "supplementaryTitle"],
    ["Owner", "owner"],
    ["Drawing number", "number"],
    ["Revision", "revision"],
    ["Date of the drawing", "date"],
    ["Drawn by", "author"],
    ["Approved by", "approvedBy"],
  ];
  return fields.map(([caption, field]) => ({ caption, text: title[field] ?? null }));
}

/** The sheets with their lines, found once, and where on them each thing stands. */
class Paper {
  readonly #names: Names;
  readonly #sheets: readonly {
    readonly sheet: Sheet;
    readonly number: number;
    readonly drawn: DrawnSheet;
    readonly anchor: (key: string) => PenAnchor | undefined;
  }[];

  constructor(project: Project, analysis: Analysis) {
    this.#names = new Names(project);
    const wide = tractionWires(analysis);
    this.#sheets = project.sheets.map((sheet, index) => {
      const routed = routedSheet(project, sheet.id);
      return {
        sheet,
        number: index + 1,
        drawn: drawSheet(project, sheet.id, { routed, traction: (wire) => wide.has(wire) }),
        anchor: penAnchors(routed.views, routed.paths),
      };
    });
  }

  /** A terminal whose view is not placed is looked for at its part. */
  at(key: string): ReportPlace["at"] {
    const [part = ""] = key.split(":");
    const of = (wanted: string): ReportPlace["at"] =>
      this.#sheets.flatMap(({ sheet, number, anchor }) => {
        const point = anchor(wanted);
        return point === undefined ? [] : [{ sheet: number, zone: zoneAt(sheet, point.x, point.y) }];
      });
    const exact = of(key);
    return exact.length > 0 || part === key ? exact : of(part);
  }

  place(place: JsonPlace): ReportPlace {
    if ("sheet" in place) {
      const at = this.#sheets.filter(({ sheet }) => sheet.name === place.sheet);
      return { name: `sheet ${place.sheet}`, at: at.map(({ number }) => ({ sheet: number, zone: "" })) };
    }
    const plain: Place =
      "wire" in place
        ? { wire: place.id }
        : { part: place.id, ...(place.terminal === undefined ? {} : { terminal: place.terminal }) };
    return { name: this.#names.place(plain), at: this.at(placeKey(place)) };
  }

  sheets(numbered: ReturnType<typeof numbersByPlace>): readonly ReportSheet[] {
    return this.#sheets.map(({ sheet, number, drawn, anchor }) => {
      const { width, height } = paperSize(sheet);
      const marks = numbered.flatMap(({ key, notes }): PenMark[] => {
        const at = anchor(key);
        const first = notes.slice(0, MOST_NUMBERS);
        return at === undefined
          ? []
          : [{ at, numbers: first.map((note) => note.number), more: notes.length - first.length }];
      });
      return { number, name: sheet.name, landscape: width > height, drawn, marks };
    });
  }
}
