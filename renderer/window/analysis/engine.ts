/**
 * The worker's own copy of the document and the order of its work: solve, tell, then one check after another with a
 * pause between, so that a newer revision can push the rest aside. No worker globals here: tests drive it directly.
 */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import { conclude, runCheck } from "../../../core/checks/run.ts";
import type { CheckOutcome } from "../../../core/checks/run.ts";
import type { Project } from "../../../core/project/document.ts";
import { applyPatches } from "../../../core/project/history.ts";
import { answerTo } from "./answers.ts";
import type { FromWorker, Question, ToWorker } from "./protocol.ts";
import { solvedView } from "./solved-view.ts";

export class AnalysisEngine {
  readonly #tell: (message: FromWorker) => void;
  readonly #pause: () => Promise<void>;
  #project: Project | undefined;
  #revision = -1;
  /** Of the newest revision that has been solved. */
  #solved: { readonly revision: number; readonly analysis: Analysis } | undefined;
  readonly #waiting: (() => void)[] = [];

  /** `pause` lets waiting messages in. */
  constructor(tell: (message: FromWorker) => void, pause: () => Promise<void>) {
    this.#tell = tell;
    this.#pause = pause;
  }

  /** Takes a message at once; resolves when its work is done or has been pushed aside. */
  async hear(message: ToWorker): Promise<void> {
    if (message.say === "ask") {
      await this.#answer(message.revision, message.id, message.question);
      return;
    }
    if (message.say === "open") this.#project = message.project;
    else if (this.#project === undefined || message.from !== this.#revision) {
      this.#tell({ say: "lost", revision: message.revision });
      return;
    } else this.#project = applyPatches(this.#project, message.patches);
    this.#revision = message.revision;
    await this.#work(message.revision, this.#project);
  }

  async #work(revision: number, project: Project): Promise<void> {
    const stale = (): boolean => revision !== this.#revision;
    await this.#pause();
    if (stale()) return;
    try {
      const analysis = analyse(project);
      this.#solved = { revision, analysis };
      for (const resume of this.#waiting.splice(0)) resume();
      this.#tell({ say: "solved", view: solvedView(revision, analysis) });
      const outcomes: CheckOutcome[] = [];
      for (const check of CHECKS) {
        if (check.runLast !== undefined) continue;
        await this.#pause();
        if (stale()) return;
        outcomes.push(runCheck(check, analysis));
      }
      const document = checkJson(project, analysis, conclude(analysis, outcomes));
      this.#tell({ say: "checked", view: { revision, document } });
    } catch (cause) {
      for (const resume of this.#waiting.splice(0)) resume();
      this.#tell({ say: "broke", revision, text: cause instanceof Error ? cause.message : String(cause) });
    }
  }

  /** Waits for the revision asked about to be solved; what has been overtaken gets no answer. */
  async #answer(revision: number, id: number, question: Question): Promise<void> {
    while (revision === this.#revision && this.#solved?.revision !== revision) {
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
      if (this.#solved?.revision !== revision) break;
    }
    const solved = this.#solved;
    const answer = solved?.revision === revision ? answerTo(solved.analysis, question) : undefined;
    this.#tell({ say: "answer", id, answer });
  }
}
