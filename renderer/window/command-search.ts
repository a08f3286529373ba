/** What the command field finds: actions by name, parts and wires by designation, findings, sheets and demos. */
import { KINDS } from "../../core/parts/catalogue.ts";
import { compareNatural } from "../../core/project/designation.ts";
import type { Project } from "../../core/project/document.ts";
import type { JsonFinding } from "../../core/checks/report-json.ts";
import type { Action } from "./actions.ts";
import type { Demo } from "./shell.ts";
import { shortcutText } from "./shortcut.ts";

export type Target =
  | { readonly go: "action"; readonly action: Action }
  | { readonly go: "part" | "wire" | "finding" | "sheet" | "demo"; readonly id: string };

export interface Found {
  readonly key: string;
  readonly group: "Do" | "Parts and wires" | "Findings" | "Sheets" | "Demo vehicles";
  readonly label: string;
  /** At the right edge: a shortcut, the kind of a part, a signal word. */
  readonly beside: string;
  readonly target: Target;
}

export interface Searched {
  readonly actions: readonly Action[];
  readonly project: Project;
  readonly findings: readonly JsonFinding[];
  readonly demos: readonly Demo[];
}

const MOST_OF_A_GROUP = 8;

interface Candidate extends Found {
  /** Further words under which it is found. */
  readonly also: string;
}

const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/\s+/).filter(Boolean);

/** 0 = does not fit. A name that is what was typed goes first, then one that begins so, then a word that does. */
function fit(typed: string, { label, also }: Candidate): number {
  const name = label.toLowerCase();
  const plain = typed.trim().toLowerCase();
  if (name === plain || name.startsWith(`${plain} `)) return 4;
  if (name.startsWith(plain)) return 3;
  const words = wordsOf(plain);
  const text = `${name} ${also.toLowerCase()}`;
  if (!words.every((word) => text.includes(word))) return 0;
  const starts = wordsOf(text.replace(/[^a-z0-9+-]+/g, " "));
  return words.every((word) => starts.some((start) => start.startsWith(word))) ? 2 : 1;
}

function actionEntries(actions: readonly Action[]): Candidate[] {
  return actions.map((action) => ({
    key: `action ${action.id}`,
    group: "Do",
    label: action.name,
    also: action.also ?? "",
    beside: action.shortcut === undefined ? "" : shortcutText(action.shortcut),
    target: { go: "action", action },
  }));
}

function drawingEntries(project: Project): Candidate[] {
  const parts = project.parts.map((part): Candidate => {
    const title = KINDS.get(part.kind)?.title ?? part.kind;
    return {
      key: `part ${part.id}`,
      group: "Parts and wires",
      label: part.designation,
      also: `${title} ${part.note ?? ""}`,
      beside: title,
      target: { go: "part", id: part.id },
    };
  });
  const wires = project.wires.map(
    (wire): Candidate => ({
      key: `wire ${wire.id}`,
      group: "Parts and wires",
      label: `Wire ${wire.number}`,
      also: `${wire.number} ${wire.note ?? ""}`,
      beside: typeof wire.size === "string" ? wire.size : "",
      target: { go: "wire", id: wire.id },
    }),
  );
  return [...parts, ...wires].sort((a, b) => compareNatural(a.label, b.label));
}

function otherEntries({ project, findings, demos }: Searched): Candidate[] {
  return [
    ...findings.map(
      (finding): Candidate => ({
        key: `finding ${finding.id}`,
        group: "Findings",
        label: finding.title,
        also: `${finding.severity} ${finding.check}`,
        beside: finding.severity,
        target: { go: "finding", id: finding.id },
      }),
    ),
    ...project.sheets.map(
      ({ id, name }): Candidate => ({
        key: `sheet ${id}`,
        group: "Sheets",
        label: `Sheet ${name}`,
        also: name,
        beside: "",
        target: { go: "sheet", id },
      }),
    ),
    ...demos.map(
      ({ id, title }): Candidate => ({
        key: `demo ${id}`,
        group: "Demo vehicles",
        label: title,
        also: id,
        beside: "",
        target: { go: "demo", id },
      }),
    ),
  ];
}

/** With nothing typed all actions, in their order; else the best of each group, groups with the best fit first. */
export function search(typed: string, searched: Searched): readonly Found[] {
  const actions = actionEntries(searched.actions);
  if (typed.trim() === "") return actions;
  const candidates = [...drawingEntries(searched.project), ...actions, ...otherEntries(searched)];
  const groups = new Map<string, { readonly found: Candidate; readonly fit: number }[]>();
  for (const found of candidates) {
    const how = fit(typed, found);
    if (how > 0) groups.set(found.group, [...(groups.get(found.group) ?? []), { found, fit: how }]);
  }
  return [...groups.values()]
    .map((group) => group.sort((a, b) => b.fit - a.fit).slice(0, MOST_OF_A_GROUP))
    .sort((a, b) => (b[0]?.fit ?? 0) - (a[0]?.fit ?? 0))
    .flatMap((group) => group.map(({ found }) => found));
}
