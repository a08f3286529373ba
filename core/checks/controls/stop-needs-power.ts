/** A stop that works only while a wire of it is whole. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { CONDITIONS } from "../../circuit/conditions.ts";
import { positionOf } from "../../network/build.ts";
import type { Conductor, NetworkPart } from "../../network/network.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { carriesMore } from "../words/carries-more.ts";
import { drives, isDrawnIn, isEnabled, running, unstatedEnable, withMoved } from "../words/drive-enable.ts";
import { partPlace } from "../words/places.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const stopNeedsPower = defineCheck({
  id: "stop-needs-power",
  group: "controls",
  title: "Stop that needs power to work",
  about:
    "Presses every emergency stop, and trips every inertia switch, by itself while driving at full throttle. Where that takes the drive away, each wire that carries current only then is cut beforehand: the drive must still stop. A stop that does nothing at all is another check's.",
  severities: ["WARNING"],
  source: {
    text: "ISO 13850 and IEC 60204-1: an emergency stop acts by de-energising, so that a broken wire stops too",
    known: "memory",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    energised: {
      title: "{stop} stops {parts} only while {wire} is whole: it has to be fed to act.",
      why: "A broken wire, a loose spade or a blown fuse in the stop's circuit stays hidden until the day somebody hits the stop and nothing happens.",
      mend: "Use a break contact of {stop} in the feed that holds the contactor in, so that whatever interrupts this feed stops the drive as well.",
    },
  },
  reasons: {
    never: "Whether {stop} needs power to act cannot be told, as the drive is enabled in no state.",
  },
  foldsUnder: ["emergency-stop-ineffective"],
  run(analysis, report) {
    const stops = stopsOf(analysis);
    const { driving, enabled } = running(analysis);
    if (driving === undefined || stops.length === 0 || drives(analysis).length === 0) {
      report.doesNotApply();
      return;
    }
    for (const { part, position } of stops) {
      if (enabled.length === 0) {
        const missing = unstatedEnable(analysis);
        const facts = { stop: { place: partPlace(part) } };
        report.notChecked({ where: [partPlace(part)], reason: "never", facts, missing });
      } else lookAt(analysis, driving, part, { [part.part.id]: position }, enabled, report);
    }
  },
});

interface Stop {
  readonly part: NetworkPart;
  /** Where it stands when it has acted. */
  readonly position: string;
}

function stopsOf(analysis: Analysis): readonly Stop[] {
  const { driving } = CONDITIONS;
  const acted = { ...driving, emergencyStop: "pressed", inertia: "tripped" } as const;
  return analysis.network.parts.flatMap((part): Stop[] => {
    const position = positionOf(part, acted);
    return position !== positionOf(part, driving) && isDrawnIn(analysis, part) ? [{ part, position }] : [];
  });
}

function lookAt(
  analysis: Analysis,
  driving: SolvedState,
  stop: NetworkPart,
  set: Readonly<Record<string, string>>,
  enabled: readonly TractionPair[],
  report: Report,
): void {
  const pressed = withMoved(analysis, driving, set);
  const stopped = enabled.filter((drive) => !isEnabled(analysis, pressed, drive));
  const place = partPlace(stop);
  if (stopped.length === 0) {
    report.doesNotApply(place);
    return;
  }
  const needed: Conductor[] = [];
  const left = new Set<TractionPair>();
  for (const conductor of analysis.network.conductors) {
    const { branch } = conductor;
    if (!carriesMore(Math.abs(pressed.currents[branch] ?? 0), Math.abs(driving.currents[branch] ?? 0))) continue;
    const cut = analysis.solveChanged(driving, { set, open: [branch] });
    const runs = stopped.filter((drive) => isEnabled(analysis, cut, drive));
    if (runs.length > 0) needed.push(conductor);
    for (const drive of runs) left.add(drive);
  }
  if (needed.length === 0) {
    report.passes(place);
    return;
  }
  const wires = needed.map(({ wire }) => ({ wire: wire.id }));
  report.fails({
    message: "energised",
    facts: {
      stop: { place },
      parts: { places: [...left].map(({ part }) => partPlace(part)) },
      wire: { places: wires.slice(0, 1) },
    },
    severity: "WARNING",
    where: [place, ...wires],
    touches: [...left].map((drive) => drive.place),
    states: [driving.name],
  });
}
