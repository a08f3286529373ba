/** An edit whose refusal belongs under a field, not in the notice at the foot of the window. */
import type { Command } from "../../../core/project/commands/define.ts";
import type { EditorStore } from "../../window/editor-store.ts";

/** Carries the command out; gives the sentence of a refusal, without the name of the place, which the field itself is. */
export function refusalOf<Arguments, Result>(
  store: EditorStore,
  command: Command<Arguments, Result>,
  given: Arguments,
): string | undefined {
  store.set({ notice: null });
  store.perform(command, given);
  const { notice } = store.now;
  if (notice === null) return undefined;
  store.set({ notice: null });
  const [, reason = notice] = /^[^"]*?: ("[^]*)$/.exec(notice) ?? [];
  return reason;
}
