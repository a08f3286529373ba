/** From a missing value to the field in which it is stated. */
import type { MissingField } from "../../core/checks/define.ts";
import { fieldWish } from "../draw/facts/ask-for-field.ts";
import type { EditorStore } from "../window/editor-store.ts";
import { placeOf } from "./missing-groups.ts";
import type { MissingAt } from "./missing-groups.ts";
import { goTo } from "./places.ts";

/** Shows the thing with its facts and gives the keyboard to the field. */
export function fillIn(store: EditorStore, { select, field }: Pick<MissingAt, "select" | "field">): void {
  const [part] = select.parts ?? [];
  const [wire] = select.wires ?? [];
  store.set({ finding: null });
  if (part !== undefined) goTo(store, { part, id: part });
  else if (wire !== undefined) goTo(store, { wire, id: wire });
  else store.select({});
  fieldWish(store).setState({ field });
}

export function fillInField(store: EditorStore, field: MissingField): void {
  fillIn(store, placeOf(field));
}
