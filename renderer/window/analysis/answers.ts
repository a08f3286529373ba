/** What the worker answers when the window asks for more than the steady picture. */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { singleFaults } from "../../../core/circuit/faults.ts";
import { runJson } from "../../../core/documents/run-json.ts";
import { workedOut } from "../../../core/documents/worked-out/of-selected.ts";
import { diagnoseJson } from "../../../core/studies/diagnose-json.ts";
import { projectReadings } from "../../../core/studies/diagnose-readings.ts";
import { candidates, explain } from "../../../core/studies/diagnose.ts";
import { faultsJson } from "../../../core/studies/single-faults-json.ts";
import { faultWords } from "../../../core/studies/single-faults-words.ts";
import { faultConsequence, singleFaultStudy } from "../../../core/studies/single-faults.ts";
import type { Consequence } from "../../../core/studies/single-faults.ts";
import { curvesOf } from "./curves.ts";
import type { Answer, Question, ReportQuestion, StateView, TransitionView } from "./protocol.ts";
import { furtherState } from "./solved-view.ts";

/** So long, in ms, the worker may go on before it looks whether the drawing has changed. */
const SLICE = 30;

/**
 * undefined where the drawing has no such thing, or has changed (`pause` then says no). The fault study takes seconds on
 * a large drawing: it is done in slices, and what it has worked out is kept with the analysis.
 */
export async function answerTo(
  analysis: Analysis,
  question: Exclude<Question, ReportQuestion>,
  pause: () => Promise<boolean>,
): Promise<Answer | undefined> {
  switch (question.about) {
    case "transition": {
      const transition = analysis.transition(question.name);
      if (transition === undefined) return undefined;
      const view: TransitionView = { document: runJson(analysis, transition), curves: curvesOf(analysis, transition) };
      return view;
    }
    case "moment": {
      const transition = analysis.transition(question.name);
      return transition === undefined ? undefined : furtherState(analysis, transition.at(question.time));
    }
    case "faults": {
      const done = await inSlices(eachConsequence(analysis), pause);
      return done === undefined ? undefined : faultsJson(analysis, singleFaultStudy(analysis));
    }
    case "fault":
      return faultedState(analysis, question.key, question.state);
    case "studies":
      return inSlices(
        workedOut(analysis, "wire" in question ? { wire: question.wire } : { part: question.part }),
        pause,
      );
    case "readings": {
      const read = projectReadings(analysis);
      if (!read.ok) return { problem: read.problem };
      const laid = await inSlices(candidates(analysis, read.sets), pause);
      if (laid === undefined) return undefined;
      const volts = read.sets.flatMap((set) => set.volts);
      return { document: diagnoseJson(analysis, volts.length, explain({ candidates: laid }, volts)) };
    }
  }
}

/** Everything that is given, with a look in between whether the drawing has changed; undefined if it has. */
async function inSlices<Item>(
  items: Iterable<Item>,
  pause: () => Promise<boolean>,
): Promise<readonly Item[] | undefined> {
  const done: Item[] = [];
  let begun = performance.now();
  for (const item of items) {
    done.push(item);
    if (performance.now() - begun < SLICE) continue;
    if (!(await pause())) return undefined;
    begun = performance.now();
  }
  return done;
}

function* eachConsequence(analysis: Analysis): Generator<Consequence> {
  for (const fault of singleFaults(analysis)) yield faultConsequence(analysis, fault);
}

function faultedState(analysis: Analysis, key: string, name: string): StateView | undefined {
  const fault = singleFaults(analysis).find((each) => each.key === key);
  // Moments of the study that are no states of the drawing (the pedal let go, the key turned off) came out of driving.
  const state = analysis.state(name) ?? analysis.state("driving") ?? analysis.states[0];
  if (fault === undefined || state === undefined) return undefined;
  const view = furtherState(analysis, analysis.solveChanged(state, fault.change));
  return { ...view, name: `${state.name}, with this fault: ${faultWords(analysis.network, fault)}` };
}
