/**
 * What a command is. Window, remedies, importer and starter edit through commands alone; each is a pure function
 * on a draft, and every document that a command leaves can be written and read back.
 */
import { enablePatches, produceWithPatches } from "immer";
import type { Draft, Patch } from "immer";
import type { Project } from "../document.ts";
import { LIST_OF } from "../ids.ts";
import type { IdLetter } from "../ids.ts";
import type { Kinds } from "../lookup.ts";

enablePatches();

export interface CommandContext {
  /** The document before this command: plain, frozen, quicker to search than the draft. */
  readonly before: Project;
  readonly kinds: Kinds;
}

export interface Command<Arguments, Result = void> {
  readonly id: string;
  /** What it did, for the list of what can be undone: "Move F1". */
  readonly label: (given: Arguments, before: Project) => string;
  /** Throws Refused where it cannot be done; the document then stays as it is. */
  readonly change: (draft: Draft<Project>, given: Arguments, context: CommandContext) => Result;
}

/** A command that cannot be carried out; the message is one sentence with its remedy. */
export class Refused extends Error {
  override readonly name = "Refused";
}

export function defineCommand<Arguments, Result = void>(
  command: Command<Arguments, Result>,
): Command<Arguments, Result> {
  return command;
}

export interface Executed<Result> {
  readonly project: Project;
  readonly patches: readonly Patch[];
  readonly inverse: readonly Patch[];
  readonly result: Result;
}

/** Carries a command out. Throws Refused. Branches that it does not touch keep their identity. */
export function execute<Arguments, Result>(
  before: Project,
  command: Command<Arguments, Result>,
  given: Arguments,
  kinds: Kinds,
): Executed<Result> {
  const kept: { result?: Result } = {};
  const [project, patches, inverse] = produceWithPatches(before, (draft) => {
    kept.result = command.change(draft, given, { before, kinds });
  });
  return { project, patches, inverse, result: kept.result as Result };
}

/** Place of an entry in its list. Throws Refused if there is none with this id. */
export function indexOf(project: Project, letter: IdLetter, id: string): number {
  const index = project[LIST_OF[letter]].findIndex((entry) => entry.id === id);
  if (index === -1)
    throw new Refused(`There is no ${LIST_OF[letter].slice(0, -1)} with id ${id}. It may have been deleted.`);
  return index;
}

/** A new id, counted up from the highest ever given out. */
export function newId(draft: Draft<Project>, letter: IdLetter): string {
  const number = (draft.lastIds[letter] ?? 0) + 1;
  draft.lastIds[letter] = number;
  return `${letter}${number}`;
}

/** The entry of a draft's list; an id that is not there is refused. */
export function draftPart(draft: Draft<Project>, id: string, before: Project): Draft<Project>["parts"][number] {
  return entryAt(draft.parts, indexOf(before, "p", id));
}

export function draftWire(draft: Draft<Project>, id: string, before: Project): Draft<Project>["wires"][number] {
  return entryAt(draft.wires, indexOf(before, "w", id));
}

/** The entry at an index that is known to exist. */
export function entryAt<T>(list: readonly T[], index: number): T {
  const entry = list[index];
  if (entry === undefined) throw new Refused("What this edit is about is no longer there. Choose it again.");
  return entry;
}
