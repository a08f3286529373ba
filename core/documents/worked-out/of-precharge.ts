/** What the studies say of pre-charge, and what happened to a part when the key was turned or the stop pressed. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { TransitionName } from "../../circuit/transition/transition.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Joule } from "../../quantity/kinds.ts";
import { prechargeStudies } from "../../studies/precharge.ts";
import type { PrechargeOfController } from "../../studies/precharge.ts";
import type { Wording, WorkedRow, WorkedSection } from "./worked-out.ts";

/** What is moved, as a heading says it. */
const WHEN: readonly (readonly [name: TransitionName, title: string])[] = [
  ["key-on", "When the key goes on"],
  ["emergency-stop", "When the stop is pressed at full load"],
];

/** Less heat than this is none. */
const LEAST_HEAT: Joule = 1e-3;

export function* ofPrecharge(say: Wording, part: NetworkPart): Generator<WorkedSection> {
  for (const study of prechargeStudies(say.analysis)) {
    if (!concerns(say, study, part)) continue;
    yield { title: `Pre-charge of ${study.controller.part.designation}`, rows: studyRows(say, study) };
    for (const strain of study.strain) {
      if (strain.part !== part) continue;
      yield {
        title: "What it has to stand",
        rows: [
          {
            label: "Heat of one full charge",
            text: say.figure(strain.energy, "energy"),
            ...against(say, strain.pulseEnergy, "energy"),
          },
          {
            label: "Bus shorted for good",
            text: say.figure(strain.shortedPower, "power"),
            ...against(say, strain.power, "power"),
          },
        ],
      };
    }
  }
  for (const [name, title] of WHEN) {
    const rows = happened(say, name, part);
    if (rows.length > 0) yield { title, rows };
  }
}

const against = (say: Wording, stated: number | undefined, dimension: "energy" | "power"): Pick<WorkedRow, "note"> => ({
  note: stated === undefined ? "what it stands is not stated" : `stated to stand ${say.figure(stated, dimension)}`,
});

/** The controller, its capacitors, the resistor, and the contacts whose closing joins bus and pack. */
function concerns({ analysis }: Wording, study: PrechargeOfController, part: NetworkPart): boolean {
  if (study.controller === part || study.capacitors.includes(part)) return true;
  if (study.path?.resistors.includes(part) === true) return true;
  if (part.kind.traits.contactor !== true || !analysis.transitionNames.includes("key-on")) return false;
  const closings = analysis.transition("key-on")?.closings ?? [];
  const own = new Set(study.capacitors);
  return closings.some(
    (closing) =>
      closing.part === part &&
      closing.capacitors.some(({ branch }) => {
        const at = analysis.network.branches[branch]?.part;
        return at !== undefined && own.has(at);
      }),
  );
}

function studyRows(say: Wording, study: PrechargeOfController): readonly WorkedRow[] {
  const { capacitance, path, asDrawn, proposed, missing, pack } = study;
  const resistors = path?.resistors.map(({ part }) => part.designation).join(" and ");
  const drawn = asDrawn?.answer;
  const wanted = proposed.answer;
  return [
    {
      label: "Capacitance of the bus",
      text: say.figure(capacitance, "capacitance"),
      lacks: say.lacks(missing),
    },
    { label: "Pack at its highest", text: say.figure(pack.highest, "voltage") },
    path === undefined
      ? { label: "As drawn", text: "no resistor fills the bus" }
      : {
          label: "As drawn",
          text: `${resistors ?? ""}, ${say.figure(path.resistance, "resistance")}`,
          note: `seen in ${path.state.name}`,
        },
    ...(drawn === undefined
      ? []
      : [
          {
            label: "Bus at closing",
            text: say.figure(drawn.atClosing, "voltage", 4),
            note: `${say.figure(drawn.atClosing / pack.highest, "ratio")} of the pack; settles at ${say.figure(drawn.settles, "voltage", 4)}`,
            inputs: asDrawn === undefined ? [] : say.inputs(asDrawn),
            sources: asDrawn === undefined ? [] : say.sources(asDrawn),
          },
          {
            label: "Reaches its share",
            text: drawn.reaches === Infinity ? "never" : `after ${say.figure(drawn.reaches, "time")}`,
          },
        ]),
    ...(wanted === undefined
      ? []
      : [
          {
            label: "Resistor to choose",
            text: say.figure(wanted.resistor, "resistance"),
            note: `${say.figure(wanted.peakCurrent, "current")} at first, ${say.figure(wanted.pulseEnergy, "energy")} each time; give up after ${say.figure(wanted.timeout, "time")}`,
            inputs: say.inputs(proposed),
            sources: say.sources(proposed),
          },
        ]),
  ];
}

function happened(say: Wording, name: TransitionName, part: NetworkPart): readonly WorkedRow[] {
  const { analysis } = say;
  const transition = analysis.transitionNames.includes(name) ? analysis.transition(name) : undefined;
  if (transition === undefined) return [];
  const isBus = (branch: number): boolean => analysis.network.branches[branch]?.part === part;
  const assumed = say.lacks(transition.assumed.map(({ part: at, parameter }) => ({ part: at.part.id, parameter })));
  const when = (time: number): string => `after ${say.figure(time, "time")}`;
  const rows: WorkedRow[] = [
    ...transition.closings.flatMap((closing): WorkedRow[] => {
      if (closing.part === part)
        return [
          {
            label: `Across ${contactName(analysis, closing.branch)} at closing`,
            text: say.figure(Math.abs(closing.voltsBefore), "voltage"),
            note: `${when(closing.time)}; inrush ${say.figure(Math.abs(closing.peak), "current")}, then ${say.figure(Math.abs(closing.after), "current")}`,
          },
        ];
      return closing.capacitors.flatMap(({ branch, volts }): WorkedRow[] =>
        isBus(branch)
          ? [
              {
                label: `At closing of ${closing.part.part.designation}`,
                text: say.figure(Math.abs(volts), "voltage"),
                note: `${when(closing.time)}; inrush ${say.figure(Math.abs(closing.peak), "current")}`,
              },
            ]
          : [],
      );
    }),
    ...transition.openings.flatMap((opening): WorkedRow[] =>
      opening.part === part
        ? [
            {
              label: `Through ${contactName(analysis, opening.branch)} at opening`,
              text: say.figure(Math.abs(opening.current), "current"),
              note: `${when(opening.time)}; ${say.figure(Math.abs(opening.voltsAfter), "voltage")} across it once open`,
            },
          ]
        : [],
    ),
    ...transition.resistors.flatMap((pulse): WorkedRow[] =>
      pulse.part === part && pulse.energy > LEAST_HEAT
        ? [
            {
              label: "Heat in it",
              text: say.figure(pulse.energy, "energy"),
              note: `at most ${say.figure(pulse.peakPower, "power")}`,
            },
          ]
        : [],
    ),
  ];
  return rows.map((row, index) => (index === 0 && assumed.length > 0 ? { ...row, lacks: assumed } : row));
}

/** "its contact"; of a part with several, by name: "its contact aux". */
function contactName({ network }: Analysis, branch: number): string {
  const name = network.branches[branch]?.name ?? "";
  return name === "contact" || name === "" ? "its contact" : `its contact ${name}`;
}
