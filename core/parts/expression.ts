/**
 * What an output of a control unit follows: a small closed language, read by hand and never evaluated as code.
 *
 *   driving or ready                      operating states by name
 *   in-1 and not in-2                     inputs: fed or not
 *   volts(in-1, in-2) > 5 V               sensed difference; volts(in-1) is against supply-
 *   (in-1 or charging) and volts(in-3) <= 12.6 V
 *
 * not binds tightest, then and, then or.
 */
import type { Volt } from "../quantity/kinds.ts";
import { parseQuantity } from "../quantity/parse.ts";

type Comparison = ">" | ">=" | "<" | "<=";

export type Expression =
  | { readonly is: "state"; readonly name: string }
  | { readonly is: "input"; readonly pin: string }
  | { readonly is: "volts"; readonly a: string; readonly b: string; readonly by: Comparison; readonly volts: Volt }
  | { readonly is: "not"; readonly of: Expression }
  | { readonly is: "and" | "or"; readonly left: Expression; readonly right: Expression };

export type ExpressionReading =
  | { readonly ok: true; readonly expression: Expression }
  | { readonly ok: false; readonly why: string };

/** What an expression looks at. */
export interface Surroundings {
  readonly state: string;
  isFed(pin: string): boolean;
  between(a: string, b: string): Volt;
}

const LONGEST = 300;
const DEEPEST = 20;
const PIN = /^(?:in-[1-9]\d?|supply[+-])$/;
const WORD = /^[a-z0-9]+(?:[-+][a-z0-9]*)*/;
const VOLTS = /^[+-]?\d[\d.,]*(?: ?[mk]?v(?![a-z0-9-]))?/;
const EXAMPLE = 'write for example "driving and in-1" or "volts(in-1, in-2) > 5 V"';

class Refusal extends Error {}

/** Reads left to right with one character of foresight; every step consumes text, so that it always ends. */
class Reader {
  readonly #text: string;
  #at = 0;
  #depth = 0;

  constructor(text: string) {
    this.#text = text;
  }

  whole(): Expression {
    const expression = this.#either();
    this.#space();
    if (this.#at < this.#text.length) this.#refuse(`"${this.#text.slice(this.#at, this.#at + 12)}" was not expected`);
    return expression;
  }

  #either(): Expression {
    let left = this.#both();
    while (this.#keyword("or")) left = { is: "or", left, right: this.#both() };
    return left;
  }

  #both(): Expression {
    let left = this.#one();
    while (this.#keyword("and")) left = { is: "and", left, right: this.#one() };
    return left;
  }

  #one(): Expression {
    this.#depth += 1;
    if (this.#depth > DEEPEST) this.#refuse("too many brackets inside each other");
    const expression = this.#unnested();
    this.#depth -= 1;
    return expression;
  }

  #unnested(): Expression {
    if (this.#keyword("not")) return { is: "not", of: this.#one() };
    if (this.#sign("(")) {
      const inner = this.#either();
      this.#need(")");
      return inner;
    }
    const word = this.#match(WORD);
    if (word === undefined) this.#refuse("a state, an input or volts(...) is missing");
    if (word === "volts") return this.#volts();
    if (["and", "or"].includes(word)) this.#refuse(`something is missing before "${word}"`);
    if (PIN.test(word)) return { is: "input", pin: word };
    return { is: "state", name: word };
  }

  #volts(): Expression {
    this.#need("(");
    const a = this.#pin();
    const b = this.#sign(",") ? this.#pin() : "supply-";
    this.#need(")");
    const by = ([">=", "<=", ">", "<"] as const).find((sign) => this.#sign(sign));
    if (by === undefined) this.#refuse("after volts(...) comes >, >=, < or <=");
    const typed = this.#match(VOLTS);
    const reading = parseQuantity((typed ?? "").replace("v", "V"), "voltage");
    if (!reading.ok) this.#refuse(reading.why);
    return { is: "volts", a, b, by, volts: reading.value };
  }

  #pin(): string {
    const word = this.#match(WORD);
    if (word === undefined || !PIN.test(word)) this.#refuse("volts(...) compares inputs such as in-1 and in-2");
    return word;
  }

  #space(): void {
    while (this.#text[this.#at] === " ") this.#at += 1;
  }

  #match(pattern: RegExp): string | undefined {
    this.#space();
    const found = pattern.exec(this.#text.slice(this.#at))?.[0];
    if (found !== undefined) this.#at += found.length;
    return found;
  }

  #keyword(word: string): boolean {
    this.#space();
    const rest = this.#text.slice(this.#at);
    if (WORD.exec(rest)?.[0] !== word) return false;
    this.#at += word.length;
    return true;
  }

  #sign(sign: string): boolean {
    this.#space();
    if (!this.#text.startsWith(sign, this.#at)) return false;
    this.#at += sign.length;
    return true;
  }

  #need(sign: string): void {
    if (!this.#sign(sign)) this.#refuse(`"${sign}" is missing`);
  }

  #refuse(why: string): never {
    throw new Refusal(`${why}; ${EXAMPLE}`);
  }
}

/** Reads an expression. Never throws; `why` is a sentence fragment for people. */
export function readExpression(text: string): ExpressionReading {
  if (text.length > LONGEST) return { ok: false, why: `more than ${String(LONGEST)} characters; ${EXAMPLE}` };
  try {
    return { ok: true, expression: new Reader(text.replace(/\s+/g, " ").toLowerCase().trim()).whole() };
  } catch (cause) {
    if (cause instanceof Refusal) return { ok: false, why: cause.message };
    throw cause;
  }
}

/** Whether an expression holds. */
export function holds(expression: Expression, around: Surroundings): boolean {
  switch (expression.is) {
    case "state":
      return around.state === expression.name;
    case "input":
      return around.isFed(expression.pin);
    case "not":
      return !holds(expression.of, around);
    case "and":
      return holds(expression.left, around) && holds(expression.right, around);
    case "or":
      return holds(expression.left, around) || holds(expression.right, around);
    case "volts": {
      const volts = around.between(expression.a, expression.b);
      switch (expression.by) {
        case ">":
          return volts > expression.volts;
        case ">=":
          return volts >= expression.volts;
        case "<":
          return volts < expression.volts;
        case "<=":
          return volts <= expression.volts;
      }
    }
  }
}
