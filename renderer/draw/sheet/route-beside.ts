/** Routes sheets in a worker, one at a time; of several that wait only the newest is still wanted. */
import type { Project, SheetId } from "../../../core/project/document.ts";
import type { RouteAnswer, RouteRequest } from "./route-protocol.ts";

/** Takes an answer; true if it was still wanted. */
type Taker = (answer: RouteAnswer) => boolean;

export class RouteBeside {
  readonly #changed: () => void;
  #worker: Worker | undefined;
  #waiting: { readonly request: RouteRequest; readonly take: Taker } | undefined;
  #take: Taker | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** `changed` is called after an answer was taken. */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  /** `after` so many milliseconds without another request. */
  route(project: Project, sheet: SheetId, take: Taker, after = 0): void {
    clearTimeout(this.#timer);
    const begin = (): void => {
      this.#waiting = { request: { project, sheet }, take };
      if (this.#take === undefined) this.#next();
    };
    if (after === 0) begin();
    else this.#timer = setTimeout(begin, after);
  }

  close(): void {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#waiting = undefined;
    this.#take = undefined;
  }

  #next(): void {
    const next = this.#waiting;
    this.#waiting = undefined;
    this.#take = next?.take;
    if (next === undefined) return;
    this.#worker ??= this.#begin();
    this.#worker.postMessage(next.request);
  }

  #begin(): Worker {
    const worker = new Worker(new URL("./route-worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<RouteAnswer>) => {
      if (this.#take?.(data) === true) this.#changed();
      this.#next();
    };
    return worker;
  }
}
