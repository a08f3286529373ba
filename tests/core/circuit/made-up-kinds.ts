/** Kinds made up for tests of the circuit alone: elements written by hand, and kinds that break their promises. */
import type { PartKind, Values } from "../../../core/parts/define.ts";
import type { Element } from "../../../core/parts/element.ts";

/** A kind with these terminals and elements, nothing else. */
export function madeUp(
  kind: string,
  terminals: readonly string[],
  circuit: (values: Values) => readonly Element[],
  more: Partial<PartKind> = {},
): PartKind {
  return {
    kind,
    letter: "E",
    title: kind,
    words: [],
    group: "passive",
    explanation: "made up for a test",
    parameters: {},
    terminals: () => terminals.map((id) => ({ id, required: false, form: "stud", title: id })),
    supplyPairs: () => [],
    views: () => [],
    face: () => ({ width: 10, height: 10, terminals: {}, plugs: [], byDefault: true }),
    circuit: ({ values }) => circuit(values),
    limits: () => [],
    traits: {},
    notes: [],
    ...more,
  };
}
