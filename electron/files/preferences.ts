/** What the person prefers, as the text that the window makes of it; kept in the program's own folder. */
import { atomicSave } from "./atomic-save.ts";
import { readOwn } from "./own-file.ts";

export const MOST_PREFERENCES = 100_000;

export class PreferencesFile {
  readonly #file: string;
  #line: Promise<unknown> = Promise.resolve();

  constructor(file: string) {
    this.#file = file;
  }

  /** null on the first start, or when it cannot be read: the window then has its defaults. */
  async load(): Promise<string | null> {
    await this.#line;
    return (await readOwn(this.#file, MOST_PREFERENCES)) ?? null;
  }

  /** @throws FileProblem when it cannot be written */
  save(text: string): Promise<void> {
    const done = this.#line.then(() => atomicSave(this.#file, text, { backup: false }));
    this.#line = done.catch(() => undefined);
    return done;
  }
}
