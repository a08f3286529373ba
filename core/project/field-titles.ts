/** What the fields of a document are called where a person reads of them: fields, tables, findings, papers. */

/** Of a wire, by the name that a check gives to what it lacks. */
export const WIRE_FIELD_TITLES = {
  size: "Size",
  length: "Length",
  colour: "Colour",
  "insulation.material": "Insulation",
  "insulation.volts": "Insulation, volts",
  "insulation.temperature": "Insulation, temperature",
  lugs: "Lug",
  boots: "Boot",
  torque: "Torque",
  sheath: "In a sheath throughout",
  conduit: "Conduit",
  grommets: "Grommets at walls",
  zones: "Zones",
  cable: "Cable",
  core: "Core",
  note: "Note",
} as const;

/** Of any part, whatever its kind; what the kind asks of it has its title in the kind. */
const PART_FIELD_TITLES: Readonly<Record<string, string>> = {
  zone: "Zone",
  enclosure: "Enclosure",
  face: "Face of the part",
  panel: "Place on its panel",
  covers: "Fixed covers",
};

const ENCLOSURE_FIELD_TITLES: Readonly<Record<string, string>> = {
  toolClosed: "Opens only with a tool",
  conductive: "Of conductive material",
  voltageSign: "Bears the voltage sign",
};

const ZONE_FIELD_TITLES: Readonly<Record<string, string>> = { ambient: "Hottest air" };

const TITLES = {
  wire: WIRE_FIELD_TITLES as Readonly<Record<string, string>>,
  part: PART_FIELD_TITLES,
  enclosure: ENCLOSURE_FIELD_TITLES,
  zone: ZONE_FIELD_TITLES,
} as const;

/** A field of a thing as people call it; one that is not listed goes by its own name. */
export function fieldTitle(thing: keyof typeof TITLES, field: string): string {
  return TITLES[thing][field] ?? field;
}
