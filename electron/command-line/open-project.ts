/** From a file's name to its project and its solved states, each with a sentence when it cannot be done. */
import { analyse } from "../../core/circuit/analyse.ts";
import type { Analysis, SolvedState } from "../../core/circuit/analysis.ts";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";
import { readText } from "./files.ts";
import { Refusal, firstOf } from "./refusal.ts";

/** @throws Refusal when the file cannot be read or holds no project */
export function openProject(name: string): Project {
  const read = readProject(readText(name));
  if (!read.ok) throw new Refusal(`${name}: ${firstOf(read.problems)}`);
  return read.project;
}

/** @throws Refusal as openProject does */
export function openAnalysis(name: string): Analysis {
  return analyse(openProject(name));
}

/** @throws Refusal naming the states that there are */
export function stateOf(analysis: Analysis, name: string): SolvedState {
  const state = analysis.state(name);
  if (state === undefined) {
    const names = analysis.states.map((each) => each.name).join(", ");
    throw new Refusal(`This drawing has no state "${name}". Choose one of: ${names}.`);
  }
  return state;
}
