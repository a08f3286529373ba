/** The command line: `loomwright VERB ...`. Everything it knows of the machine is here and in files.ts. */
import { readArguments, usage } from "./arguments.ts";
import { Refusal } from "./refusal.ts";
import type { Verb } from "./verb.ts";
import { check } from "./verbs/check.ts";
import { diagnose } from "./verbs/diagnose.ts";
import { draw } from "./verbs/draw.ts";
import { faults } from "./verbs/faults.ts";
import { importList } from "./verbs/import.ts";
import { run } from "./verbs/run.ts";
import { size } from "./verbs/size.ts";
import { solve } from "./verbs/solve.ts";
import { start } from "./verbs/start.ts";

const VERBS: readonly Verb[] = [check, solve, draw, importList, run, size, faults, diagnose, start];

/** Named already, so that whoever types one learns that it will come. */
const NOT_BUILT = ["schedule", "energise", "bundle"];

export interface Streams {
  out(text: string): void;
  err(text: string): void;
}

function overview(): string {
  const width = Math.max(...VERBS.map((verb) => usage(verb.name, verb.accepts).length));
  const lines = VERBS.map((verb) => `  ${usage(verb.name, verb.accepts).padEnd(width)}  ${verb.does}`);
  return [
    "loomwright VERB ...",
    "",
    ...lines,
    "",
    `Not built yet: ${NOT_BUILT.join(", ")}.`,
    "Exit: 0 done (check: nothing above NOTICE), 1 check found something, 2 not done, with one line that says why.",
  ].join("\n");
}

/** One line, whatever a file's content put into it. */
function oneLine(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f\u2028\u2029]+/g, " ").slice(0, 1000);
}

/** What to say when the program itself is at fault, so that nobody looks for the mistake in the drawing. */
function ownFault(verb: string, problem: unknown): Refusal {
  const what = problem instanceof Error ? `${problem.name}: ${problem.message}` : String(problem);
  return new Refusal(`Loomwright itself failed at "${verb}" (${what}). Your files are as they were; please report it.`);
}

function act(words: readonly string[], streams: Streams): number {
  const [name, ...rest] = words;
  if (name === "--help" || name === "help") {
    streams.out(`${overview()}\n`);
    return 0;
  }
  if (name === undefined)
    throw new Refusal("Say what to do, e.g.: loomwright check FILE (loomwright --help lists the verbs).");
  if (NOT_BUILT.includes(name)) throw new Refusal(`"${name}" is not built yet.`);
  const verb = VERBS.find((each) => each.name === name);
  if (verb === undefined) throw new Refusal(`There is no verb "${name}" (loomwright --help lists the verbs).`);
  const given = readArguments(verb.name, verb.accepts, rest);
  try {
    const outcome = verb.run(given);
    if (outcome.text !== undefined) streams.out(`${outcome.text}\n`);
    return outcome.exit;
  } catch (problem) {
    throw problem instanceof Refusal ? problem : ownFault(name, problem);
  }
}

/**
 * Runs one command.
 * @param words the words after the program's name
 * @returns the exit code: 0 done, 1 findings above NOTICE, 2 not done
 */
export function main(words: readonly string[], streams: Streams): number {
  try {
    return act(words, streams);
  } catch (problem) {
    if (!(problem instanceof Refusal)) throw problem;
    for (const line of [problem.message, ...problem.lines]) streams.err(`${oneLine(line)}\n`);
    return 2;
  }
}
