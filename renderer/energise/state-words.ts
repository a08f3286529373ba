/** Operating states as the strip and the card tell of them. */
import type { CheckDocument } from "../../core/checks/report-json.ts";
import type { Project } from "../../core/project/document.ts";
import { partById } from "../../core/project/lookup.ts";
import type { StateView } from "../window/analysis/protocol.ts";

/** Findings that count and name this state. */
export const findingsIn = (checked: CheckDocument | null, state: string): number =>
  (checked?.findings ?? []).filter(({ accepted, states }) => accepted === null && states.includes(state)).length;

/** "T2: cannot start on this feed." */
export const remarksIn = (project: Project, { remarks }: StateView): readonly string[] =>
  remarks.map(({ part, remark }) => `${partById(project, part)?.designation ?? part}: ${remark}`);

const plural = (count: number, one: string, many: string): string => `${String(count)} ${count === 1 ? one : many}`;

/** What a station tells to those who do not see it. */
export function spokenState(project: Project, checked: CheckDocument | null, state: StateView): string {
  const { traction, auxiliary } = state.live;
  const told = [
    `${plural(traction, "net", "nets")} live in traction`,
    `${plural(auxiliary, "net", "nets")} live in the 12 V circuit`,
    plural(findingsIn(checked, state.name), "finding", "findings"),
    ...remarksIn(project, state),
  ];
  return `${state.name}: ${told.join(", ")}`;
}
