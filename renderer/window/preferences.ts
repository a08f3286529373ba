/** What a person sets once: units, paper, author, theme. Kept by the host as text; what cannot be read is left at its default. */
import type { Sheet } from "../../core/project/document.ts";

export interface Preferences {
  /** Conductor sizes: mm2 first with AWG in brackets, or the other way round. */
  readonly units: "mm2" | "awg";
  /** Paper of a new sheet. */
  readonly paper: Sheet["paper"];
  /** Goes into the title block of a new drawing. */
  readonly author: string;
  readonly theme: "system" | "light" | "dark";
  /** Movement that explains: a contact closing. */
  readonly motion: boolean;
  readonly cautionsRead: boolean;
}

export const PAPERS: readonly Sheet["paper"][] = ["A4", "A3", "Letter", "Tabloid"];
export const THEMES: readonly Preferences["theme"][] = ["system", "light", "dark"];

export const DEFAULTS: Preferences = {
  units: "mm2",
  paper: "A3",
  author: "",
  theme: "system",
  motion: true,
  cautionsRead: false,
};

const LONGEST_AUTHOR = 80;

function fields(text: string): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === "object" && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
  } catch {
    return {};
  }
}

const oneOf = <Word extends string>(words: readonly Word[], value: unknown, otherwise: Word): Word =>
  words.find((word) => word === value) ?? otherwise;

export function readPreferences(text: string | null): Preferences {
  const { units, paper, author, theme, motion, cautionsRead } = fields(text ?? "");
  return {
    units: oneOf(["mm2", "awg"], units, DEFAULTS.units),
    paper: oneOf(PAPERS, paper, DEFAULTS.paper),
    author: typeof author === "string" ? author.slice(0, LONGEST_AUTHOR) : DEFAULTS.author,
    theme: oneOf(THEMES, theme, DEFAULTS.theme),
    motion: typeof motion === "boolean" ? motion : DEFAULTS.motion,
    cautionsRead: cautionsRead === true,
  };
}

export const writePreferences = (preferences: Preferences): string => JSON.stringify(preferences);
