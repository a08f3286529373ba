/** The drawings opened or saved last, newest first, kept in the program's own folder. */
import * as path from "node:path";
import { atomicSave } from "./atomic-save.ts";
import { ownFields, readOwn } from "./own-file.ts";

const MOST_RECENT = 8;
const MOST_BYTES = 100_000;

export class RecentFiles {
  readonly #file: string;
  #line: Promise<unknown> = Promise.resolve();

  constructor(file: string) {
    this.#file = file;
  }

  /** Absolute paths, whether the files are still there or not: a disk may come back. */
  async paths(): Promise<readonly string[]> {
    const { paths } = ownFields(await readOwn(this.#file, MOST_BYTES)) ?? {};
    if (!Array.isArray(paths)) return [];
    return paths
      .filter((each): each is string => typeof each === "string" && path.isAbsolute(each))
      .slice(0, MOST_RECENT);
  }

  /** Puts a file at the head of the list. A list that cannot be written is no reason to hold up the person. */
  add(file: string): Promise<void> {
    const done = this.#line.then(async () => {
      const others = (await this.paths()).filter((each) => each !== file);
      const paths = [file, ...others].slice(0, MOST_RECENT);
      await atomicSave(this.#file, JSON.stringify({ paths }), { backup: false }).catch(() => undefined);
    });
    this.#line = done;
    return done;
  }
}
