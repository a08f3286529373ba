/** Makes a transition: its course in time, and what it comes to. Entry: `runTransition`. */
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Element } from "../../parts/element.ts";
import type { Second, Volt } from "../../quantity/kinds.ts";
import type { Bench } from "../bench.ts";
import { hold } from "../settle.ts";
import { Solved } from "../solved.ts";
import { Course } from "./course.ts";
import { Draining } from "./draining.ts";
import { Outcomes } from "./outcomes.ts";
import type { Plan } from "./plans.ts";
import type { Transition } from "./transition.ts";

/** Carries a drawing from the solved state `start` through a plan. Never throws on a drawing, however unfinished. */
export function runTransition(start: Solved, plan: Plan): Transition {
  const course = new Course(start, plan);
  const { traces } = course.log;
  const outcomes = new Outcomes(course);
  const at = (time: Second): Solved => momentOf(course, time);
  const end = at(traces.times[traces.last] ?? 0);
  // Where everything would come to rest with the contacts as they stand: capacitors are then open.
  const rest = hold(course.bench, course.condition, { partStates: course.partStates });
  const { a, b } = course.bench;
  const ends = (branch: BranchIndex): readonly [number, number] => [
    a[branch] ?? CHASSIS_NODE,
    b[branch] ?? CHASSIS_NODE,
  ];
  const settled = new Solved(plan.to, course.bench, rest);
  const draining = new Draining(course);
  const across = (branch: BranchIndex): Volt => {
    const volts = settled.between(...ends(branch));
    return Number.isNaN(volts) ? 0 : volts;
  };
  return {
    name: plan.name,
    from: plan.from,
    to: plan.to,
    times: Float64Array.from(traces.times),
    volts: (node) => traces.volts(node),
    currents: (branch) => traces.currents(branch),
    events: course.log.events.slice().sort((one, other) => one.time - other.time),
    closings: outcomes.closings(),
    openings: outcomes.openings(),
    resistors: outcomes.resistors(),
    turnOffs: outcomes.turnOffs(),
    discharges: outcomes.discharges(across, (branch) => settled.resistanceBetween(...ends(branch))),
    drainOf: (capacitors, voltage) => draining.current(capacitors, voltage),
    chatter: course.chatter,
    at,
    end,
    assumed: assumedOf(course.bench, course.drawn),
    trouble: course.trouble,
  };
}

/**
 * The circuit at one moment: solved with contacts as they stood and capacitors at their voltage, so that questions can
 * be asked of it; volts and currents are then those of the traces, between samples by straight lines.
 */
function momentOf({ log: { traces, stretches }, stepper, plan }: Course, time: Second): Solved {
  const { sample, part } = traces.moment(time);
  const stretch = stretches.findLast((each) => each.sample <= sample) ?? stretches[0]!;
  const { bench, condition, partStates } = stretch;
  const { elements, troubles } = bench.assemble(condition, partStates);
  const next = Math.min(sample + 1, traces.last);
  const between = (from: number, to: number): number =>
    part === 0 || Number.isNaN(to) ? from : from + part * (to - from);
  const [one, other] = [traces.at(sample), traces.at(next)];
  const volts = (node: number): Volt => between(one.voltsAt(node), other.voltsAt(node));
  const held = new Map<BranchIndex, Volt>();
  for (const { branch, coil } of stepper.stores) {
    const across = volts(bench.a[branch] ?? CHASSIS_NODE) - volts(bench.b[branch] ?? CHASSIS_NODE);
    if (!coil && !Number.isNaN(across)) held.set(branch, across);
  }
  const solution = bench.solver.solve(elements, undefined, held);
  for (let node = 0; node < solution.volts.length; node += 1) solution.volts[node] = volts(node);
  for (let branch = 0; branch < solution.currents.length; branch += 1) {
    solution.currents[branch] = between(one.currentAt(branch), other.currentAt(branch));
  }
  return new Solved(plan.to, bench, { condition, elements, partStates, solution, held, chatter: [], troubles });
}

/** Figures that nobody stated, by part and parameter. */
function assumedOf(bench: Bench, elements: readonly Element[]): Transition["assumed"] {
  const { parts, branches } = bench.network;
  const found = new Map<string, { readonly part: NetworkPart; readonly parameter: string }>();
  const add = (part: NetworkPart, parameter: string): void => {
    found.set(`${part.part.id} ${parameter}`, { part, parameter });
  };
  const named = ({ kind }: NetworkPart, dimension: string): string | undefined =>
    Object.entries(kind.parameters).find(([, spec]) => "dimension" in spec && spec.dimension === dimension)?.[0];
  elements.forEach((element, branch) => {
    const part = branches[branch]?.part;
    if (part === undefined) return;
    const missing =
      element.type === "coil" && element.inductance === undefined
        ? named(part, "inductance")
        : element.type === "capacitor" && element.capacitance === undefined
          ? named(part, "capacitance")
          : undefined;
    if (missing !== undefined) add(part, missing);
  });
  for (const part of parts)
    for (const parameter of part.kind.inTime?.assumed?.(part.values) ?? []) add(part, parameter);
  return [...found.values()];
}
