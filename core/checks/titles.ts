/** What checks are called where words speak of them: by their titles, which people know, not by their ids. */
import { CHECKS } from "./catalogue.ts";

const TITLES: ReadonlyMap<string, string> = new Map(CHECKS.map(({ id, title }) => [id, title]));

/** A text in which every id of a check has become its title in quotes. */
export function withTitles(text: string): string {
  return text.replace(/\b[a-z]+(?:-[a-z0-9]+)+\b/g, (word) => {
    const title = TITLES.get(word);
    return title === undefined ? word : `“${title}”`;
  });
}
