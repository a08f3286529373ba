/** Wrong and right of every check, from its table of drawings. Entry of the bundle that `load.mjs` makes. */
import type { PictureTexts } from "../../core/checks/page.ts";
import type { Check, Place } from "../../core/checks/define.ts";
import { fill, Names } from "../../core/checks/text.ts";
import { tractionWires } from "../../core/circuit/questions.ts";
import { union } from "../../core/geometry/boxes.ts";
import type { CheckTable } from "../harness/check-table.ts";
import { arrange } from "./arrange.ts";
import { CHOICES } from "./choices.ts";
import { shownParts, solvePair } from "./choose.ts";
import type { Choice, Pair } from "./choose.ts";
import { tables } from "./collected.ts";
import type { Keyed } from "./differences.ts";
import { drawPicture, drawTitlePicture, pictureSvg } from "./picture.ts";
import type { Drawn, Note } from "./picture.ts";
import { differing, partStatements, wireStatements } from "./statements.ts";
import type { Statement } from "./statements.ts";

export { CHECKS } from "../../core/checks/catalogue.ts";
export { checkPage } from "../../core/checks/page.ts";
export { CHOICES } from "./choices.ts";
export { solvePair } from "./choose.ts";
export { tables } from "./collected.ts";

export interface Pictures {
  readonly check: string;
  /** SVG files. */
  readonly wrong: string;
  readonly right: string;
  /** What each shows, in words: the finding's title, and what is so instead. */
  readonly texts: PictureTexts;
  /** Names of the cases they are made of. */
  readonly cases: { readonly wrong: string; readonly right: string };
  /** mm, of both. */
  readonly width: number;
  readonly height: number;
}

export function picturesOf(id: string): Pictures {
  const entry = tables.get(id);
  if (entry === undefined) throw new Error(`${id} has no table of drawings`);
  try {
    return pictures(entry.check, entry.table, CHOICES[id] ?? {});
  } catch (reason) {
    throw new Error(`The pictures of ${id} cannot be drawn.`, { cause: reason });
  }
}

function pictures(check: Check, table: CheckTable, choice: Choice): Pictures {
  const pair = solvePair(check, table, choice);
  if (choice.titleBlock === true)
    return written(
      check,
      pair,
      drawTitlePicture(pair.wrong.project, true),
      drawTitlePicture(pair.right.project, false),
    );
  const shown = shownParts(pair, choice);
  const rings =
    choice.at?.map((at) => keyAt(pair.wrong, at)) ??
    pair.failures.flatMap(({ where }) => where.slice(0, 1).flatMap(anchorKey)).slice(0, MOST_RINGS);
  const arranged = arrange(pair.wrong, pair.right, shown, new Set(rings), choice.everyView === true);
  const [wrong, right] = (["wrong", "right"] as const).map((side) =>
    drawPicture(arranged[side], arranged.kinds.lookup, {
      traction: tractionWires(pair.analysis[side]),
      notes: notesOf(pair, side, shown, choice),
      rings: side === "wrong" ? rings : [],
      wrong: side === "wrong",
    }),
  );
  if (wrong === undefined || right === undefined) throw new Error("two sides");
  return written(check, pair, wrong, right);
}

function written(check: Check, pair: Pair, wrong: Drawn, right: Drawn): Pictures {
  const box = union([wrong.box, right.box]) ?? wrong.box;
  const first = pair.failures[0];
  const message = first === undefined ? undefined : check.messages[first.message];
  const title =
    first === undefined || message === undefined
      ? check.title
      : fill(message.title, first.facts, new Names(pair.wrong.project));
  const texts = { wrong: title, right: `Nothing to find: ${pair.names.right}.` };
  return {
    check: check.id,
    wrong: pictureSvg(wrong, box, texts.wrong, "Wrong", `${check.id}-wrong-`),
    right: pictureSvg(right, box, texts.right, "Right", `${check.id}-right-`),
    texts,
    cases: pair.names,
    width: box.width,
    height: box.height,
  };
}

const MOST_RINGS = 3;

const anchorKey = (place: Place): readonly string[] =>
  "part" in place
    ? [place.terminal === undefined ? place.part : `${place.part}:${place.terminal}`]
    : "wire" in place
      ? [place.wire]
      : [];

/** "Q1", "Q1:line" or "F1:1 - G1:+" as the key of a pen anchor. */
function keyAt(of: Keyed, at: string): string {
  const wire = of.wires.get(at.split(" - ").sort().join(" - "));
  if (wire !== undefined) return wire.id;
  const [part = "", terminal] = at.split(":");
  const id = of.parts.get(part)?.id;
  if (id === undefined) throw new Error(`"${at}" is nowhere in the drawing`);
  return terminal === undefined ? id : `${id}:${terminal}`;
}

const MOST_NOTES = 3;

function notesOf(pair: Pair, side: "wrong" | "right", shown: ReadonlySet<string>, choice: Choice): readonly Note[] {
  const [own, other] = side === "wrong" ? [pair.wrong, pair.right] : [pair.right, pair.wrong];
  const asked = (key: string): ReadonlySet<string> =>
    new Set(
      (choice.states ?? []).flatMap((field) => (field.startsWith(`${key}.`) ? [field.slice(key.length + 1)] : [])),
    );
  const chosen = (key: string, mine: readonly Statement[], theirs: readonly Statement[]): readonly Statement[] =>
    choice.states === undefined ? differing(mine, theirs) : mine.filter(({ field }) => asked(key).has(field));
  const parts = [...own.parts].flatMap(([key, part]): readonly Note[] => {
    if (!shown.has(key)) return [];
    const twin = other.parts.get(key);
    if ((twin === undefined || twin.kind !== part.kind) && choice.states === undefined) return [];
    const fields = new Set([
      ...asked(key),
      ...(choice.states === undefined ? Object.keys(twin?.parameters ?? {}) : []),
    ]);
    const theirs = twin === undefined ? [] : partStatements(other, twin, new Set(Object.keys(part.parameters)));
    return chosen(key, partStatements(own, part, fields), theirs)
      .filter(({ text }) => side === "wrong" || choice.states !== undefined || !text.endsWith("not stated"))
      .slice(0, MOST_NOTES)
      .map(({ text }) => ({ at: part.id, text }));
  });
  const wires = [...own.wires].flatMap(([key, wire]): readonly Note[] => {
    const twin = other.wires.get(key);
    if (twin === undefined && choice.states === undefined) return [];
    return chosen(key, wireStatements(own, wire, asked(key)), twin === undefined ? [] : wireStatements(other, twin))
      .slice(0, MOST_NOTES)
      .map(({ text }, index) => ({
        at: wire.id,
        text: index > 0 || wire.number === "" ? text : `${wire.number}: ${text}`,
      }));
  });
  return [...parts, ...wires];
}
