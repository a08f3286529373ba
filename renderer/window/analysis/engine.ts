/**
 * The worker's own copy of the document and the order of its work: solve, tell, then one check after another with a
 * pause between, so that a newer revision can push the rest aside. What has changed is told while the rest is still
 * being looked at. No worker globals here: tests drive it directly.
 */
import { analyse } from "../../../core/circuit/analyse.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import { conclude } from "../../../core/checks/run.ts";
import type { CheckRun } from "../../../core/checks/finding.ts";
import { findingsReport } from "../../../core/documents/findings-report.ts";
import { reportHtml } from "../../../core/documents/report-html.ts";
import { Refused } from "../../../core/project/commands/define.ts";
import { patchesBetween } from "../../../core/project/difference.ts";
import type { Project } from "../../../core/project/document.ts";
import { applyPatches } from "../../../core/project/history.ts";
import { answerTo } from "./answers.ts";
import type { FromWorker, MendRequest, Question, ReportQuestion, Standing, ToWorker } from "./protocol.ts";
import { CheckMemory, REMEMBERED } from "./round.ts";
import { solvedView } from "./solved-view.ts";

/** Milliseconds until what has changed so far is told; each telling makes the window draw, so the next waits twice as long. */
const FIRST_TELLING = 12;

export class AnalysisEngine {
  readonly #tell: (message: FromWorker) => void;
  readonly #pause: () => Promise<void>;
  readonly #clock: () => number;
  readonly #memory = new CheckMemory();
  #project: Project | undefined;
  #revision = -1;
  /** Of the newest revision that has been solved. */
  #solved: { readonly revision: number; readonly analysis: Analysis } | undefined;
  /** Of the latest documents, the newest first. */
  #analyses: readonly Analysis[] = [];
  readonly #waiting: (() => void)[] = [];
  /** The newest findings that were told, whose remedies can be asked for. */
  #told: { readonly revision: number; readonly whole: boolean; readonly run: CheckRun } | undefined;
  /** The newest revision that could not be analysed. */
  #broke = -1;
  readonly #waitingForChecks: (() => void)[] = [];

  /** `pause` lets waiting messages in; `clock` gives milliseconds. */
  constructor(
    tell: (message: FromWorker) => void,
    pause: () => Promise<void>,
    clock: () => number = () => performance.now(),
  ) {
    this.#tell = tell;
    this.#pause = pause;
    this.#clock = clock;
  }

  /** Takes a message at once; resolves when its work is done or has been pushed aside. */
  async hear(message: ToWorker): Promise<void> {
    if (message.say === "ask") {
      await this.#answer(message.revision, message.id, message.question);
      return;
    }
    if (message.say === "mend") {
      this.#mend(message);
      return;
    }
    if (message.say === "open") {
      this.#project = message.project;
      this.#memory.forget();
      this.#analyses = [];
    } else if (this.#project === undefined || message.from !== this.#revision) {
      this.#tell({ say: "lost", revision: message.revision });
      return;
    } else this.#project = applyPatches(this.#project, message.patches);
    this.#revision = message.revision;
    this.#resumeReports();
    await this.#work(message.revision, this.#project);
  }

  async #work(revision: number, project: Project): Promise<void> {
    const stale = (): boolean => revision !== this.#revision;
    await this.#pause();
    if (stale()) return;
    try {
      const analysis = analyse(project, undefined, ...this.#analyses);
      this.#analyses = [analysis, ...this.#analyses].slice(0, REMEMBERED);
      this.#solved = { revision, analysis };
      for (const resume of this.#waiting.splice(0)) resume();
      this.#tell({ say: "solved", view: solvedView(revision, analysis) });
      let told = this.#clock();
      let news = false;
      let wait = FIRST_TELLING;
      const complete = this.#memory.complete;
      for (const check of this.#memory.order()) {
        const recalled = this.#memory.recall(check, project);
        if (recalled === "otherwise") news = true;
        if (recalled !== undefined) continue;
        await this.#pause();
        if (stale()) return;
        if (news && complete && this.#clock() - told >= wait) {
          this.#tellFindings(revision, project, analysis, false);
          told = this.#clock();
          wait *= 2;
          news = false;
        }
        if (this.#memory.run(check, analysis, this.#clock)) news = true;
      }
      this.#tellFindings(revision, project, analysis, true);
      this.#resumeReports();
    } catch (cause) {
      this.#broke = revision;
      this.#resumeReports();
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
    const current = async (): Promise<boolean> => {
      await this.#pause();
      return revision === this.#revision;
    };
    const there = solved?.revision === revision ? solved.analysis : undefined;
    const answer =
      there === undefined
        ? undefined
        : question.about === "report"
          ? await this.#report(revision, there, question)
          : await answerTo(there, question, current);
    this.#tell({ say: "answer", id, answer });
  }

  /** Waits until every check has answered for this revision; undefined if it is overtaken or cannot be analysed. */
  async #report(
    revision: number,
    analysis: Analysis,
    { origin, typeface }: ReportQuestion,
  ): Promise<string | undefined> {
    while (revision === this.#revision && this.#broke !== revision) {
      const told = this.#told;
      if (told?.revision === revision && told.whole)
        return reportHtml(findingsReport(analysis, told.run, origin), typeface);
      await new Promise<void>((resolve) => this.#waitingForChecks.push(resolve));
    }
    return undefined;
  }

  #resumeReports(): void {
    for (const resume of this.#waitingForChecks.splice(0)) resume();
  }

  #tellFindings(revision: number, project: Project, analysis: Analysis, whole: boolean): void {
    const run = conclude(analysis, this.#memory.outcomes(project));
    this.#told = { revision, whole, run };
    const document = checkJson(project, analysis, run);
    this.#tell({
      say: "checked",
      view: { revision, whole, document, titles: titlesIn(document), tallies: talliesOf(run) },
    });
  }

  /** Works a remedy out on this copy of the document and tells what it would change. */
  #mend({ revision, finding, remedy }: MendRequest): void {
    const project = this.#project;
    if (project === undefined || revision !== this.#revision || this.#told?.revision !== revision) return;
    const found = this.#told.run.findings.find(({ key }) => key === finding)?.failure.remedies;
    const wanted = found?.find(({ id }) => id === remedy);
    if (wanted === undefined) return;
    try {
      const patches = patchesBetween(project, wanted.apply(project));
      this.#tell({ say: "mended", revision, label: wanted.label, patches });
    } catch (cause) {
      const text = cause instanceof Refused ? cause.message : `This could not be done (${String(cause)}).`;
      this.#tell({ say: "unmended", revision, text });
    }
  }
}

const talliesOf = ({ tallies }: CheckRun): Readonly<Record<string, Standing>> =>
  Object.fromEntries(tallies.map(({ check, ...standing }) => [check.id, standing]));

function titlesIn({ findings, notChecked }: CheckDocument): Readonly<Record<string, string>> {
  const named = new Set([
    ...findings.flatMap(({ check, folded }) => [check, ...folded.map((under) => under.check)]),
    ...notChecked.map(({ check }) => check),
  ]);
  return Object.fromEntries(CHECKS.filter(({ id }) => named.has(id)).map(({ id, title }) => [id, title]));
}
