/** Single faults as a person reads them in a terminal window: one screen first, then each of them, worst first. */
import type { Analysis } from "../../core/circuit/analysis.ts";
import type { Network } from "../../core/network/network.ts";
import type { Consequence } from "../../core/studies/single-faults.ts";
import { SEVERITY_ORDER } from "../../core/studies/single-faults-effects.ts";
import { faultCounts } from "../../core/studies/single-faults-json.ts";
import {
  effectWords,
  faultPlaces,
  faultWords,
  HIDDEN,
  NOTHING_CHANGES,
  placeName,
} from "../../core/studies/single-faults-words.ts";
import { wrap } from "./table.ts";

/** Lines of the first screen that name faults. */
const MOST_AT_FIRST = 10;
const MOST_ALIKE = 6;

const MEANING = {
  DANGER: "will kill or badly injure",
  WARNING: "could",
  CAUTION: "minor injury",
  NOTICE: "something stops working, or works when it should not",
} as const;

/** Faults of one kind that lead to the same: told once, with all their places. */
function alike(network: Network, study: readonly Consequence[]): readonly (readonly Consequence[])[] {
  const groups = new Map<string, Consequence[]>();
  for (const each of study) {
    const effects = each.effects.map(({ kind, severity, states, places }) => {
      // Of a first isolation fault the place is that of the fault.
      const at = kind.startsWith("traction-on-") ? "" : places.map((place) => placeName(network, place)).join(" ");
      return `${severity} ${kind} ${states.join(" ")} ${at}`;
    });
    const key = `${each.fault.kind} ${String(each.hidden)} ${effects.join("; ")}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()];
}

function title(network: Network, group: readonly Consequence[]): string {
  const [first] = group;
  if (first === undefined) return "";
  const words = faultWords(network, first.fault);
  if (group.length === 1) return words;
  const others = group
    .slice(1)
    .map(({ fault }) => [...new Set(faultPlaces(fault).map((place) => placeName(network, place)))].join(" - "));
  const shown = others.length > MOST_ALIKE ? others.slice(0, MOST_ALIKE) : others;
  const left = others.length - shown.length;
  return `${words}; likewise ${shown.join(", ")}${left === 0 ? "" : ` and ${left} more`}`;
}

function block(network: Network, group: readonly Consequence[]): string {
  const [first] = group;
  if (first === undefined) return "";
  const lines = [wrap(`${title(network, group)}.`, "  ")];
  for (const effect of first.effects) {
    const { what, why } = effectWords(network, effect);
    lines.push(wrap(`${effect.severity}: ${what} ${why}`, "      "));
  }
  if (first.hidden) lines.push(wrap(HIDDEN, "      "));
  return lines.join("\n");
}

/** The whole report, without a newline at its end. */
export function faultsReport(name: string, { network, states }: Analysis, study: readonly Consequence[]): string {
  const counts = faultCounts(study);
  const told = SEVERITY_ORDER.map(
    (severity) => `  ${String(counts[severity]).padStart(5)}  ${severity} (${MEANING[severity]})`,
  );
  const worst = alike(
    network,
    study.filter(({ severity }) => severity === "DANGER" || severity === "WARNING"),
  );
  const blocks = [
    wrap(
      `${name}: ${study.length} single faults, each looked at in ${states.map((state) => state.name).join(", ")}.`,
      "",
    ),
    "Each is one thing that fails by itself on a vehicle wired as drawn. What they lead to:",
    "",
    ...told,
    `  ${String(counts.nothing).padStart(5)}  change nothing that was looked at`,
    `  ${String(counts.hidden).padStart(5)}  of all these show in no reading and in nothing that moves, lights or sounds`,
  ];
  if (worst.length > 0) {
    blocks.push("\nThe worst first");
    for (const group of worst.slice(0, MOST_AT_FIRST)) {
      const severity = group[0]?.severity ?? "";
      blocks.push(`  ${severity.padEnd(7)}  ${wrap(title(network, group), "           ").trimStart()}`);
    }
    if (worst.length > MOST_AT_FIRST) blocks.push(`  and ${worst.length - MOST_AT_FIRST} more, below`);
  }
  for (const severity of SEVERITY_ORDER) {
    const groups = alike(
      network,
      study.filter((each) => each.severity === severity),
    );
    if (groups.length === 0) continue;
    blocks.push(`\n${severity} (${counts[severity]})\n`, ...groups.map((group) => block(network, group)));
  }
  const nothing = study.filter(({ effects }) => effects.length === 0);
  for (const [heading, hidden] of [
    [`${NOTHING_CHANGES} ${HIDDEN}`, true],
    [`${NOTHING_CHANGES} A reading with a meter shows it`, false],
  ] as const) {
    const groups = alike(
      network,
      nothing.filter((each) => each.hidden === hidden),
    );
    if (groups.length === 0) continue;
    const lines = groups.map((group) => wrap(`${title(network, group)}.`, "  "));
    blocks.push(`\n${wrap(`${heading}${hidden ? "" : "."}`, "")}\n`, ...lines);
  }
  return blocks.join("\n");
}
