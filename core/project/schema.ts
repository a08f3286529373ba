/**
 * The shape of a project file. Every message is the predicate of a sentence whose subject (the place) places.ts
 * adds: "Wire W12, size" + "must be text such as ...". What goes beyond shape (references, values) is in verify.ts.
 */
import { z } from "zod";
import { GRID, LIMITS } from "./limits.ts";

// The parser must not compile code at run time: the window's content security policy forbids it.
z.config({ jitless: true });

export const DESIGNATION = /^[A-Z]{1,3}[0-9]{1,4}[A-Za-z]?$/;
export const TERMINAL_ID = /^[A-Za-z0-9+-]{1,20}$/;
export const STATE_NAME = /^[a-z0-9-]{1,40}$/;

const must = (what: string) => ({ error: `must be ${what}` });

const text = z.string(must("text in double quotes"));
const yesNo = z.boolean(must("true or false")).nullable();
const quantity = z.string(must('text such as "5 kohm", or null if it is known to be unknown')).nullable();
const id = (letter: string, what: string) =>
  z
    .string(must(`the id of ${what}, such as "${letter}1"`))
    .regex(
      new RegExp(`^${letter}[1-9][0-9]{0,8}$`),
      must(`the id of ${what}: the letter ${letter} and a number, such as "${letter}1"`),
    );
const partId = id("p", "a part");
const sheetId = id("s", "a sheet");
const zoneId = id("z", "a zone");
const enclosureId = id("e", "an enclosure");
const cableId = id("c", "a cable");
const wireId = id("w", "a wire");

const millimetres = z
  .number(must("a number of millimetres"))
  .min(-LIMITS.millimetres, must(`within ${LIMITS.millimetres} mm of the corner`))
  .max(LIMITS.millimetres, must(`within ${LIMITS.millimetres} mm of the corner`))
  // -0 becomes 0, so that what is written reads back the same.
  .overwrite((value) => value + 0);
const onGrid = millimetres.refine((value) => Number.isInteger(value / GRID), must(`a multiple of ${GRID} mm`));
const point = z.tuple([millimetres, millimetres], must("a pair of numbers, such as [25, 40]"));

const terminalId = z
  .string(must('a terminal, such as "B+"'))
  .regex(TERMINAL_ID, must("a terminal: letters, digits, + and - only, at most 20"));
const wireEnd = z.tuple(
  [partId, terminalId],
  must('a part\'s id and one of its terminals, such as ["p12","+"], or null for a loose end'),
);
const pair = <T extends z.ZodType>(of: T) => z.tuple([of, of], must("a list of two, end A first, then end B"));

const list = <T extends z.ZodType>(of: T, most: number, what: string) =>
  z
    .array(of, must("a list in square brackets"))
    .max(most, { error: `holds more than ${most} ${what}; split the drawing` });
const shortList = <T extends z.ZodType>(of: T, what: string) => list(of, LIMITS.entries, what);

const parameters = z.record(z.string(), quantity, must('parameters in braces, such as {"rating":"125 A"}'));
const choice = <const T extends readonly string[]>(names: T) => z.enum(names, must(`one of ${names.join(", ")}`));

export const TITLE_FIELDS = [
  "vehicle",
  "title",
  "supplementaryTitle",
  "owner",
  "number",
  "author",
  "approvedBy",
  "date",
  "revision",
  "documentType",
  "language",
] as const;
const titleBlock = z.strictObject(
  Object.fromEntries(TITLE_FIELDS.map((field) => [field, text.exactOptional()])) as Record<
    (typeof TITLE_FIELDS)[number],
    z.ZodExactOptional<z.ZodString>
  >,
  must("the title block in braces"),
);

const sheet = z.strictObject(
  {
    id: sheetId,
    name: text,
    paper: choice(["A4", "A3", "Letter", "Tabloid"]),
    orientation: choice(["landscape", "portrait"]),
  },
  must("a sheet in braces"),
);

export const ZONE_KINDS = ["outside", "engine", "passenger", "luggage", "underfloor", "battery-box", "other"] as const;
const zone = z.strictObject(
  {
    id: zoneId,
    kind: choice(ZONE_KINDS),
    name: text.exactOptional(),
    ambient: quantity.exactOptional(),
  },
  must("a zone in braces"),
);

const enclosure = z.strictObject(
  {
    id: enclosureId,
    name: text,
    zone: zoneId.exactOptional(),
    toolClosed: yesNo.exactOptional(),
    conductive: yesNo.exactOptional(),
    voltageSign: yesNo.exactOptional(),
  },
  must("an enclosure in braces"),
);

const cable = z.strictObject(
  {
    id: cableId,
    name: text,
    sheath: yesNo.exactOptional(),
    screened: yesNo.exactOptional(),
    conduit: text.nullable().exactOptional(),
  },
  must("a cable in braces"),
);

const placement = z.strictObject(
  {
    view: text,
    sheet: sheetId,
    x: onGrid,
    y: onGrid,
    turn: z.literal([0, 90, 180, 270], must("0, 90, 180 or 270")).default(0),
    mirrored: z.boolean(must("true or false")).default(false),
  },
  must("a view's place in braces"),
);

