/** The window's side of the worker: sends documents and patches, passes on answers to the newest revision only. */
import type { Patch } from "immer";
import type { Project } from "../../../core/project/document.ts";
import type { CheckedView, FromWorker, SolvedView, ToWorker } from "./protocol.ts";

export interface AnalysisListener {
  solved(view: SolvedView): void;
  checked(view: CheckedView): void;
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
        case "lost":
          if (data.revision === this.#revision && this.#project !== undefined) this.open(this.#project);
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

  close(): void {
    this.#worker.terminate();
  }
}
