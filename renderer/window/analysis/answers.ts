/** What the worker answers when the window asks for more than the steady picture. */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { runJson } from "../../../core/documents/run-json.ts";
import { curvesOf } from "./curves.ts";
import type { Answer, Question } from "./protocol.ts";
import { furtherState } from "./solved-view.ts";

/** undefined where the drawing has no such thing. */
export function answerTo(analysis: Analysis, question: Question): Answer | undefined {
  const transition = analysis.transition(question.name);
  if (transition === undefined) return undefined;
  switch (question.about) {
    case "transition": {
      return { document: runJson(analysis, transition), curves: curvesOf(analysis, transition) };
    }
    case "moment":
      return furtherState(analysis, transition.at(question.time));
  }
}
