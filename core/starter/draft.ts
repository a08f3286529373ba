/**
 * A vehicle while it is drawn up: parts and wires in a few words; zones, enclosures, places on panels, lengths, lugs,
 * conduits and wire numbers follow from where things are.
 */
import { placeParts } from "../layout/place.ts";
import type { Face } from "../parts/define.ts";
import { KINDS } from "../parts/catalogue.ts";
import { readValues } from "../parts/values.ts";
import type {
  Enclosure,
  Part,
  Project,
  Sheet,
  TitleBlock,
  Wire,
  WireEnd,
  Zone,
  ZoneKind,
} from "../project/document.ts";
import { knownPart } from "../project/lookup.ts";
import { newProject } from "../project/new-project.ts";
import { normaliseParameters, normaliseWire } from "../project/normalise.ts";
import type { Metre } from "../quantity/kinds.ts";

/** Where on the vehicle; what is in a box lies on its panel. */
export type Spot = "battery box" | "drive box" | "12 V box" | "motor bay" | "cab" | "outside";

const ZONES: Readonly<Record<string, { readonly kind: ZoneKind; readonly ambient: string }>> = {
  "battery box": { kind: "battery-box", ambient: "40 °C" },
  "motor bay": { kind: "engine", ambient: "50 °C" },
  cab: { kind: "passenger", ambient: "40 °C" },
  outside: { kind: "outside", ambient: "40 °C" },
};
const BOXES: Readonly<Partial<Record<Spot, string>>> = {
  "battery box": "battery box",
  "drive box": "motor bay",
  "12 V box": "motor bay",
};
const zoneOf = (spot: Spot): string => BOXES[spot] ?? spot;

/** Cable from one place of the vehicle to another, for a car of ordinary size. Common practice, no source. */
const WAYS: readonly (readonly [string, string, Metre])[] = [
  ["battery box", "motor bay", 2.5],
  ["motor bay", "cab", 2],
  ["cab", "outside", 2.5],
  ["motor bay", "outside", 2],
  ["battery box", "cab", 3],
  ["battery box", "outside", 3],
];
/** Between two parts of one bay that share no box; from a part to the metal beside it. */
const WITHIN_BAY: Metre = 0.8;
/** Each end of a wire bends round to its terminal. */
const BEND: Metre = 0.1;
const SHORTEST: Metre = 0.15;

export interface WireLook {
  readonly size: string;
  readonly colour: string;
  readonly insulation: { readonly material: string; readonly volts: string; readonly temperature: string };
  /** Wires of one name share a conduit between two places. */
  readonly conduit: string;
}

/** Stands for a busbar's last stud until all are known. */
const LAST = "last";

interface PanelPoint {
  readonly x: number;
  readonly y: number;
}

interface Placed {
  readonly part: Part;
  readonly spot: Spot;
  readonly face: Face;
}

/** Room between two parts on a panel, and how wide a panel is, mm. */
const GAP = 30;
const PANEL_WIDTH = 900;
/** Room kept for a busbar, which grows with what is joined to it. */
const BAR_ROOM = { width: 420, height: 40 };

