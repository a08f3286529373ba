/** Views of parts that stand on no sheet. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { PartId, Project } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";

export interface UnplacedView {
  readonly part: PartId;
  readonly view: string;
  /** "Q1, auxiliary contact"; a part of one view goes by its designation alone. */
  readonly name: string;
  readonly designation: string;
  readonly title: string;
}

export function unplacedViews(parts: Project["parts"]): readonly UnplacedView[] {
  return parts.flatMap((part) => {
    const views = knownPart(part, KINDS)?.views() ?? [];
    return views
      .filter(({ id }) => !part.views.some(({ view }) => view === id))
      .map(({ id, title }) => ({
        part: part.id,
        view: id,
        name: views.length === 1 || title === "" ? part.designation : `${part.designation}, ${title.toLowerCase()}`,
        designation: part.designation,
        title,
      }));
  });
}
