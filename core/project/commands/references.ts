/** References that a command takes from outside: each must lead somewhere. */
import type { Project } from "../document.ts";
import { LIST_OF } from "../ids.ts";
import type { IdLetter } from "../ids.ts";
import { Refused } from "./define.ts";

/** Throws Refused if an id is given and leads nowhere. */
export function requireReference(project: Project, letter: IdLetter, id: string | undefined): void {
  if (id === undefined || project[LIST_OF[letter]].some((entry) => entry.id === id)) return;
  throw new Refused(`There is no ${LIST_OF[letter].slice(0, -1)} with id ${id}. Choose one that there is.`);
}
