/**
 * Small drawings for tests: terse, complete (title block filled, every view of every part on a sheet without
 * overlap), so that a drawing has only the faults that its test puts in.
 *
 *   drawing()
 *     .part("G1", "battery-block", { chemistry: "flooded-lead", capacity: "100 Ah" })
 *     .wire("G1:+", "F1:1", { size: "35 mm2", length: "0.3 m" })
 *     .build()
 *
 * Parts get the ids p1, p2 ..., wires w1, w2 ..., in the order they are named. A mistake in a test's own drawing
 * (unknown part, unknown terminal) stops the test at once.
 */
import { kindOf } from "../../core/parts/catalogue.ts";
import type { PartKind, Values } from "../../core/parts/define.ts";
import { readValues } from "../../core/parts/values.ts";
import type {
  AcceptedFinding,
  Cable,
  Enclosure,
  Parameters,
  Part,
  Project,
  Sheet,
  TitleBlock,
  UserState,
  ViewPlacement,
  Wire,
  WireEnd,
  Zone,
  ZoneKind,
} from "../../core/project/document.ts";

/** What a test may say of a part beside its parameters. Zones and enclosures by name (a zone also by its kind). */
export interface PartOptions {
  readonly zone?: string;
  readonly enclosure?: string;
  readonly panel?: readonly [x: number, y: number];
  readonly covers?: readonly string[];
  readonly finish?: "bare" | "booted";
  readonly face?: Part["face"];
  /** Leave this part's views off every sheet. */
  readonly unplaced?: boolean;
}

/** What a test may say of a wire: the document's fields, zones by name. */
export interface WireOptions extends Partial<Omit<Wire, "id" | "ends" | "zones" | "cable">> {
  readonly zones?: readonly string[];
  readonly cable?: string;
}

export interface DrawingOptions {
  /** Kinds made up for one test, asked before the catalogue. */
  readonly kinds?: readonly PartKind[];
}

const COMPLETE_TITLE: TitleBlock = {
  vehicle: "Village workshop, utility cart",
  title: "Power and control",
  author: "A. Fitter",
  date: "2026-11-25",
  revision: "A",
  number: "VW-001",
};

export class Drawing {
  readonly #options: DrawingOptions;
  readonly #parts: Part[] = [];
  readonly #wires: Wire[] = [];
  readonly #zones: Zone[] = [];
  readonly #enclosures: Enclosure[] = [];
  readonly #cables: Cable[] = [];
  readonly #states: UserState[] = [];
  readonly #netNames: { at: WireEnd; name: string }[] = [];
  readonly #accepted: AcceptedFinding[] = [];
  readonly #unplaced = new Set<string>();
  readonly #byDesignation = new Map<string, Part>();
  #title: TitleBlock = COMPLETE_TITLE;
  #sharedNegative: boolean | undefined;
  #defaults: WireOptions = {};

  constructor(options: DrawingOptions) {
    this.#options = options;
  }

