/**
 * One save of a document at a time. A save asked for while another runs waits; a newer one takes the place of one that
 * still waits, so that a slow disk is never given the same document over and over.
 */
type Work<Result> = () => Promise<Result>;

interface Waiting<Result> {
  work: Work<Result>;
  readonly done: Promise<Result>;
}

export class SaveQueue<Result> {
  readonly #running = new Map<string, Promise<unknown>>();
  readonly #waiting = new Map<string, Waiting<Result>>();

  /** @param key the document; whoever waited with older content gets the outcome of the newer */
  save(key: string, work: Work<Result>): Promise<Result> {
    const waiting = this.#waiting.get(key);
    if (waiting !== undefined) {
      waiting.work = work;
      return waiting.done;
    }
    const before = this.#running.get(key);
    if (before === undefined) return this.#run(key, work);
    const next: Waiting<Result> = {
      work,
      done: before.then(() => {
        this.#waiting.delete(key);
        return this.#run(key, next.work);
      }),
    };
    this.#waiting.set(key, next);
    return next.done;
  }

  #run(key: string, work: Work<Result>): Promise<Result> {
    const result = work();
    const settled: Promise<unknown> = result
      .catch(() => undefined)
      .then(() => {
        if (this.#running.get(key) === settled) this.#running.delete(key);
      });
    this.#running.set(key, settled);
    return result;
  }
}
