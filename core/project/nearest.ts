/** "Did you mean": the known name that a mistyped one most resembles. */

/** Edits (insert, delete, replace one character) between two short words. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** The known name within a third of its length of what was typed, or undefined. */
function nearest(typed: string, known: Iterable<string>): string | undefined {
  if (typed.length > 40) return undefined;
  let best: string | undefined;
  let least = Infinity;
  for (const name of known) {
    const edits = distance(typed.toLowerCase(), name.toLowerCase());
    if (edits < least && edits <= Math.max(1, Math.floor(name.length / 3))) [best, least] = [name, edits];
  }
  return best;
}

/** A remedy: the name that was probably meant, else the names there are (the first twelve). */
export function choiceOf(typed: string, known: Iterable<string>): string {
  const names = [...known];
  const near = nearest(typed, names);
  if (near !== undefined) return `Did you mean ${near}?`;
  if (names.length === 0) return "There is none to choose from.";
  if (names.length === 1) return `The only one is ${names[0] ?? ""}.`;
  const more = names.length > 12 ? ` and ${names.length - 12} more` : "";
  return `Choose from: ${names.slice(0, 12).join(", ")}${more}.`;
}
