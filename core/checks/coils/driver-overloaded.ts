import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { coilsOf } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { everyState } from "../words/every-state.ts";
import { branchesOf, joinedIn } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

interface Output {
  readonly part: NetworkPart;
  readonly driver: Branch;
  readonly terminal: string;
  readonly parameter: string;
  readonly rating: Ampere | undefined;
}

/** Wired outputs with the rating that their kind names for them. */
function outputs(analysis: Analysis): readonly Output[] {
  const { network } = analysis;
  return branchesOf(analysis, "driver").flatMap((driver): Output[] => {
    const { part, name } = driver;
    if (part === undefined) return [];
    const limit = part.kind
      .limits(part.values)
      .find(({ kind, element }) => kind === "current-through" && element === name);
    const pairs = new Set(part.kind.supplyPairs(part.values).flatMap(({ plus, minus }) => [plus, minus]));
    const terminal = [driver.a, driver.b]
      .map((node) => network.terminalOfNode[node])
      .find((end) => end?.[0] === part.part.id && !pairs.has(end[1]))?.[1];
    if (limit === undefined || terminal === undefined) return [];
    if (network.wiresAt([part.part.id, terminal]).length === 0) return [];
    return [{ part, driver, terminal, parameter: limit.parameter, rating: part.values.number(limit.parameter) }];
  });
}

/** Coils that metal joins to this output, which hold on less than they pull in with: what that adds. */
function pullInExtra(analysis: Analysis, state: SolvedState, output: Output): Ampere {
  const metal = joinedIn(analysis, state);
  const at = output.part.nodes.get(output.terminal);
  if (at === undefined) return 0;
  const isOn = ({ plus, minus }: CoilAt): boolean => [plus, minus].some((node) => metal.find(node) === metal.find(at));
  return coilsOf(analysis)
    .filter(isOn)
    .reduce((sum, coil) => sum + extraOf(state, coil), 0);
}

function extraOf(state: SolvedState, { part, coil, plus, minus }: CoilAt): Ampere {
  const element = state.elements
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .find(({ type }) => type === "coil");
  if (element?.type !== "coil" || coil.resistance === undefined) return 0;
  const volts = Math.abs(state.between(plus, minus));
  return Math.max(0, volts / coil.resistance - volts / element.resistance);
}

interface Load {
  readonly current: Ampere;
  readonly states: readonly string[];
  readonly state: SolvedState;
}

/** The most that the output carries in any state; where it is never on, as if it were on while driving. */
function heaviest(analysis: Analysis, output: Output): Load | undefined {
  let worst: Load | undefined;
  const { index, a, b } = output.driver;
  const consider = (state: SolvedState, through: Ampere, name: string): void => {
    const current = through + pullInExtra(analysis, state, output);
    if (Number.isNaN(current)) return;
    if (worst === undefined || current > worst.current * (1 + 1e-6)) worst = { current, states: [name], state };
    else if (current > worst.current * (1 - 1e-3)) worst = { ...worst, states: [...worst.states, name] };
  };
  for (const state of everyState(analysis)) {
    const element = state.elements[index];
    if (element?.type === "contact" && element.closed)
      consider(state, Math.abs(state.currents[index] ?? 0), state.name);
  }
  const driving = analysis.state("driving");
  if (worst !== undefined || driving === undefined) return worst;
  const on = analysis.solveChanged(driving, { shorts: [[a, b]], hold: true });
  consider(on, Math.abs(on.shortCurrents[0] ?? 0), `${driving.name} with the output on`);
  return worst;
}

/** Coils of which the current is a guess, so that the sum is one. */
function unknownCoils(analysis: Analysis, { state }: Load, output: Output): readonly MissingField[] {
  const metal = joinedIn(analysis, state);
  const at = output.part.nodes.get(output.terminal);
  return coilsOf(analysis)
    .filter(({ coil, plus, minus }) => {
      if (coil.resistance !== undefined || at === undefined) return false;
      return [plus, minus].some((node) => metal.find(node) === metal.find(at));
    })
    .map(({ part }) => ({
      part: part.part.id,
      parameter: "coilPower" in part.kind.parameters ? "coilPower" : "coilResistance",
    }));
}

/** Nothing that leaks or measures counts as a load. */
const LEAST: Ampere = 1e-3;

/** What hangs on the output: parts with an end that metal joins to it. */
function loadsOn(analysis: Analysis, { state }: Load, output: Output): readonly Place[] {
  const metal = joinedIn(analysis, state);
  const at = output.part.nodes.get(output.terminal);
  return analysis.network.parts
    .filter((part) => part !== output.part && (part.kind.traits.load === true || part.kind.coils !== undefined))
    .filter((part) =>
      [
        ...part.kind.supplyPairs(part.values).flatMap(({ plus, minus }) => [plus, minus]),
        ...(part.kind.coils?.(part.values) ?? []).flatMap(({ plus, minus }) => [plus, minus]),
      ].some((id) => at !== undefined && metal.find(part.nodes.get(id) ?? -1) === metal.find(at)),
    )
    .map(partPlace);
}

function look(analysis: Analysis, report: Report, output: Output): void {
  const { part, terminal, rating, parameter } = output;
  const place = terminalPlace(part, terminal);
  const load = heaviest(analysis, output);
  if (load === undefined || load.current < LEAST) {
    report.doesNotApply(place);
    return;
  }
  const facts = { output: { place }, current: { value: load.current, dimension: "current" } } as const;
  const unknown = unknownCoils(analysis, load, output);
  if (rating === undefined) {
    report.notChecked({ where: [place], reason: "rating", facts, missing: [{ part: part.part.id, parameter }] });
  } else if (unknown.length > 0) {
    report.notChecked({ where: [place], reason: "coil", facts, missing: unknown });
  } else if (load.current <= rating) report.passes(place);
  else {
    const loads = loadsOn(analysis, load, output);
    report.fails({
      message: "overloaded",
      severity: "WARNING",
      facts: {
        ...facts,
        limit: { value: rating, dimension: "current" },
        loads: { places: loads.length > 0 ? loads : [place] },
      },
      where: [place, ...loads],
      states: load.states,
      value: load.current,
      limit: rating,
      unit: "A",
    });
  }
}

export const driverOverloaded = defineCheck({
  id: "driver-overloaded",
  group: "coils",
  title: "Output that carries more than it is made for",
  about:
    "Adds up what coils, inputs, lamps and other loads draw from each output of a controller, control unit or monitor in the heaviest state, coils with an economiser at what they pull in with, and holds it against the output's rating. " +
    "An output that is never on is looked at as if it were on while driving.",
  severities: ["WARNING"],
  source: { text: "Rating as stated on the drawing", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    overloaded: {
      title: "{output} carries {current} for {loads}; it is made for {limit}.",
      why: "The transistor inside overheats: it fails open and the contactor drops out while driving, or it fails closed and the contactor never lets go.",
      mend: "Let {output} switch a small relay and the relay the rest, or fit coils that draw less.",
    },
  },
  reasons: {
    rating: "{output} carries {current}; how much it is made for is not stated.",
    coil: "What the coils on {output} draw is not stated.",
  },
  foldsUnder: ["source-shorted", "supply-reversed", "diode-reversed", "coil-voltage-wrong"],
  run(analysis, report) {
    for (const output of outputs(analysis)) look(analysis, report, output);
  },
});
