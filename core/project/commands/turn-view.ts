import { defineCommand, draftPart, Refused } from "./define.ts";

export interface TurnView {
  readonly part: string;
  readonly view: string;
  /** Quarter and half turns clockwise, or a mirror image left to right as it stands on the sheet. */
  readonly how: "clockwise" | "half" | "anticlockwise" | "mirror";
}

const QUARTERS = { clockwise: 1, half: 2, anticlockwise: 3 } as const;
const TURNS = [0, 90, 180, 270] as const;

/** Turns or mirrors a placed view about its origin. */
export const turnView = defineCommand<TurnView>({
  id: "turn-view",
  label: ({ part, how }, before) => {
    const name = before.parts.find(({ id }) => id === part)?.designation ?? "";
    return how === "mirror" ? `Mirror ${name}` : `Turn ${name}`;
  },
  change(draft, { part: id, view, how }, { before }) {
    const part = draftPart(draft, id, before);
    const placement = part.views.find((candidate) => candidate.view === view);
    if (placement === undefined) {
      throw new Refused(`${part.designation}: its view "${view}" is on no sheet. Place it first.`);
    }
    const quarters = placement.turn / 90;
    if (how === "mirror") {
      // A view is mirrored before it is turned; mirrored on the sheet afterwards, the turn runs the other way round.
      placement.mirrored = !placement.mirrored;
      placement.turn = TURNS[(4 - quarters) % 4] ?? 0;
    } else placement.turn = TURNS[(quarters + QUARTERS[how]) % 4] ?? 0;
  },
});
