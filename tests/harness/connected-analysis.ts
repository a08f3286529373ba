/** Store, client and engine of the window joined without a worker. */
import type { Project } from "../../core/project/document.ts";
import { AnalysisClient } from "../../renderer/window/analysis/client.ts";
import type { WorkerLike } from "../../renderer/window/analysis/client.ts";
import { AnalysisEngine } from "../../renderer/window/analysis/engine.ts";
import type { AnswerTo, CheckedView, Question, SolvedView } from "../../renderer/window/analysis/protocol.ts";
import { EditorStore } from "../../renderer/window/editor-store.ts";

export interface Connected {
  readonly store: EditorStore;
  readonly heard: CheckedView[];
  readonly solved: SolvedView[];
  /** How often the engine has let waiting messages in. */
  readonly pauses: () => number;
  readonly ask: <Asked extends Question>(question: Asked) => Promise<AnswerTo<Asked> | undefined>;
  /** Until the analysis of the newest revision has ended. */
  settled(): Promise<void>;
}

/** Every look at the clock moves it on by `step` ms. */
export function connected(project: Project, step: number): Connected {
  const heard: CheckedView[] = [];
  const solved: SolvedView[] = [];
  let now = 0;
  let pauses = 0;
  const worker: WorkerLike = {
    postMessage: (message) => void engine.hear(message),
    onmessage: null,
    terminate: () => undefined,
  };
  const engine = new AnalysisEngine(
    (data) => worker.onmessage?.({ data }),
    () => {
      pauses += 1;
      return new Promise((resolve) => setImmediate(resolve));
    },
    () => (now += step),
  );
  const client = new AnalysisClient(worker, {
    solved: (view) => {
      solved.push(view);
      store.solved(view);
    },
    checked: (view) => {
      heard.push(view);
      store.checked(view);
    },
    mended: (label, patches) => store.mended(label, patches),
    unmended: (text) => store.set({ notice: text }),
    broke: (text) => store.broke(text),
  });
  const store = new EditorStore(project, {
    opened: (opened) => client.open(opened),
    edited: (edited, patches) => client.edit(edited, patches),
    mend: (finding, remedy) => client.mend(finding, remedy),
  });
  store.open(project, null, "test");
  return {
    store,
    heard,
    solved,
    pauses: () => pauses,
    ask: (question) => client.ask(question),
    settled: async () => {
      while (store.now.working) await new Promise((resolve) => setImmediate(resolve));
    },
  };
}