export class Draft {
  readonly #parts = new Map<string, Placed>();
  readonly #wires: Wire[] = [];
  readonly #rows = new Map<Spot, { x: number; y: number; height: number }>();
  readonly #bars = new Map<string, { readonly spot: Spot; readonly room: PanelPoint; taps: number }>();
  readonly #zones: Zone[] = Object.entries(ZONES).map(([name, { kind, ambient }], index) => ({
    id: `z${index + 1}`,
    kind,
    name,
    ambient,
  }));
  #enclosures: readonly Enclosure[] = Object.entries(BOXES).map(([name, zone], index) => ({
    id: `e${index + 1}`,
    name,
    zone: this.#zoneId(zone),
    toolClosed: true,
    conductive: false,
    voltageSign: name !== "12 V box",
  }));

  /** The voltage sign on the 12 V box too: the key's wires in it are at pack voltage. */
  markLowBox(): this {
    this.#enclosures = this.#enclosures.map((box) => ({ ...box, voltageSign: true }));
    return this;
  }

  /** Adds a part with all terminals booted. */
  part(designation: string, kind: string, spot: Spot, parameters: Readonly<Record<string, string>>): this {
    this.#add(designation, kind, spot, { finish: "booted", ...parameters });
    return this;
  }

  /** A busbar that grows with what is joined to it; `tap` gives its next terminal. */
  bar(designation: string, spot: Spot): this {
    this.#bars.set(designation, { spot, taps: 0, room: this.#room(spot, BAR_ROOM) });
    return this;
  }

  tap(designation: string): string {
    const bar = this.#bars.get(designation);
    if (bar === undefined) throw new RangeError(`no busbar ${designation}`);
    bar.taps += 1;
    return `${designation}:${bar.taps}`;
  }

  /** The last stud of a busbar, for what goes on from it: however many there are, that line crosses none of them. */
  end(designation: string): string {
    this.tap(designation);
    return `${designation}:${LAST}`;
  }

  has(designation: string): boolean {
    return this.#parts.has(designation) || this.#bars.has(designation);
  }

  /** A wire between two terminals ("F1:2"); its length follows from where they are unless given. */
  wire(from: string, to: string, look: WireLook, given: { readonly length?: Metre } = {}): this {
    this.#later.push(() => this.#draw(from, to, look, given.length));
    return this;
  }

  readonly #later: (() => void)[] = [];

  /** The drawing, laid out on sheets of this paper. */
  project(title: TitleBlock, paper: Sheet["paper"]): Project {
    // Busbars are as long as what was joined to them, so that they come after everything else.
    for (const [designation, { spot, taps, room }] of this.#bars) {
      this.#add(designation, "busbar", spot, { finish: "booted", positions: String(Math.max(taps, 2)) }, room);
    }
    for (const draw of this.#later) draw();
    const base = newProject();
    const parts = [...this.#parts.values()].map(({ part }) => part);
    return placeParts({
      ...base,
      title,
      sharedNegative: false,
      sheets: base.sheets.map((sheet) => ({ ...sheet, paper })),
      zones: this.#zones,
      enclosures: this.#enclosures,
      parts,
      wires: this.#wires,
      lastIds: {
        ...base.lastIds,
        p: parts.length,
        w: this.#wires.length,
        z: this.#zones.length,
        e: this.#enclosures.length,
      },
    });
  }

  #zoneId(name: string): string {
    return this.#zones.find((zone) => zone.name === name)?.id ?? "";
  }

  #add(
    designation: string,
    kindName: string,
    spot: Spot,
    typed: Readonly<Record<string, string>>,
    room?: PanelPoint,
  ): void {
    if (this.#parts.has(designation)) throw new RangeError(`two parts are called ${designation}`);
    const bare: Part = { id: `p${this.#parts.size + 1}`, designation, kind: kindName, parameters: typed, views: [] };
    const known = knownPart(bare, KINDS);
    if (known === undefined) throw new RangeError(`there is no kind ${kindName}`);
    const parameters = normaliseParameters(known.kind, typed, known.terminalIds, (field, why) => {
      throw new RangeError(`${designation}, ${field}: ${why}`);
    });
    const face = known.kind.face(readValues(known.kind, parameters));
    const box = BOXES[spot] === undefined ? undefined : this.#enclosures.find(({ name }) => name === spot)?.id;
    const part: Part = {
      ...bare,
      parameters,
      zone: this.#zoneId(zoneOf(spot)),
      ...(box === undefined ? {} : { enclosure: box, panel: room ?? this.#room(spot, face) }),
      face: positions(face),
    };
    this.#parts.set(designation, { part, spot, face });
  }

  /** The next free place on the panel of a box, row by row. */
  #room(spot: Spot, { width, height }: Pick<Face, "width" | "height">): PanelPoint {
    let row = this.#rows.get(spot);
    if (row === undefined) this.#rows.set(spot, (row = { x: 20, y: 20, height: 0 }));
    if (row.x + width > PANEL_WIDTH) {
      row.x = 20;
      row.y += row.height + GAP;
      row.height = 0;
    }
    const place = { x: row.x, y: row.y };
    row.x += width + GAP;
    row.height = Math.max(row.height, height);
    return place;
  }

  #draw(from: string, to: string, look: WireLook, length: Metre | undefined): void {
    const [a, b] = [this.#end(from), this.#end(to)];
    const zones = [...new Set([zoneOf(a.placed.spot), zoneOf(b.placed.spot)])];
    const sameBox = a.placed.part.enclosure !== undefined && a.placed.part.enclosure === b.placed.part.enclosure;
    const through = zones.length > 1;
    const id = `w${this.#wires.length + 1}`;
    const wire: Wire = {
      id,
      number: `W${this.#wires.length + 1}`,
      ends: [a.end, b.end],
      size: look.size,
      length: `${Math.round((length ?? this.#length(a, b, sameBox)) * 100) / 100} m`,
      colour: look.colour,
      insulation: look.insulation,
      sheath: sameBox || through,
      lugs: [a.stud, b.stud],
      boots: [true, true],
      zones: zones.map((name) => this.#zoneId(name)),
      ...(through ? { conduit: `${look.conduit}, ${[...zones].sort().join(" to ")}` } : {}),
    };
    this.#wires.push(
      normaliseWire(wire, (field, why) => {
        throw new RangeError(`${from} to ${to}, ${field}: ${why}`);
      }),
    );
  }

  #end(text: string): {
    readonly end: WireEnd;
    readonly placed: Placed;
    readonly at: string;
    readonly stud: string | null;
  } {
    const [designation = "", named = ""] = text.split(":");
    const terminal = named === LAST ? String(this.#bars.get(designation)?.taps ?? 1) : named;
    const placed = this.#parts.get(designation);
    if (placed === undefined) throw new RangeError(`no part ${designation}`);
    const stud = placed.face.terminals[terminal]?.stud ?? null;
    return { end: [placed.part.id, terminal], placed, at: terminal, stud };
  }

  /** Along the panel from terminal to terminal, or the ordinary way between two places; in steps of 5 cm. */
  #length(
    a: { readonly placed: Placed; readonly at: string },
    b: { readonly placed: Placed; readonly at: string },
    sameBox: boolean,
  ): Metre {
    const spot = ({ placed, at }: { readonly placed: Placed; readonly at: string }) => {
      const { x = 0, y = 0 } = placed.part.panel ?? {};
      const own = placed.face.terminals[at] ?? { x: 0, y: 0 };
      return { x: x + own.x, y: y + own.y };
    };
    const [p, q] = [spot(a), spot(b)];
    const zones = [zoneOf(a.placed.spot), zoneOf(b.placed.spot)];
    const way = WAYS.find(([one, other]) => zones.includes(one) && zones.includes(other) && one !== other);
    const metres = sameBox
      ? (Math.abs(p.x - q.x) + Math.abs(p.y - q.y)) / 1000 + BEND
      : zones[0] === zones[1]
        ? WITHIN_BAY
        : (way?.[2] ?? WITHIN_BAY);
    return Math.max(SHORTEST, Math.ceil(metres * 20) / 20);
  }
}

/** The face as measured: nobody has to take it for a default. */
function positions({ terminals }: Face): Readonly<Record<string, readonly [number, number]>> {
  return Object.fromEntries(Object.entries(terminals).map(([id, { x, y }]) => [id, [x, y] as const]));
}
