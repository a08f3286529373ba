/** Three hundred parts and six hundred wires on one sheet, for benches of the window: far more than a person would draw on one. */
import { placedViews } from "../../core/layout/placed-view.ts";
import type { Project } from "../../core/project/document.ts";
import { kindOf } from "../../core/parts/catalogue.ts";
import { readValues } from "../../core/parts/values.ts";
import { largeVehicle } from "./large-vehicle.ts";

const COLUMNS = 20;
const GAP = 10;

/** Each of the branches stands for nearly five parts and nine wires. */
export function crowdedSheet(branches = 68): Project {
  const project = largeVehicle(branches);
  const sheet = project.sheets[0]?.id ?? "s1";
  let [x, y, rowHeight, inRow] = [40, 40, 0, 0];
  const parts = project.parts.map((part) => {
    const kind = kindOf(part.kind);
    const views = kind === undefined ? [] : kind.views(readValues(kind, part.parameters));
    return {
      ...part,
      views: views.map(({ id, box }) => {
        if (inRow === COLUMNS) [x, y, rowHeight, inRow] = [40, y + rowHeight + GAP, 0, 0];
        const place = {
          view: id,
          sheet,
          x: Math.ceil((x - box.x) / 2.5) * 2.5,
          y: Math.ceil((y - box.y) / 2.5) * 2.5,
          turn: 0 as const,
          mirrored: false,
        };
        x += Math.ceil(box.width / 2.5) * 2.5 + GAP;
        rowHeight = Math.max(rowHeight, Math.ceil(box.height / 2.5) * 2.5);
        inRow += 1;
        return place;
      }),
    };
  });
  return { ...project, parts };
}

/** How many views stand on the first sheet. */
export const viewCount = (project: Project): number => placedViews(project, project.sheets[0]?.id ?? "s1").length;
