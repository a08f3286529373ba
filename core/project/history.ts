/** Undo and redo: the document with what led to it. A history is a value; each step gives a new one. */
import { freeze } from "immer";
import type { Patch } from "immer";
import { execute } from "./commands/define.ts";
import type { Command } from "./commands/define.ts";
import type { Project } from "./document.ts";
import { higherIds } from "./ids.ts";
import type { Kinds } from "./lookup.ts";

export interface HistoryEntry {
  readonly label: string;
  readonly patches: readonly Patch[];
  readonly inverse: readonly Patch[];
  /** Commands of one gesture (a drag, a paste) share this name and make one entry. */
  readonly gesture?: string;
}

export interface History {
  readonly present: Project;
  /** Oldest first. */
  readonly past: readonly HistoryEntry[];
  /** Next to be redone first. */
  readonly future: readonly HistoryEntry[];
}

export const startHistory = (project: Project): History => ({ present: freeze(project, true), past: [], future: [] });

export interface Performed<Result> {
  readonly history: History;
  /** What this command changed, for whoever keeps a copy of the document. */
  readonly patches: readonly Patch[];
  readonly result: Result;
}

/**
 * Carries a command out and remembers how to undo it. Throws Refused, and then nothing has changed. A command that
 * changed nothing leaves no entry.
 */
export function perform<Arguments, Result>(
  history: History,
  command: Command<Arguments, Result>,
  given: Arguments,
  kinds: Kinds,
  gesture?: string,
): Performed<Result> {
  const { project, patches, inverse, result } = execute(history.present, command, given, kinds);
  if (patches.length === 0) return { history, patches, result };
  const last = history.past.at(-1);
  const label = command.label(given, history.present);
  if (gesture !== undefined && last?.gesture === gesture && history.future.length === 0) {
    const merged: HistoryEntry = {
      ...last,
      patches: [...last.patches, ...patches],
      inverse: [...inverse, ...last.inverse],
    };
    return { history: { present: project, past: [...history.past.slice(0, -1), merged], future: [] }, patches, result };
  }
  const entry: HistoryEntry = { label, patches, inverse, ...(gesture === undefined ? {} : { gesture }) };
  return { history: { present: project, past: [...history.past, entry], future: [] }, patches, result };
}

/** One entry back; the same history if there is none. Counters of ids stay where they are: an id is never given out twice. */
export function undo(history: History): History {
  const entry = history.past.at(-1);
  if (entry === undefined) return history;
  return {
    present: withPatches(history.present, entry.inverse),
    past: history.past.slice(0, -1),
    future: [entry, ...history.future],
  };
}

/** One entry forward again; the same history if there is none. */
export function redo(history: History): History {
  const [entry, ...future] = history.future;
  if (entry === undefined) return history;
  return { present: withPatches(history.present, entry.patches), past: [...history.past, entry], future };
}

function withPatches(project: Project, patches: readonly Patch[]): Project {
  const next = applyPatches(project, patches);
  const lastIds = higherIds(next.lastIds, project.lastIds);
  return freeze(lastIds === next.lastIds ? next : { ...next, lastIds }, true);
}

type Node = Record<PropertyKey, unknown>;

/**
 * Applies patches, copying only what lies on their paths. The library's own function copies every value that a patch
 * carries; here it is put in as it is, so that what comes back by undo is the very object that it was.
 */
export function applyPatches(project: Project, patches: readonly Patch[]): Project {
  const own = new Set<unknown>();
  const mine = (value: unknown): Node => {
    if (own.has(value)) return value as Node;
    const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...(value as Node) }) as Node;
    own.add(copy);
    return copy;
  };
  const root = patches.length === 0 ? project : mine(project);
  for (const { path, op, value } of patches) {
    let node = root as Node;
    for (const key of path.slice(0, -1)) {
      const child = mine(node[key]);
      node[key] = child;
      node = child;
    }
    const key = path.at(-1) ?? "";
    if (op === "replace" || (op === "add" && !Array.isArray(node))) node[key] = value;
    else if (op === "add") (node as unknown as unknown[]).splice(Number(key), 0, value);
    else if (Array.isArray(node)) node.splice(Number(key), 1);
    else delete node[key];
  }
  return root as unknown as Project;
}