  part(designation: string, kind: string, parameters: Parameters = {}, options: PartOptions = {}): this {
    if (this.#byDesignation.has(designation)) throw new Error(`${designation} is drawn twice`);
    return this.twin(designation, kind, parameters, options);
  }

  /** As `part`, but the designation may be in use already (for drawings that are wrong in just this). */
  twin(designation: string, kind: string, parameters: Parameters = {}, options: PartOptions = {}): this {
    this.#kind(kind);
    const id = `p${this.#parts.length + 1}`;
    if (options.unplaced === true) this.#unplaced.add(id);
    const part: Part = {
      id,
      designation,
      kind,
      views: [],
      parameters: options.finish === undefined ? parameters : { ...parameters, finish: options.finish },
      ...(options.zone === undefined ? {} : { zone: this.#zone(options.zone) }),
      ...(options.enclosure === undefined ? {} : { enclosure: this.#enclosure(options.enclosure) }),
      ...(options.panel === undefined ? {} : { panel: { x: options.panel[0], y: options.panel[1] } }),
      ...(options.covers === undefined ? {} : { covers: options.covers }),
      ...(options.face === undefined ? {} : { face: options.face }),
    };
    this.#parts.push(part);
    if (!this.#byDesignation.has(designation)) this.#byDesignation.set(designation, part);
    return this;
  }

  /** Several parts of one kind: `.parts("battery-block", { ... }, "G1", "G2")`. */
  parts(kind: string, parameters: Parameters, ...designations: readonly string[]): this {
    for (const designation of designations) this.part(designation, kind, parameters);
    return this;
  }

  /** Fields of every wire drawn from here on, unless it says otherwise. */
  defaults(options: WireOptions): this {
    this.#defaults = { ...this.#defaults, ...options };
    return this;
  }

  /** A wire between two terminals ("F1:1"); null = a loose end. */
  wire(from: string | null, to: string | null, options: WireOptions = {}): this {
    const { zones, cable, ...fields } = { ...this.#defaults, ...options };
    const id = `w${this.#wires.length + 1}`;
    this.#wires.push({
      number: `W${this.#wires.length + 1}`,
      ...fields,
      id,
      ends: [from === null ? null : this.end(from), to === null ? null : this.end(to)],
      ...(zones === undefined ? {} : { zones: zones.map((zone) => this.#zone(zone)) }),
      ...(cable === undefined ? {} : { cable: this.#cable(cable) }),
    });
    return this;
  }

  /** Several wires alike: `.wires({ size: "35 mm2", length: "0.3 m" }, "G1:- - G2:+", "G2:- - G3:+")`. */
  wires(options: WireOptions, ...pairs: readonly string[]): this {
    for (const pair of pairs) {
      const [from, to, ...more] = pair.split(" - ").map((text) => text.trim());
      if (from === undefined || to === undefined || more.length > 0) throw new Error(`"${pair}" is not "A:1 - B:2"`);
      this.wire(from, to, options);
    }
    return this;
  }

  zone(kind: ZoneKind, name: string = kind, fields: Partial<Omit<Zone, "id" | "kind" | "name">> = {}): this {
    this.#zones.push({ id: `z${this.#zones.length + 1}`, kind, name, ...fields });
    return this;
  }

  enclosure(
    name: string,
    fields: Partial<Omit<Enclosure, "id" | "name" | "zone">> & { readonly zone?: string } = {},
  ): this {
    const { zone, ...rest } = fields;
    this.#enclosures.push({
      id: `e${this.#enclosures.length + 1}`,
      name,
      ...rest,
      ...(zone === undefined ? {} : { zone: this.#zone(zone) }),
    });
    return this;
  }

  cable(name: string, fields: Partial<Omit<Cable, "id" | "name">> = {}): this {
    this.#cables.push({ id: `c${this.#cables.length + 1}`, name, ...fields });
    return this;
  }

  /** A state of the user's own; controls by designation. */
  state(name: string, from: string, set: Readonly<Record<string, string>> = {}): this {
    const byId = Object.fromEntries(
      Object.entries(set).map(([designation, position]) => [this.#part(designation).id, position]),
    );
    this.#states.push({ name, from, set: byId });
    return this;
  }

  netName(at: string, name: string): this {
    this.#netNames.push({ at: this.end(at), name });
    return this;
  }

  accept(finding: AcceptedFinding): this {
    this.#accepted.push(finding);
    return this;
  }

  title(fields: TitleBlock): this {
    this.#title = fields;
    return this;
  }

  sharedNegative(declared = true): this {
    this.#sharedNegative = declared;
    return this;
  }

  /** `["p3","coil+"]` for "Q1:coil+". */
  end(text: string): WireEnd {
    const colon = text.indexOf(":");
    const part = this.#part(text.slice(0, colon));
    const terminal = text.slice(colon + 1);
    const kind = this.#kind(part.kind);
    const known = kind.terminals(this.#values(kind, part)).map(({ id }) => id);
    if (!known.includes(terminal)) throw new Error(`${text}: ${part.kind} has the terminals ${known.join(" ")}`);
    return [part.id, terminal];
  }

  build(): Project {
    const { sheets, placements } = this.#place();
    return {
      format: "loomwright-project",
      version: 1,
      title: this.#title,
      ...(this.#sharedNegative === undefined ? {} : { sharedNegative: this.#sharedNegative }),
      sheets,
      zones: this.#zones,
      enclosures: this.#enclosures,
      cables: this.#cables,
      parts: this.#parts.map((part) => ({ ...part, views: placements.get(part.id) ?? [] })),
      wires: [...this.#wires],
      netNames: this.#netNames,
      states: this.#states,
      accepted: this.#accepted,
      readings: [],
      progress: [],
      revisions: [],
      presets: [],
      lastIds: {
        p: this.#parts.length,
        w: this.#wires.length,
        s: sheets.length,
        c: this.#cables.length,
        z: this.#zones.length,
        e: this.#enclosures.length,
      },
    };
  }

  /** Rows from left to right on A3, above the title block, each view's keep-out box 15 mm from the next. */
  #place(): { sheets: readonly Sheet[]; placements: ReadonlyMap<string, readonly ViewPlacement[]> } {
    const grid = (value: number): number => Math.ceil(value / 2.5) * 2.5;
    const [left, right, top, bottom, gap] = [35, 395, 30, 220, 15];
    const placements = new Map<string, ViewPlacement[]>();
    let [x, y, rowHeight, sheet] = [left, top, 0, 1];
    for (const part of this.#parts) {
      if (this.#unplaced.has(part.id)) continue;
      const kind = this.#kind(part.kind);
      const placed: ViewPlacement[] = [];
      for (const view of kind.views(this.#values(kind, part))) {
        const { width, height } = view.box;
        if (x + width > right && x > left) [x, y, rowHeight] = [left, y + rowHeight + gap, 0];
        if (y + height > bottom && y > top) [x, y, rowHeight, sheet] = [left, top, 0, sheet + 1];
        placed.push({
          view: view.id,
          sheet: `s${sheet}`,
          x: grid(x - view.box.x),
          y: grid(y - view.box.y),
          turn: 0,
          mirrored: false,
        });
        x = grid(x + width + gap);
        rowHeight = Math.max(rowHeight, height);
      }
      placements.set(part.id, placed);
    }
    const sheets = Array.from(
      { length: sheet },
      (_, index): Sheet => ({
        id: `s${index + 1}`,
        name: `Sheet ${index + 1}`,
        paper: "A3",
        orientation: "landscape",
      }),
    );
    return { sheets, placements };
  }

  #kind(name: string): PartKind {
    const kind = this.#options.kinds?.find((candidate) => candidate.kind === name) ?? kindOf(name);
    if (kind === undefined) throw new Error(`there is no part kind "${name}"`);
    return kind;
  }

  #values(kind: PartKind, part: Part): Values {
    return readValues(kind, part.parameters);
  }

  #part(designation: string): Part {
    const part = this.#byDesignation.get(designation);
    if (part === undefined) throw new Error(`no part ${designation} drawn yet`);
    return part;
  }

  #zone(name: string): string {
    const zone = this.#zones.find((candidate) => candidate.name === name || candidate.kind === name);
    if (zone === undefined) throw new Error(`no zone ${name}: call .zone() first`);
    return zone.id;
  }

  #enclosure(name: string): string {
    const enclosure = this.#enclosures.find((candidate) => candidate.name === name);
    if (enclosure === undefined) throw new Error(`no enclosure ${name}: call .enclosure() first`);
    return enclosure.id;
  }

  #cable(name: string): string {
    const cable = this.#cables.find((candidate) => candidate.name === name);
    if (cable === undefined) throw new Error(`no cable ${name}: call .cable() first`);
    return cable.id;
  }
}

export function drawing(options: DrawingOptions = {}): Drawing {
  return new Drawing(options);
}
