/**
 * Contacts of which a drawing does not say when they are closed: nobody stated what moves a micro-switch, how a
 * controller drives its contactor, or what an output follows. A state places them as open, which proves nothing.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import type { MissingField } from "../define.ts";

const remembered = new WeakMap<Analysis, readonly MissingField[]>();

/** The fields that would say it; empty on a drawing that states them all. */
export function undecidedFields(analysis: Analysis): readonly MissingField[] {
  let fields = remembered.get(analysis);
  if (fields === undefined) {
    fields = analysis.network.parts.flatMap((part) =>
      decidingFields(analysis, part)
        .filter((name) => part.values.text(name) === undefined)
        .map((parameter) => ({ part: part.part.id, parameter })),
    );
    remembered.set(analysis, fields);
  }
  return fields;
}

/** Fields of a part that decide when its contacts and outputs are closed, as far as these are wired. */
function decidingFields({ network }: Analysis, { part, kind, terminals }: NetworkPart): readonly string[] {
  const isWired = (terminal: string): boolean => network.wiresAt([part.id, terminal]).length > 0;
  const has = (name: string): boolean => Object.hasOwn(kind.parameters, name);
  const fields: string[] = [];
  if (has("actuator") && terminals.some(({ id }) => isWired(id))) fields.push("actuator");
  if (has("aux") && (isWired("aux-1") || isWired("aux-2"))) fields.push("aux");
  if (has("contactorDriver") && (isWired("contactor-out") || isWired("precharge-out"))) fields.push("contactorDriver");
  const outputs = terminals.filter(({ id }) => has(`${id}-follows`) && isWired(id));
  if (has("outputType") && outputs.length > 0) fields.push("outputType");
  return [...fields, ...outputs.map(({ id }) => `${id}-follows`)];
}

/** Contacts that stand open in a state and that something unstated may close: none where everything is stated. */
export function maybeClosed(analysis: Analysis, state: SolvedState): ReadonlySet<BranchIndex> {
  const undecided = new Set(undecidedFields(analysis).flatMap((field) => ("part" in field ? [field.part] : [])));
  if (undecided.size === 0) return new Set();
  return new Set(
    analysis.network.branches.flatMap(({ index, part }) => {
      const element = state.elements[index];
      if (element?.type !== "contact" || element.closed || part === undefined) return [];
      const powered = element.movedBy === "coil" || element.movedBy === "logic";
      return powered || undecided.has(part.part.id) ? [index] : [];
    }),
  );
}
