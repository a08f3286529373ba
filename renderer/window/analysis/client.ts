/** The window's side of the worker: sends documents and patches, passes on answers to the newest revision only. */
import type { Patch } from "immer";
import type { Project } from "../../../core/project/document.ts";
import type { Answer, AnswerTo, CheckedView, FromWorker, Question, SolvedView, ToWorker } from "./protocol.ts";

export interface AnalysisListener {
  solved(view: SolvedView): void;
  checked(view: CheckedView): void;
  /** A remedy that was asked for, on the document as it still stands. */
  mended(label: string, patches: readonly Patch[]): void;
  unmended(text: string): void;
  broke(text: string): void;
}

/** What a Worker is to the client; tests bring the engine itself. */
export interface WorkerLike {
  postMessage(message: ToWorker): void;
  onmessage: ((event: { readonly data: FromWorker }) => void) | null;
  terminate(): void;
}

export class AnalysisClient {
  readonly #worker: WorkerLike;
  #revision = 0;
  #project: Project | undefined;
  #asked = 0;
  readonly #answers = new Map<number, (answer: Answer | undefined) => void>();

  constructor(worker: WorkerLike, listener: AnalysisListener) {
    this.#worker = worker;
    worker.onmessage = ({ data }) => {
      switch (data.say) {
        case "solved":
          if (data.view.revision === this.#revision) listener.solved(data.view);
          break;
        case "checked":
          if (data.view.revision === this.#revision) listener.checked(data.view);
          break;
        case "mended":
          if (data.revision === this.#revision) listener.mended(data.label, data.patches);
          break;
        case "unmended":
          if (data.revision === this.#revision) listener.unmended(data.text);
          break;
        case "lost":
          if (data.revision === this.#revision && this.#project !== undefined) this.open(this.#project);
          break;
        case "answer":
          this.#answers.get(data.id)?.(data.answer);
          this.#answers.delete(data.id);
          break;
        case "broke":
          if (data.revision === this.#revision) listener.broke(data.text);
          break;
      }
    };
  }

  open(project: Project): void {
    this.#project = project;
    this.#revision += 1;
    this.#worker.postMessage({ say: "open", revision: this.#revision, project });
  }

  /** `project` is the document after the patches: sent whole only if the worker has lost count. */
  edit(project: Project, patches: readonly Patch[]): void {
    this.#project = project;
    const from = this.#revision;
    this.#revision += 1;
    this.#worker.postMessage({ say: "edit", from, revision: this.#revision, patches });
  }

  /** Asks about the document as it now stands; undefined if it changes before there is an answer. */
  ask<Asked extends Question>(question: Asked): Promise<AnswerTo<Asked> | undefined> {
    const id = (this.#asked += 1);
    return new Promise((resolve) => {
      // The engine answers each question in its own shape.
      this.#answers.set(id, resolve as (answer: Answer | undefined) => void);
      this.#worker.postMessage({ say: "ask", revision: this.#revision, id, question });
    });
  }

  /** Asks for a remedy of a finding; the answer is dropped if the document has changed by then. */
  mend(finding: string, remedy: string): void {
    this.#worker.postMessage({ say: "mend", revision: this.#revision, finding, remedy });
  }

  close(): void {
    this.#worker.terminate();
  }
}
