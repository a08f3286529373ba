/** Terminals that are optional by themselves, but needed as soon as another one is in use. */
import type { TerminalSpec } from "./define.ts";

const marked = (
  terminals: readonly TerminalSpec[],
  ids: readonly string[],
  needed: (id: string) => Pick<TerminalSpec, "neededWith" | "unless">,
): readonly TerminalSpec[] =>
  terminals.map((terminal) => (ids.includes(terminal.id) ? { ...terminal, ...needed(terminal.id) } : terminal));

/** Each terminal of a group is needed with every other: both ends of a contact, supply and return of a sensor. */
export const together = (
  terminals: readonly TerminalSpec[],
  ...groups: readonly (readonly string[])[]
): readonly TerminalSpec[] =>
  groups.reduce(
    (list, group) => marked(list, group, (id) => ({ neededWith: group.filter((other) => other !== id) })),
    terminals,
  );

/** `id` is needed where any of `users` is in use, but they do without each other: the return of several signals. */
export const neededBy = (
  terminals: readonly TerminalSpec[],
  id: string,
  ...users: readonly string[]
): readonly TerminalSpec[] => marked(terminals, [id], () => ({ neededWith: users }));

/** A contact's common end needs at least one of its throws, and each throw needs the common end. */
export const oneThrowAtLeast = (
  terminals: readonly TerminalSpec[],
  common: string,
  throws: readonly string[],
): readonly TerminalSpec[] => {
  const [first, ...others] = throws;
  if (first === undefined) return terminals;
  return marked(neededBy(terminals, common, ...throws), [first], () => ({ neededWith: [common], unless: others }));
};
