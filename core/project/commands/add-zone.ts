import type { Zone } from "../document.ts";
import { normaliseQuantity, settled } from "../normalise.ts";
import { defineCommand, newId, Refused } from "./define.ts";

/** Adds a zone of the vehicle. Gives its id. */
export const addZone = defineCommand<Omit<Zone, "id">, string>({
  id: "add-zone",
  label: ({ name, kind }) => `Add zone ${name ?? kind}`,
  change(draft, given) {
    const id = newId(draft, "z");
    const { ambient } = given;
    if (ambient === undefined) draft.zones.push({ ...given, id });
    else {
      const read = settled(normaliseQuantity("temperature", ambient), ambient, "ambient", (field, why) => {
        throw new Refused(`Zone ${given.name ?? given.kind}, ${field}: ${why}`);
      });
      draft.zones.push({ ...given, id, ambient: read });
    }
    return id;
  },
});
