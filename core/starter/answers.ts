/** The few answers from which a drawing is made: what `start ANSWERS.json` reads. Every complaint names its field and the way out. */
import { z } from "zod";
import { parseQuantity } from "../quantity/parse.ts";
import type { Ampere, Volt } from "../quantity/kinds.ts";

export const PACK_CHEMISTRIES = ["flooded-lead", "agm-lead", "gel-lead", "lifepo4", "nmc"] as const;
export const MOTORS = ["series", "permanent-magnet", "separately-excited", "ac"] as const;
export const LOGIC_FEEDS = ["pack-fed", "12-volt"] as const;

/** Nominal pack voltages that the checks and tables are made for. */
const LEAST_PACK: Volt = 36;
const MOST_PACK: Volt = 400;
/** Continuous motor currents for which there are cables, fuses and contactors in one piece. */
const LEAST_CURRENT: Ampere = 20;
const MOST_CURRENT: Ampere = 250;

export interface Answers {
  readonly vehicle: string;
  readonly author: string;
  /** As it stands in the title block, e.g. 2026-11-25. */
  readonly date: string;
  readonly pack: {
    readonly chemistry: (typeof PACK_CHEMISTRIES)[number];
    /** Nominal. */
    readonly volts: Volt;
    /** As typed, of one string: "100 Ah". */
    readonly capacity: string;
    readonly strings: 1 | 2;
  };
  readonly motor: (typeof MOTORS)[number];
  /** Continuous motor current. */
  readonly current: Ampere;
  readonly logic: (typeof LOGIC_FEEDS)[number];
  readonly converter: boolean;
  readonly charger: boolean;
  readonly heater: boolean;
  readonly reversing: boolean;
  readonly shunt: boolean;
  readonly gauge: boolean;
  readonly monitor: boolean;
  readonly isolationMonitor: boolean;
  readonly sizes: "mm2" | "AWG";
  readonly paper: "A4" | "A3" | "Letter" | "Tabloid";
}

export type AnswersRead =
  | { readonly ok: true; readonly answers: Answers }
  | { readonly ok: false; readonly problems: readonly string[] };

const oneOf = (words: readonly string[]): string => `write one of ${words.map((word) => `"${word}"`).join(", ")}`;
const choice = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  z.enum(words, { error: oneOf(words) });
const yesNo = z.boolean({ error: "write true or false" });
const text = z
  .string({ error: 'write it in quotes, e.g. "Yard tractor"' })
  .min(1, { error: "write a word or two" })
  .max(200, {
    error: "keep it below 200 letters",
  });

/** A number, or text with its unit, within limits. */
const quantity = (dimension: "voltage" | "current", least: number, most: number, unit: string) =>
  z
    .union([z.number(), z.string()], { error: `write a figure such as "${least} ${unit}"` })
    .transform((typed, context) => {
      const read = typeof typed === "number" ? { ok: true as const, value: typed } : parseQuantity(typed, dimension);
      if (!read.ok) {
        context.addIssue({ code: "custom", message: `${read.why}; write a figure such as "${least} ${unit}"` });
        return z.NEVER;
      }
      if (read.value < least || read.value > most) {
        context.addIssue({ code: "custom", message: `choose between ${least} ${unit} and ${most} ${unit}` });
        return z.NEVER;
      }
      return read.value;
    });

const capacity = z
  .string({ error: 'write it with its unit, e.g. "100 Ah"' })
  .refine((typed) => parseQuantity(typed, "charge").ok, {
    error: 'write it with its unit, e.g. "100 Ah"',
  });

const SHAPE = z.strictObject({
  format: z.literal("loomwright-answers", { error: 'write "loomwright-answers"' }),
  version: z.literal(1, { error: "this program knows version 1" }),
  vehicle: text,
  author: text.default("not named yet"),
  date: text.default("not dated yet"),
  pack: z.strictObject({
    chemistry: choice(PACK_CHEMISTRIES),
    volts: quantity("voltage", LEAST_PACK, MOST_PACK, "V"),
    capacity: capacity.default("100 Ah"),
    strings: z.union([z.literal(1), z.literal(2)], { error: "write 1 or 2" }).default(1),
  }),
  motor: choice(MOTORS),
  current: quantity("current", LEAST_CURRENT, MOST_CURRENT, "A"),
  logic: choice(LOGIC_FEEDS).default("12-volt"),
  converter: yesNo.default(true),
  charger: yesNo.default(true),
  heater: yesNo.default(false),
  reversing: yesNo.default(false),
  shunt: yesNo.default(true),
  gauge: yesNo.default(true),
  monitor: yesNo.optional(),
  isolationMonitor: yesNo.default(false),
  sizes: choice(["mm2", "AWG"]).default("mm2"),
  paper: choice(["A3", "A4", "Letter", "Tabloid"]).default("A3"),
});

/** Reads answers from the text of a file. What is not answered takes the usual; what makes no sense is named. */
export function readAnswers(json: string): AnswersRead {
  let given: unknown;
  try {
    given = JSON.parse(json);
  } catch {
    return { ok: false, problems: ["The file holds no JSON: look for a missing quote, comma or bracket."] };
  }
  const read = SHAPE.safeParse(given);
  if (!read.success) {
    return {
      ok: false,
      problems: read.error.issues.map((issue) => {
        if (issue.code === "unrecognized_keys") {
          return `"${[...issue.path, issue.keys[0] ?? ""].join(".")}" is no answer that is asked for; leave it out.`;
        }
        const where = issue.path.length === 0 ? "The whole" : `"${issue.path.join(".")}"`;
        return `${where}: ${issue.message}.`;
      }),
    };
  }
  const { format: _, version: __, monitor, ...rest } = read.data;
  const lithium = rest.pack.chemistry === "lifepo4" || rest.pack.chemistry === "nmc";
  const answers: Answers = { ...rest, monitor: monitor ?? lithium };
  const problems = impossible(answers, lithium);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, answers };
}

/** Answers that do not go together. */
function impossible({ pack, monitor, logic, motor, reversing }: Answers, lithium: boolean): string[] {
  const problems: string[] = [];
  if (lithium && !monitor)
    problems.push('"monitor": lithium cells need a battery monitor; write true, or leave it out.');
  if (!lithium && monitor)
    problems.push('"monitor": a monitor for lead blocks is not planned here; write false, or leave it out.');
  if (!lithium && pack.volts % 12 !== 0)
    problems.push('"pack.volts": lead blocks have 12 V each; choose a multiple of 12 V, e.g. 48, 72, 96 or 144.');
  if (logic === "pack-fed" && pack.volts > 144)
    problems.push('"logic": electronics fed from the pack are made up to 144 V; choose "12-volt".');
  if (motor === "permanent-magnet" && reversing)
    problems.push('"reversing": a one-way controller turns a permanent-magnet motor one way; write false.');
  return problems;
}
