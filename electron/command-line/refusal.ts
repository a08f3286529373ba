/** Something that keeps a command from doing its job and that the user can mend: one sentence, or a summary and a list. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  /** Further lines, for a command that lists everything it found (importing a wire list). */
  readonly lines: readonly string[];

  constructor(sentence: string, lines: readonly string[] = []) {
    super(sentence);
    this.lines = lines;
  }
}

/** Several sentences as one line: the first, and how many more there are. */
export function firstOf(problems: readonly string[]): string {
  const [first = "It could not be read.", ...more] = problems;
  return more.length === 0 ? first : `${first} (${more.length} more like it)`;
}
