/** What the studies say of a fuse or breaker: load, short circuit, clearing, the rating it needs, which clears first. */
import type { NetworkPart } from "../../network/network.ts";
import { clearingDevice, clearingTime } from "../../studies/fuse-clearing.ts";
import { fuseSizes } from "../../studies/fuse-sizes.ts";
import type { FuseSize } from "../../studies/fuse-sizes.ts";
import { selectivity } from "../../studies/prospective-current.ts";
import { inStates, RATING_DECIDES, SELECTIVITY, SHORTFALLS } from "../size-words.ts";
import type { Wording, WorkedRow, WorkedSection } from "./worked-out.ts";
import { whenIn } from "./worked-out.ts";

export function* ofDevice(say: Wording, part: NetworkPart): Generator<WorkedSection> {
  const { device } = part.kind.traits;
  if (device !== "fuse" && device !== "breaker") return;
  for (const size of fuseSizes(say.analysis)) {
    if (size.device.part !== part) continue;
    yield { title: "Load and short circuit", rows: [loadRow(say, size), ...shortRows(say, size)] };
    yield { title: "Rating that it needs", rows: ratingRows(say, size) };
    const order = orderRows(say, part);
    if (order.length > 0) yield { title: "Which clears first", rows: order };
  }
}

function loadRow(say: Wording, { question, states, open }: FuseSize): WorkedRow {
  const known = question.continuous !== undefined;
  const missing = known ? [] : open.flatMap((each) => (each.what === "rating" ? each.missing : []));
  return {
    label: "Load, the most",
    text: known ? say.figure(question.continuous, "current") : "not known",
    note: whenIn(states),
    lacks: say.lacks(missing),
  };
}

function shortRows(say: Wording, { device, prospective }: FuseSize): readonly WorkedRow[] {
  if (prospective === undefined) return [{ label: "Short circuit behind it", text: "not known" }];
  const { least, most } = prospective;
  const clearing = clearingDevice(device.part);
  const [soon, late] = [clearingTime(clearing, most), clearingTime(clearing, least)];
  const id = device.part.part.id;
  const unknown = [
    ...(device.rating === undefined ? [device.ratingField] : []),
    ...(clearing.points.length === 0 && "curvePoints" in device.part.kind.parameters
      ? [{ part: id, parameter: "curvePoints" }]
      : []),
  ];
  const shortest = soon?.least ?? 0;
  const longest = late?.most ?? Infinity;
  return [
    { label: "Short circuit behind it", text: say.range(least, most, "current") },
    soon === undefined || late === undefined
      ? { label: "Clears it", text: "not known when", lacks: say.lacks(unknown) }
      : {
          label: "Clears it",
          text:
            longest === Infinity
              ? "nothing says that it does"
              : shortest <= 0
                ? `within ${say.figure(longest, "time")}`
                : say.range(shortest, longest, "time"),
          lacks: longest === Infinity ? say.lacks(unknown) : [],
          sources: [soon.source],
        },
  ];
}

function ratingRows(say: Wording, size: FuseSize): readonly WorkedRow[] {
  const { device, study, wires, fallsShort, bursts, open } = size;
  const { answer } = study;
  const falls = fallsShort.map((each) => SHORTFALLS[each]).join("; ");
  const numbers = wires.map(({ wire }) => say.names.wire(wire.id));
  return [
    {
      label: "As drawn",
      text: device.rating === undefined ? "no rating stated" : say.figure(device.rating, "current"),
      ...(falls === "" ? {} : { note: falls }),
      lacks: device.rating === undefined ? say.lacks([device.ratingField]) : [],
    },
    {
      label: "Smallest standard",
      text: say.figure(answer.rating, "current"),
      ...(answer.decides === undefined ? {} : { note: `decided by ${RATING_DECIDES[answer.decides]}` }),
      inputs: say.inputs(study),
      sources: say.sources(study),
    },
    {
      label: "At most, for its wires",
      text: say.figure(answer.most, "current"),
      note: numbers.length === 0 ? "it protects no wire" : `protects ${inStates(numbers)}`,
    },
    {
      label: "Has to break",
      text: `${say.figure(answer.voltageDc, "voltage")} DC, ${say.figure(answer.interrupting, "current")}`,
    },
    ...(device.part.kind.traits.device === "fuse"
      ? [{ label: "Class", text: answer.fuseClass, sources: [answer.classSource] }]
      : []),
    ...bursts.map(
      ({ part, current, carried }): WorkedRow => ({
        label: `Burst of ${part.part.designation}`,
        text: say.figure(current, "current"),
        note:
          carried === undefined
            ? "not known how long it carries that"
            : carried === Infinity
              ? "carried for good"
              : `carried for ${say.figure(carried, "time")} at least`,
      }),
    ),
    ...say.open(open),
  ];
}

/** Against each device nearer to the source: the worst answer of all faults behind this one. */
function orderRows(say: Wording, part: NetworkPart): readonly WorkedRow[] {
  const rank = { lost: 0, unknown: 1, selective: 2 } as const;
  const worst = new Map<string, keyof typeof rank>();
  for (const { nearest, others, verdict } of selectivity(say.analysis)) {
    if (nearest.device.part !== part) continue;
    const key = others.map(({ device }) => device.part.part.designation).join(", ");
    const before = worst.get(key);
    if (before === undefined || rank[verdict] < rank[before]) worst.set(key, verdict);
  }
  return [...worst].map(([others, verdict]) => ({ label: `Before ${others}`, text: SELECTIVITY[verdict] }));
}
