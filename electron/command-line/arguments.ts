/** The words after the verb: files in order, switches (--json) and options with a value (--out FILE or --out=FILE). */
import { Refusal } from "./refusal.ts";

export interface Accepts {
  /** What the files are called in the usage line, in order; all are needed. */
  readonly files: readonly string[];
  readonly switches?: readonly string[];
  /** Switches that will come: whoever types one learns that. */
  readonly notBuilt?: readonly string[];
  /** Name and what stands for its value in the usage line. */
  readonly options?: Readonly<Record<string, string>>;
  /** Options that must be given. */
  readonly needed?: readonly string[];
}

export interface Given {
  readonly files: readonly string[];
  has(name: string): boolean;
  option(name: string): string | undefined;
  /** The value of an option that `Accepts.needed` names. */
  needed(name: string): string;
}

/** "check FILE [--json] [--state NAME]" */
export function usage(verb: string, accepts: Accepts): string {
  const options = Object.entries(accepts.options ?? {}).map(([name, value]) =>
    accepts.needed?.includes(name) === true ? `--${name} ${value}` : `[--${name} ${value}]`,
  );
  const switches = (accepts.switches ?? []).map((name) => `[--${name}]`);
  return [verb, ...accepts.files, ...options, ...switches].join(" ");
}

/**
 * @param words what follows the verb
 * @throws Refusal naming the word that does not fit, and how the command is written
 */
export function readArguments(verb: string, accepts: Accepts, words: readonly string[]): Given {
  const refuse = (why: string): Refusal => new Refusal(`${why} Write: loomwright ${usage(verb, accepts)}`);
  const files: string[] = [];
  const switches = new Set<string>();
  const options = new Map<string, string>();
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] ?? "";
    if (!word.startsWith("--")) {
      files.push(word);
      continue;
    }
    const [name = "", ...rest] = word.slice(2).split("=");
    const value = rest.length > 0 ? rest.join("=") : undefined;
    if (accepts.notBuilt?.includes(name) === true) throw new Refusal(`${verb} --${name} is not built yet.`);
    if (switches.has(name) || options.has(name)) throw refuse(`--${name} is given twice.`);
    if (accepts.switches?.includes(name) === true) {
      if (value !== undefined) throw refuse(`--${name} takes no value.`);
      switches.add(name);
    } else if (accepts.options !== undefined && Object.hasOwn(accepts.options, name)) {
      const next = value ?? words[++at];
      if (next === undefined || next === "" || (value === undefined && next.startsWith("--"))) {
        throw refuse(`--${name} needs a value after it.`);
      }
      options.set(name, next);
    } else throw refuse(`"${verb}" has no --${name}.`);
  }
  const missing = accepts.files[files.length];
  if (missing !== undefined) throw refuse(`"${verb}" needs ${missing}.`);
  const extra = files[accepts.files.length];
  if (extra !== undefined) throw refuse(`"${verb}" has no use for "${extra}".`);
  for (const name of accepts.needed ?? []) if (!options.has(name)) throw refuse(`"${verb}" needs --${name}.`);
  return {
    files,
    has: (name) => switches.has(name),
    option: (name) => options.get(name),
    needed: (name) => options.get(name) ?? "",
  };
}
