/** What to state of a device before it is known when it clears. */
import type { MissingField } from "../define.ts";
import type { Device } from "../../studies/words/devices.ts";

const remembered = new WeakMap<Device, Map<string, readonly MissingField[]>>();

/** One list for one set of devices, so that who collects them sees at once that it has them already. */
export function curveFields(devices: readonly Device[]): readonly MissingField[] {
  const [first] = devices;
  if (first === undefined) return [];
  const known = remembered.get(first) ?? new Map<string, readonly MissingField[]>();
  remembered.set(first, known);
  const key = devices.map(({ branch }) => branch.index).join(" ");
  const fields = known.get(key) ?? fieldsOf(devices);
  known.set(key, fields);
  return fields;
}

function fieldsOf(devices: readonly Device[]): readonly MissingField[] {
  const fields = devices.flatMap(({ part, rating, ratingField }): MissingField[] => {
    if (rating === undefined) return [ratingField];
    if (!("curvePoints" in part.kind.parameters) || part.values.text("curvePoints") !== undefined) return [];
    return [{ part: part.part.id, parameter: "curvePoints" }];
  });
  return distinct(fields);
}

export function distinct(fields: readonly MissingField[]): readonly MissingField[] {
  return [...new Map(fields.map((field) => [JSON.stringify(field), field])).values()];
}
