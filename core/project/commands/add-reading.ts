import { compareNatural } from "../designation.ts";
import type { Project, Reading } from "../document.ts";
import { knownPart } from "../lookup.ts";
import type { Kinds } from "../lookup.ts";
import { choiceOf } from "../nearest.ts";
import { normaliseQuantity, settled } from "../normalise.ts";
import { defineCommand, Refused } from "./define.ts";
import { isBuiltInState } from "./own-states.ts";

const EXAMPLE = "Write it as on the drawing, such as F1:2, or chassis.";

/** Keeps what a meter showed between two places in a state. Places are named as on the drawing: "F1:2", "chassis". */
export const addReading = defineCommand<Reading>({
  id: "add-reading",
  label: ({ plus, minus }) => `Add the reading from ${plus} to ${minus}`,
  change(draft, { state, plus, minus, volts }, { before, kinds }) {
    requireState(before, state);
    const [red, black] = [placeOf(before, kinds, plus, "Plus"), placeOf(before, kinds, minus, "Minus")];
    if (red === black) throw new Refused(`Both leads are at ${red}. Name two places.`);
    const read = settled(normaliseQuantity("voltage", volts), volts, "volts", () => {
      throw new Refused("Write what the meter showed as a number of volts, such as 76.1 V.");
    });
    draft.readings.push({ state, plus: red, minus: black, volts: read ?? volts });
  },
});

function requireState(project: Project, state: string): void {
  if (isBuiltInState(state) || project.states.some(({ name }) => name === state)) return;
  throw new Refused(`There is no state called ${state}. Choose one of the strip.`);
}

/** The place in its one form. Throws Refused for one that the drawing does not have. */
function placeOf(project: Project, kinds: Kinds, typed: string, lead: string): string {
  const place = typed.trim();
  if (place.toLowerCase() === "chassis") return "chassis";
  if (place === "") throw new Refused(`${lead}: no place is named. ${EXAMPLE}`);
  const colon = place.lastIndexOf(":");
  if (colon < 1) throw new Refused(`${lead}: "${place}" is no terminal. ${EXAMPLE}`);
  const [name, terminal] = [place.slice(0, colon), place.slice(colon + 1)];
  const part = project.parts.find(({ designation }) => designation.toLowerCase() === name.toLowerCase());
  if (part === undefined) {
    const names = project.parts.map(({ designation }) => designation).sort(compareNatural);
    throw new Refused(`${lead}: there is no part "${name}" on this drawing. ${choiceOf(name, names)}`);
  }
  const ids = (knownPart(part, kinds)?.terminals ?? []).map(({ id }) => id);
  const id = ids.find((each) => each.toLowerCase() === terminal.toLowerCase());
  if (id !== undefined) return `${part.designation}:${id}`;
  throw new Refused(`${lead}: ${part.designation} has no terminal "${terminal}". ${choiceOf(terminal, ids)}`);
}
