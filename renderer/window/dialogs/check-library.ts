/**
 * The checks and the pictures of their pages, fetched when somebody asks for them: the window itself does without. The
 * pictures are the files of assets/check-pages.
 */
import { CHECKS } from "../../../core/checks/catalogue.ts";
import type { Check, Group } from "../../../core/checks/define.ts";
import { withTitles } from "../../../core/checks/titles.ts";

const PICTURES = import.meta.glob<string>("../../../assets/check-pages/*.svg", {
  query: "?url",
  import: "default",
  eager: true,
});

export type Side = "wrong" | "right";

/** Address of a picture; undefined where a check has none. */
export const pictureAddress = (check: string, side: Side): string | undefined =>
  PICTURES[`../../../assets/check-pages/${check}-${side}.svg`];

/** What the groups look at, in the order in which mistakes are mended. */
const GROUP_TITLES: Readonly<Record<Group, string>> = {
  connections: "Connections",
  polarity: "Polarity",
  shorts: "Short circuits",
  overcurrent: "Fuses and breakers",
  switching: "Contactors and switches",
  precharge: "Pre-charge",
  coils: "Coils and outputs",
  voltages: "Voltages and sources",
  shock: "Electric shock",
  conductors: "Wires",
  controls: "Driving and stopping",
  charging: "Charging and the 12 V side",
  drawing: "The drawing itself",
};

export interface CheckGroup {
  readonly title: string;
  readonly checks: readonly Check[];
}

export const checkById = (id: string): Check | undefined => CHECKS.find((check) => check.id === id);

/** What a check looks at; others that it speaks of go by their titles. */
export const aboutOf = ({ about }: Check): string => withTitles(about);

/** Groups with the checks for which `wanted` holds; a group without any is left out. */
export function checkGroups(wanted: (check: Check, group: string) => boolean): readonly CheckGroup[] {
  return Object.entries(GROUP_TITLES)
    .map(([group, title]) => ({
      title,
      checks: CHECKS.filter((check) => check.group === group && wanted(check, title)),
    }))
    .filter(({ checks }) => checks.length > 0);
}
