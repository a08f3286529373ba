/** What hands, tools and loose plugs find at the terminals of a part. */
import type { NetworkPart } from "../../network/network.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { PROBE_SOURCE } from "../../standards/contact-protection.ts";
import { reachStudy } from "../../studies/reach.ts";
import type { LowVoltageReach, ReachStudy } from "../../studies/reach.ts";
import type { Spot } from "../../studies/words/panel.ts";
import type { Analysis } from "../../circuit/analysis.ts";
import type { Wording, WorkedRow, WorkedSection } from "./worked-out.ts";
import { whenIn } from "./worked-out.ts";

const remembered = new WeakMap<Analysis, ReachStudy>();

function reachOf(analysis: Analysis): ReachStudy {
  let study = remembered.get(analysis);
  if (study === undefined) remembered.set(analysis, (study = reachStudy(analysis)));
  return study;
}

const spotName = ({ part, terminal }: Spot): string => `${part.part.designation}:${terminal.id}`;

export function* ofReach(say: Wording, part: NetworkPart): Generator<WorkedSection> {
  const { finger, spanner, plug } = reachOf(say.analysis);
  const rows: WorkedRow[] = [
    ...finger.flatMap(({ spot, volts, states, classB, missing }): WorkedRow[] =>
      spot.part === part
        ? [
            {
              label: `A finger at ${spot.terminal.id}`,
              text: `${say.figure(volts, "voltage")} at most${classB ? "" : ", below 60 V"}`,
              note: `${missing === undefined ? "bare" : "not stated whether it is covered"}; live ${whenIn(states)}`,
              lacks: missing === undefined ? [] : say.lacks([missing]),
              sources: [PROBE_SOURCE],
            },
          ]
        : [],
    ),
    ...spanner.flatMap(({ a, b, volts, states, apart }): WorkedRow[] => {
      if (a.part !== part && b.part !== part) return [];
      return [
        {
          label: `A spanner, ${spotName(a)} to ${spotName(b)}`,
          text: `${say.figure(volts, "voltage")}, ${say.figure(apart / 1000, "length")} apart`,
          note: whenIn(states),
          sources: [PRACTICE_SOURCE],
        },
      ];
    }),
    ...plug.flatMap((reach): WorkedRow[] => (reach.spot.part === part ? [plugRow(say, reach)] : [])),
  ];
  if (rows.length > 0) yield { title: "Within reach", rows };
}

/** The nearest by name, the rest counted. */
function plugRow(say: Wording, { spot, near, states }: LowVoltageReach): WorkedRow {
  const [first, ...more] = near.toSorted((a, b) => a.apart - b.apart);
  const named = first === undefined ? "" : say.names.place(first.threat.place);
  const unstated = near.flatMap(({ threat }) => (threat.bare === undefined ? [threat.unstated] : []));
  return {
    label: `12 V metal near ${spot.terminal.id}`,
    text: `${named}, ${say.figure((first?.apart ?? NaN) / 1000, "length")} away`,
    note: `${more.length === 0 ? "" : `and ${String(more.length)} more; `}within reach of its lead or too near; live ${whenIn(states)}`,
    lacks: say.lacks(unstated),
  };
}
