/** How a list of things reads in a sentence: numbers that follow one another as a run, wires named once, the rest counted. */

export interface Label {
  /** As it stands alone: "F1:1", "wire W12". */
  readonly text: string;
  /** Of a wire with a number: the number, so that "wires W3, W7 and W9" can be said. */
  readonly number?: string;
}

/** One or several things told by one word or run. */
interface Item {
  readonly text: string;
  readonly count: number;
  readonly wire: boolean;
}

/** More items than this are cut and the rest counted: a sentence must stay readable. */
const LONGEST_LIST = 6;

/** From this many things on a run is told by its ends: "G1 to G3". */
const SHORTEST_RUN = 3;

const nameOf = ({ text, number }: Label): string => number ?? text;

/** Is `next` called like `label`, one number higher? */
function follows(label: Label, next: Label): boolean {
  if ((label.number === undefined) !== (next.number === undefined)) return false;
  const [, letters, digits] = /^(\p{L}+)(\d+)$/u.exec(nameOf(label)) ?? [];
  if (letters === undefined || digits === undefined) return false;
  return nameOf(next) === `${letters}${String(Number(digits) + 1).padStart(digits.length, "0")}`;
}

/** In the order given; a path keeps its order. */
function inRuns(labels: readonly Label[]): readonly Item[] {
  const items: Item[] = [];
  for (let start = 0; start < labels.length; ) {
    const first = labels[start];
    if (first === undefined) break;
    const run = [first];
    for (let next = labels[start + 1]; next !== undefined; next = labels[start + run.length]) {
      const last = run[run.length - 1];
      if (last === undefined || !follows(last, next)) break;
      run.push(next);
    }
    const last = run[run.length - 1] ?? first;
    const wire = first.number !== undefined;
    if (run.length >= SHORTEST_RUN)
      items.push({ text: `${nameOf(first)} to ${nameOf(last)}`, count: run.length, wire });
    else items.push(...run.map((label) => ({ text: nameOf(label), count: 1, wire })));
    start += run.length;
  }
  return items;
}

/** "wire" before one wire, "wires" before the first of several in a row. */
function withWires(items: readonly Item[]): readonly string[] {
  return items.map((item, index) => {
    if (!item.wire || items[index - 1]?.wire === true) return item.text;
    const several = item.count > 1 || items[index + 1]?.wire === true;
    return `${several ? "wires" : "wire"} ${item.text}`;
  });
}

/** "a, b and c". */
function joined(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1] ?? ""}`;
}

/** "G1 to G12", "wires W3, W7 and W9 to W11", "F1, F2, F3:1, F5, F7 and 12 more". */
export function told(labels: readonly Label[], longest = LONGEST_LIST): string {
  const items = inRuns(labels);
  if (items.length <= longest) return joined(withWires(items));
  const shown = items.slice(0, longest - 1);
  const left = items.slice(longest - 1).reduce((sum, { count }) => sum + count, 0);
  return joined([...withWires(shown), `${left} more`]);
}
