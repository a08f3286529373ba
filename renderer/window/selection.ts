/** What is selected on the sheets and in the lists, by id. */
export interface Selection {
  readonly parts: readonly string[];
  readonly wires: readonly string[];
}

export const NOTHING: Selection = { parts: [], wires: [] };
