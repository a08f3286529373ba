/** Places that findings name: what they are called here, where they lie on the sheets, how to go there. */
import type { JsonFinding, JsonPlace } from "../../core/checks/report-json.ts";
import type { Project, SheetId } from "../../core/project/document.ts";
import { partById } from "../../core/project/lookup.ts";
import type { EditorStore } from "../window/editor-store.ts";

export function placeName(place: JsonPlace): string {
  if ("part" in place) return place.terminal === undefined ? place.part : `${place.part}:${place.terminal}`;
  if ("wire" in place) return place.wire;
  return `sheet ${place.sheet}`;
}

/** Sheets on which a part's views lie, in the order of its views. */
function sheetsOfPart(project: Project, id: string): readonly SheetId[] {
  return partById(project, id)?.views.map(({ sheet }) => sheet) ?? [];
}

function sheetsOf(project: Project, place: JsonPlace): readonly SheetId[] {
  if ("part" in place) return sheetsOfPart(project, place.id);
  if ("wire" in place) {
    const ends = project.wires.find(({ id }) => id === place.id)?.ends ?? [];
    return ends.flatMap((end) => (end === null ? [] : sheetsOfPart(project, end[0])));
  }
  return project.sheets.filter(({ name }) => name === place.sheet).map(({ id }) => id);
}

/** Selects what stands at the place and turns to its sheet, unless the sheet shown has it too. */
export function goTo(store: EditorStore, place: JsonPlace): void {
  const sheets = sheetsOf(store.project, place);
  const [first] = sheets;
  if (first !== undefined && !sheets.includes(store.now.sheet)) store.set({ sheet: first });
  if ("part" in place) store.select({ parts: [place.id] });
  else if ("wire" in place) store.select({ wires: [place.id] });
  else store.select({});
}

/** Opens a finding and goes to its first place. */
export function openFinding(store: EditorStore, finding: JsonFinding): void {
  store.set({ finding: finding.id });
  const [first] = finding.where;
  if (first !== undefined) goTo(store, first);
}
