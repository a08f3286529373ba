/** What is wrong with a file, as sentences; the first ones are kept, the rest is counted. */
export class Problems {
  readonly #kept: string[] = [];
  #more = 0;

  get none(): boolean {
    return this.#kept.length === 0;
  }

  /** @param sentence place, what is so and what to do, ended by a full stop or question mark; made only if it is kept */
  add(sentence: string | (() => string)): void {
    if (this.#kept.length >= 100) this.#more += 1;
    else this.#kept.push(typeof sentence === "string" ? sentence : sentence());
  }

  list(): readonly string[] {
    if (this.#more === 0) return this.#kept;
    return [...this.#kept, `There are ${this.#more} more problems of this sort. Mend these first.`];
  }
}

/** A text from the file as it is shown in a sentence: short, and on one line. */
export function shown(text: string): string {
  const line = text.replace(/[\s\p{Cc}\p{Cs}]+/gu, " ").trim();
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}
