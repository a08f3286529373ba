/** Files that the system asks for: a double click, a second start, a drop on the program's icon. They wait for the page. */
import * as path from "node:path";

const ENDING = ".loomwright";

/** The drawing named on a command line; other words there are the system's or Electron's own. */
export function namedDrawing(words: readonly string[], folder: string): string | undefined {
  const named = words.slice(1).find((word) => !word.startsWith("-") && word.toLowerCase().endsWith(ENDING));
  return named === undefined ? undefined : path.resolve(folder, named);
}

export class RequestedFiles {
  #waiting: string[] = [];
  #open: ((file: string) => void) | undefined;

  ask(file: string | undefined): void {
    if (file === undefined) return;
    if (this.#open === undefined) this.#waiting.push(file);
    else this.#open(file);
  }

  /** The page takes files from now on; those that waited come first. */
  deliver(open: (file: string) => void): void {
    this.#open = open;
    for (const file of this.#waiting.splice(0)) open(file);
  }

  /** The page is gone or being loaded anew. */
  hold(): void {
    this.#open = undefined;
  }
}