const part = z.strictObject(
  {
    id: partId,
    designation: z
      .string(must('a designation, such as "F1"'))
      .regex(
        DESIGNATION,
        must("one to three capital letters, one to four digits and perhaps one more letter, such as F1 or Q12a"),
      ),
    kind: text,
    parameters: parameters.default({}),
    views: shortList(placement, "views").default([]),
    zone: zoneId.exactOptional(),
    enclosure: enclosureId.exactOptional(),
    panel: z.strictObject({ x: millimetres, y: millimetres }, must('a place such as {"x":40,"y":25}')).exactOptional(),
    covers: shortList(terminalId, "covered terminals").exactOptional(),
    face: z.record(z.string(), point, must('terminals with their places, such as {"B+":[25,40]}')).exactOptional(),
    note: text.exactOptional(),
    extra: z.unknown().exactOptional(),
  },
  must("a part in braces"),
);

const insulation = z.strictObject(
  {
    material: text.exactOptional(),
    volts: quantity.exactOptional(),
    temperature: quantity.exactOptional(),
  },
  must("insulation in braces"),
);

const route = z.strictObject({ sheet: sheetId, points: shortList(point, "points") }, must("a route in braces"));
const wire = z.strictObject(
  {
    id: wireId,
    number: text,
    ends: pair(wireEnd.nullable()),
    size: quantity.exactOptional(),
    length: quantity.exactOptional(),
    colour: text.nullable().exactOptional(),
    insulation: insulation.exactOptional(),
    cable: cableId.exactOptional(),
    core: text.exactOptional(),
    sheath: yesNo.exactOptional(),
    routes: shortList(route, "routes").exactOptional(),
    lugs: pair(text.nullable()).exactOptional(),
    boots: pair(yesNo).exactOptional(),
    torque: pair(quantity).exactOptional(),
    zones: shortList(zoneId, "zones").exactOptional(),
    conduit: text.nullable().exactOptional(),
    grommets: yesNo.exactOptional(),
    note: text.exactOptional(),
    extra: z.unknown().exactOptional(),
  },
  must("a wire in braces"),
);

const stateName = z
  .string(must("a state's name"))
  .regex(STATE_NAME, must("lower-case letters, digits and hyphens, such as key-on"));

const netName = z.strictObject({ at: wireEnd, name: text }, must("a net's name in braces"));
const positions = z.record(z.string(), text, must('parts with their positions, such as {"p4":"on"}'));
const state = z.strictObject({ name: stateName, from: stateName, set: positions }, must("a state in braces"));
const acceptedFinding = z.strictObject(
  { key: text, who: text, when: text, why: text, hash: text },
  must("an accepted finding in braces"),
);
const reading = z.strictObject({ state: text, plus: text, minus: text, volts: text }, must("a reading in braces"));
const tick = z.strictObject({ what: text, who: text, when: text }, must("a tick in braces"));
const revision = z.strictObject({ index: text, when: text, who: text, what: text }, must("a revision in braces"));
const preset = z.strictObject({ name: text, kind: text, parameters }, must("a preset in braces"));
const counter = z.int(must("a whole number")).min(0, must("0 or more")).max(999_999_999, must("below 1,000,000,000"));
const counters = z.strictObject(
  {
    p: counter.exactOptional(),
    w: counter.exactOptional(),
    s: counter.exactOptional(),
    c: counter.exactOptional(),
    z: counter.exactOptional(),
    e: counter.exactOptional(),
  },
  must('the highest number given out by letter, such as {"p":12,"w":30}'),
);

/** Lists that a file may leave out are read as empty. */
export const projectSchema = z.strictObject(
  {
    format: z.literal("loomwright-project", must('"loomwright-project"')),
    version: z.literal(1, must("1")),
    title: titleBlock,
    sharedNegative: yesNo.exactOptional(),
    sheets: shortList(sheet, "sheets"),
    zones: shortList(zone, "zones").default([]),
    enclosures: shortList(enclosure, "enclosures").default([]),
    cables: shortList(cable, "cables").default([]),
    parts: list(part, LIMITS.parts, "parts"),
    wires: list(wire, LIMITS.wires, "wires"),
    netNames: shortList(netName, "net names").default([]),
    states: shortList(state, "states").default([]),
    accepted: shortList(acceptedFinding, "accepted findings").default([]),
    readings: shortList(reading, "readings").default([]),
    progress: shortList(tick, "ticks").default([]),
    revisions: shortList(revision, "revisions").default([]),
    presets: shortList(preset, "presets").default([]),
    lastIds: counters.default({}),
    extra: z.unknown().exactOptional(),
  },
  must("a project in braces"),
);

/** Field names by place (list indexes left out), for remedies. */
export const FIELDS: Readonly<Record<string, readonly string[]>> = {
  "": Object.keys(projectSchema.shape),
  title: TITLE_FIELDS,
  sheets: Object.keys(sheet.shape),
  zones: Object.keys(zone.shape),
  enclosures: Object.keys(enclosure.shape),
  cables: Object.keys(cable.shape),
  parts: Object.keys(part.shape),
  "parts.views": Object.keys(placement.shape),
  wires: Object.keys(wire.shape),
  "wires.insulation": Object.keys(insulation.shape),
  "wires.routes": Object.keys(route.shape),
  netNames: Object.keys(netName.shape),
  states: Object.keys(state.shape),
  accepted: Object.keys(acceptedFinding.shape),
  readings: Object.keys(reading.shape),
  progress: Object.keys(tick.shape),
  revisions: Object.keys(revision.shape),
  presets: Object.keys(preset.shape),
  lastIds: Object.keys(counters.shape),
};
