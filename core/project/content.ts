/**
 * What no part of a file may hold, wherever it stands (under `extra` too): names that a program could mistake for
 * its own, over-long texts, characters that cannot be shown, numbers without end, a project within the project.
 */
import { LIMITS } from "./limits.ts";
import { placeName } from "./places.ts";
import { shown } from "./problems.ts";
import type { Problems } from "./problems.ts";

const RESERVED: readonly string[] = ["__proto__", "constructor", "prototype"];
/** Control characters (tab, line feed and carriage return are fine), halves of surrogate pairs, non-characters: none may stand in XML 1.0. */
const UNSHOWN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffe\uffff]|\p{Cs}/u;

/** What is wrong with a text as such, as a sentence that follows the name of its place. */
export function contentProblem(text: string): string | undefined {
  if (text.length > LIMITS.text) {
    const [long, most] = [text.length, LIMITS.text].map((count) => count.toLocaleString("en-GB"));
    return `this text has ${long} characters; at most ${most} are allowed. Shorten it.`;
  }
  if (UNSHOWN.test(text)) return `the text "${shown(text)}" holds a character that cannot be shown. Type it again.`;
  return undefined;
}

/** Adds a problem for each such place. The nesting of `document` is at most LIMITS.nesting. */
export function checkContent(document: unknown, problems: Problems): void {
  const path: PropertyKey[] = [];
  const at = (): string => placeName(document, path);

  const visitText = (text: string): void => {
    const wrong = contentProblem(text);
    if (wrong !== undefined) problems.add(`${at()}: ${wrong}`);
  };

  const visitAt = (key: PropertyKey, entry: unknown): void => {
    path.push(key);
    visit(entry);
    path.pop();
  };

  const visit = (value: unknown): void => {
    if (typeof value === "string") visitText(value);
    else if (typeof value === "number" && !Number.isFinite(value)) {
      problems.add(`${at()}: this number is too large to reckon with. Give a smaller one.`);
    } else if (typeof value === "object" && value !== null) {
      if (path.length > 0 && "format" in value && value.format === "loomwright-project") {
        problems.add(`${at()}: a whole project stands inside this project. Take it out, into a file of its own.`);
        return;
      }
      if (Array.isArray(value)) {
        (value as readonly unknown[]).forEach((entry, index) => visitAt(index, entry));
        return;
      }
      for (const [key, entry] of Object.entries(value)) {
        if (RESERVED.includes(key)) {
          problems.add(`${at()}: "${key}" cannot be used as a name. Take it out, or give it another name.`);
        } else if (key.length > LIMITS.text) {
          problems.add(`${at()}: the name "${shown(key)}" is too long. Shorten it.`);
        } else visitAt(key, entry);
      }
    }
  };
  visit(document);
}
