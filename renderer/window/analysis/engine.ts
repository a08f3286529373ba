/**
 * The worker's own copy of the document and the order of its work: solve, tell, then one check after another with a
 * pause between, so that a newer revision can push the rest aside. No worker globals here: tests drive it directly.
 */
import { analyse } from "../../../core/circuit/analyse.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import { conclude, runCheck } from "../../../core/checks/run.ts";
import type { CheckOutcome } from "../../../core/checks/run.ts";
import type { Project } from "../../../core/project/document.ts";
import { applyPatches } from "../../../core/project/history.ts";
import type { FromWorker, ToWorker } from "./protocol.ts";
import { solvedView } from "./solved-view.ts";

export class AnalysisEngine {
  readonly #tell: (message: FromWorker) => void;
  readonly #pause: () => Promise<void>;
  #project: Project | undefined;
  #revision = -1;

  /** `pause` lets waiting messages in. */
  constructor(tell: (message: FromWorker) => void, pause: () => Promise<void>) {
    this.#tell = tell;
    this.#pause = pause;
  }

  /** Takes a message at once; resolves when its work is done or has been pushed aside. */
  async hear(message: ToWorker): Promise<void> {
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
      this.#tell({ say: "broke", revision, text: cause instanceof Error ? cause.message : String(cause) });
    }
  }
}
