/**
 * A look over JSON text before anything is built from it: where its grammar breaks, how deep it nests, and
 * whether a name stands twice in one object (a parser would silently keep the last). Iterative, one pass, so
 * that neither a deep nor a long text can exhaust the stack.
 */

export type JsonFault =
  | { readonly fault: "grammar"; readonly line: number; readonly column: number; readonly expected: string }
  | { readonly fault: "ends-early"; readonly line: number }
  | { readonly fault: "too-deep"; readonly line: number }
  | { readonly fault: "too-many" }
  | { readonly fault: "name-twice"; readonly line: number; readonly name: string };

/** No number of a drawing needs more characters; the bound also keeps the pattern from running far. */
const NUMBER = /-?(?:0|[1-9][0-9]{0,40})(?:\.[0-9]{1,40})?(?:[eE][+-]?[0-9]{1,4})?(?![0-9.eE+-])/y;
const WORD = /true|false|null/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

function match(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : at;
}

/** Index behind the white space at `at`. */
function skipSpace(text: string, at: number): number {
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) break;
    at += 1;
  }
  return at;
}

/** Index behind the string at `at`, or `at` itself if none stands there. Plain loop: a long string must not deepen a stack. */
function skipString(text: string, at: number): number {
  if (text[at] !== '"') return at;
  let next = at + 1;
  while (next < text.length) {
    const code = text.charCodeAt(next);
    if (code === 0x22) return next + 1;
    if (code < 0x20) return at;
    if (code === 0x5c) {
      const behind = match(ESCAPE, text, next);
      if (behind === next) return at;
      next = behind;
    } else next += 1;
  }
  return at;
}

/** What may come next. */
type Wanted = "value" | "value-or-end" | "name" | "name-or-end" | "colon" | "comma-or-end" | "nothing";

const EXPECTED: Record<Wanted, string> = {
  value: "a value",
  "value-or-end": "a value or ]",
  name: "a name in double quotes",
  "name-or-end": "a name in double quotes or }",
  colon: "a colon after the name",
  "comma-or-end": "a comma or a closing bracket",
  nothing: "nothing more after the end of the project",
};

function lineAt(text: string, at: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let next = text.indexOf("\n"); next !== -1 && next < at; next = text.indexOf("\n", next + 1)) {
    line += 1;
    start = next + 1;
  }
  return { line, column: at - start + 1 };
}

/**
 * The first fault of a JSON text, or undefined when it may safely be parsed.
 * @param deepest how many objects and lists may stand within one another
 * @param most how many values it may hold in all
 */
export function scanJson(text: string, deepest: number, most: number): JsonFault | undefined {
  // One entry an open bracket: the names seen so far for an object, null for a list.
  const open: (Set<string> | null)[] = [];
  let at = 0;
  let wanted: Wanted = "value";
  let values = 0;

  const closed = (): Wanted => (open.length === 0 ? "nothing" : "comma-or-end");

  for (;;) {
    at = skipSpace(text, at);
    if (at >= text.length) break;
    const sign = text[at];
    const within = open.at(-1);
    if (wanted === "nothing") break;
    if (wanted === "comma-or-end" && sign === "," && within !== undefined) {
      at += 1;
      wanted = within === null ? "value" : "name";
    } else if (
      (sign === "]" && within === null && (wanted === "comma-or-end" || wanted === "value-or-end")) ||
      (sign === "}" && within instanceof Set && (wanted === "comma-or-end" || wanted === "name-or-end"))
    ) {
      at += 1;
      open.pop();
      wanted = closed();
    } else if (wanted === "colon" && sign === ":") {
      at += 1;
      wanted = "value";
    } else if ((wanted === "name" || wanted === "name-or-end") && within instanceof Set) {
      const behind = skipString(text, at);
      if (behind === at) break;
      const name = text.slice(at + 1, behind - 1);
      if (within.has(name)) return { fault: "name-twice", line: lineAt(text, at).line, name: name.slice(0, 40) };
      within.add(name);
      at = behind;
      wanted = "colon";
    } else if (wanted === "value" || wanted === "value-or-end") {
      values += 1;
      if (values > most) return { fault: "too-many" };
      if (sign === "{" || sign === "[") {
        if (open.length >= deepest) return { fault: "too-deep", line: lineAt(text, at).line };
        at += 1;
        open.push(sign === "{" ? new Set() : null);
        wanted = sign === "{" ? "name-or-end" : "value-or-end";
      } else {
        const behind = sign === '"' ? skipString(text, at) : Math.max(match(NUMBER, text, at), match(WORD, text, at));
        if (behind === at) break;
        at = behind;
        wanted = closed();
      }
    } else break;
  }
  if (wanted === "nothing" && at >= text.length) return undefined;
  const rest = text.slice(at, at + 12);
  const cutShort = at >= text.length || (rest.startsWith('"') && !text.slice(at + 1).includes('"'));
  if (cutShort) return { fault: "ends-early", line: lineAt(text, at).line };
  return { fault: "grammar", ...lineAt(text, at), expected: EXPECTED[wanted] };
}
