/** A remedy as a row of commands on one document: offered with one click, undone with one. */
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import type { Command } from "../../project/commands/define.ts";
import type { Project } from "../../project/document.ts";
import type { Remedy } from "../define.ts";

export class Edit {
  #project: Project;

  constructor(project: Project) {
    this.#project = project;
  }

  /** The document as the commands so far left it. */
  get project(): Project {
    return this.#project;
  }

  /** Carries a command out. Throws Refused. */
  run<Arguments, Result>(command: Command<Arguments, Result>, given: Arguments): Result {
    const { project, result } = execute(this.#project, command, given, KINDS);
    this.#project = project;
    return result;
  }
}

/** Nothing is worked out before the remedy is chosen but its label. */
export function remedy(id: string, label: string, change: (edit: Edit) => void): Remedy {
  return {
    id,
    label,
    apply: (project) => {
      const edit = new Edit(project);
      change(edit);
      return edit.project;
    },
  };
}
