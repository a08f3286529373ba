/** What the worker answers when the window asks for more than the steady picture. */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { singleFaults } from "../../../core/circuit/faults.ts";
import { runJson } from "../../../core/documents/run-json.ts";
import { faultsJson } from "../../../core/studies/single-faults-json.ts";
import { faultWords } from "../../../core/studies/single-faults-words.ts";
import { faultConsequence, singleFaultStudy } from "../../../core/studies/single-faults.ts";
import { curvesOf } from "./curves.ts";
import type { Answer, Question, StateView, TransitionView } from "./protocol.ts";
import { furtherState } from "./solved-view.ts";

/** So long, in ms, the worker may go on before it looks whether the drawing has changed. */
const SLICE = 30;

/**
 * undefined where the drawing has no such thing, or has changed (`pause` then says no). The fault study takes seconds on
 * a large drawing: it is done in slices, and what it has worked out is kept with the analysis.
 */
export async function answerTo(
  analysis: Analysis,
  question: Question,
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
      let begun = performance.now();
      for (const fault of singleFaults(analysis)) {
        faultConsequence(analysis, fault);
        if (performance.now() - begun < SLICE) continue;
        if (!(await pause())) return undefined;
        begun = performance.now();
      }
      return faultsJson(analysis, singleFaultStudy(analysis));
    }
    case "fault":
      return faultedState(analysis, question.key, question.state);
  }
}

function faultedState(analysis: Analysis, key: string, name: string): StateView | undefined {
  const fault = singleFaults(analysis).find((each) => each.key === key);
  // Moments of the study that are no states of the drawing (the pedal let go, the key turned off) came out of driving.
  const state = analysis.state(name) ?? analysis.state("driving") ?? analysis.states[0];
  if (fault === undefined || state === undefined) return undefined;
  const view = furtherState(analysis, analysis.solveChanged(state, fault.change));
  return { ...view, name: `${state.name}, with this fault: ${faultWords(analysis.network, fault)}` };
}
