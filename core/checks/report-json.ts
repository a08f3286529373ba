/** The document of `check --json`: ids, designations and SI figures. The shape is a contract (DEVELOPERS.md, "Command line"). */
import type { Analysis } from "../circuit/analysis.ts";
import type { Project } from "../project/document.ts";
import type { MissingField, Place, Severity } from "./define.ts";
import type { CheckRun, Counts, Finding } from "./finding.ts";
import { Names } from "./text.ts";

export type JsonPlace =
  | { readonly part: string; readonly id: string; readonly terminal?: string }
  | { readonly wire: string; readonly id: string }
  | { readonly sheet: string };

export interface JsonFinding {
  readonly id: string;
  readonly check: string;
  readonly severity: Severity;
  readonly title: string;
  readonly where: readonly JsonPlace[];
  readonly states: readonly string[];
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string | null;
  readonly why: string;
  readonly mend: string;
  readonly source: { readonly text: string; readonly known: "seen" | "memory" | "calc" | "none" };
  readonly remedies: readonly { readonly id: string; readonly label: string }[];
  readonly accepted: { readonly who: string; readonly when: string; readonly why: string } | null;
  /** What an acceptance of this finding has to name: it changes with the facts. */
  readonly hash: string;
  readonly folded: readonly {
    readonly check: string;
    readonly severity: Severity;
    readonly where: readonly JsonPlace[];
  }[];
}

export interface CheckDocument {
  readonly format: "loomwright-check";
  readonly version: 1;
  readonly states: readonly string[];
  readonly findings: readonly JsonFinding[];
  readonly notChecked: readonly {
    readonly check: string;
    readonly where: readonly JsonPlace[];
    readonly missing: readonly string[];
    /** The same fields by ids, in the same order. */
    readonly fields: readonly MissingField[];
    readonly why: string;
  }[];
  readonly counts: Counts;
}

/** JSON has no infinity: a figure without bound is given as null. */
function figure(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : value;
}

export function checkJson(project: Project, analysis: Analysis, run: CheckRun): CheckDocument {
  const names = new Names(project);
  const place = (at: Place): JsonPlace => {
    if ("part" in at)
      return {
        part: names.part(at.part),
        id: at.part,
        ...(at.terminal === undefined ? {} : { terminal: at.terminal }),
      };
    if ("wire" in at) return { wire: names.wire(at.wire), id: at.wire };
    return { sheet: names.sheet(at.sheet) };
  };
  const finding = (item: Finding): JsonFinding => ({
    id: item.key,
    check: item.check.id,
    severity: item.severity,
    title: item.title,
    where: item.failure.where.map(place),
    states: item.failure.states ?? [],
    value: figure(item.failure.value),
    limit: figure(item.failure.limit),
    unit: item.failure.unit ?? null,
    why: item.why,
    mend: item.mend,
    source: { text: item.source.text, known: item.source.known },
    remedies: (item.failure.remedies ?? []).map(({ id, label }) => ({ id, label })),
    accepted: item.accepted,
    hash: item.hash,
    folded: item.folded.map((under) => ({
      check: under.check.id,
      severity: under.failure.severity,
      where: under.failure.where.map(place),
    })),
  });
  return {
    format: "loomwright-check",
    version: 1,
    states: analysis.states.map((state) => state.name),
    findings: run.findings.map(finding),
    notChecked: run.notChecked.map((item) => ({
      check: item.check,
      where: item.where.map(place),
      missing: item.missing.map((field) => names.missing(field)),
      fields: item.missing,
      why: item.why,
    })),
    counts: run.counts,
  };
}

/** The document as `check --json` prints it: without what only the window needs to accept findings and find fields. */
export function published(document: CheckDocument): object {
  return {
    ...document,
    findings: document.findings.map(({ hash: _hash, ...finding }) => finding),
    notChecked: document.notChecked.map(({ fields: _fields, ...item }) => item),
  };
}
