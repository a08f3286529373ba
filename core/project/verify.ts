/**
 * What a file of the right shape may still have wrong: ids that stand twice, references to what is not there,
 * values that cannot be read. Unfinished is not wrong: loose wires, equal designations, missing data, unplaced
 * views are for the checks. Values come out in normal form.
 */
import { BUILT_IN_STATES } from "../parts/condition.ts";
import type { Enclosure, Part, Project, Wire, WireEnd, Zone } from "./document.ts";
import { higherIds, highestNumber, ID_LETTERS, LIST_OF } from "./ids.ts";
import type { IdLetter } from "./ids.ts";
import { knownPart, partById } from "./lookup.ts";
import type { Kinds } from "./lookup.ts";
import { choiceOf } from "./nearest.ts";
import { normaliseParameters, normaliseQuantity, normaliseWire, settled } from "./normalise.ts";
import { entryName } from "./places.ts";
import { Problems, shown } from "./problems.ts";

export interface Verified {
  readonly project: Project;
  readonly problems: readonly string[];
}

const NOUN: Record<IdLetter, string> = {
  p: "part",
  w: "wire",
  s: "sheet",
  c: "cable",
  z: "zone",
  e: "enclosure",
};

class Verification {
  readonly project: Project;
  readonly kinds: Kinds;
  readonly ids: Record<IdLetter, ReadonlySet<string>>;
  /** Equal ids first, then broken references, then values: the order in which a person should mend them. */
  readonly twice = new Problems();
  readonly missing = new Problems();
  readonly values = new Problems();
  /** Parts with a value that cannot be read: which terminals they have is then anybody's guess. */
  readonly #unreadable = new Set<string>();

  constructor(project: Project, kinds: Kinds) {
    this.project = project;
    this.kinds = kinds;
    const idsOf = (letter: IdLetter): ReadonlySet<string> => new Set(project[LIST_OF[letter]].map(({ id }) => id));
    this.ids = { p: idsOf("p"), w: idsOf("w"), s: idsOf("s"), c: idsOf("c"), z: idsOf("z"), e: idsOf("e") };
  }

  duplicates(): void {
    for (const letter of ID_LETTERS) {
      const seen = new Set<string>();
      this.project[LIST_OF[letter]].forEach((entry, index) => {
        if (seen.has(entry.id)) {
          this.twice.add(
            `${entryName(LIST_OF[letter], index, entry)}: another ${NOUN[letter]} already has the id ${entry.id}. ` +
              `Give this one an id of its own, such as ${letter}${highestNumber(this.project[LIST_OF[letter]]) + 1}.`,
          );
        }
        seen.add(entry.id);
      });
    }
  }

  reference(place: string, letter: IdLetter, id: string | undefined): void {
    if (id === undefined || this.ids[letter].has(id)) return;
    this.missing.add(
      `${place}: there is no ${NOUN[letter]} with id ${id}. Name one that there is, or take this entry out.`,
    );
  }

  /** A wire's end, a cover, a net's name: the part must be there and have this terminal. */
  terminal(place: string, [id, terminal]: WireEnd, remedy: string): void {
    const part = partById(this.project, id);
    if (part === undefined) {
      this.missing.add(`${place}: there is no part with id ${id}. ${remedy}`);
      return;
    }
    const known = knownPart(part, this.kinds);
    if (known === undefined || known.terminalIds.has(terminal) || this.#unreadable.has(id)) return;
    this.missing.add(
      `${place}: ${part.designation} (${part.kind}) has no terminal ${terminal}. ${choiceOf(terminal, known.terminalIds)}`,
    );
  }

  part(part: Part, index: number): Part {
    const place = entryName("parts", index, part);
    this.reference(`${place}, zone`, "z", part.zone);
    this.reference(`${place}, enclosure`, "e", part.enclosure);
    const known = knownPart(part, this.kinds);
    if (known === undefined) {
      this.missing.add(
        `${place}: there is no kind of part called "${shown(part.kind)}". ${choiceOf(part.kind, this.kinds.keys())}`,
      );
      return part;
    }
    const parameters = normaliseParameters(known.kind, part.parameters, known.terminalIds, (field, why) => {
      this.values.add(`${place}, ${field}: ${why}`);
      this.#unreadable.add(part.id);
    });
    for (const terminal of part.covers ?? []) this.terminal(`${place}, covers`, [part.id, terminal], "");
    for (const terminal of Object.keys(part.face ?? {})) this.terminal(`${place}, face`, [part.id, terminal], "");
    this.views(part, place, () => known.views().map((view) => view.id));
    return parameters === part.parameters ? part : { ...part, parameters };
  }

  views(part: Part, place: string, viewIds: () => readonly string[]): void {
    const placed = new Set<string>();
    for (const placement of part.views) {
      const view = shown(placement.view);
      this.reference(`${place}, view ${view}`, "s", placement.sheet);
      const there = viewIds();
      if (!there.includes(placement.view)) {
        this.missing.add(`${place}: ${part.kind} has no view called "${view}". ${choiceOf(placement.view, there)}`);
      } else if (placed.has(placement.view)) {
        this.twice.add(`${place}: its view ${view} is placed twice. Take one of the two places out.`);
      }
      placed.add(placement.view);
    }
  }

  wire(wire: Wire, index: number): Wire {
    const place = entryName("wires", index, wire);
    wire.ends.forEach((end, side) => {
      if (end === null) return;
      const remedy = "Connect this end to a part that there is, or write null for a loose end.";
      this.terminal(`${place}, end ${side === 0 ? "A" : "B"}`, end, remedy);
    });
    this.reference(`${place}, cable`, "c", wire.cable);
    for (const zone of wire.zones ?? []) this.reference(`${place}, zones`, "z", zone);
    const sheets = new Set<string>();
    for (const route of wire.routes ?? []) {
      this.reference(`${place}, routes`, "s", route.sheet);
      if (sheets.has(route.sheet)) {
        this.twice.add(`${place}: it has two routes on sheet ${route.sheet}. Take one of the two out.`);
      }
      sheets.add(route.sheet);
    }
    return normaliseWire(wire, (field, why) => this.values.add(`${place}, ${field}: ${why}`));
  }

  zone(zone: Zone, index: number): Zone {
    if (zone.ambient === undefined) return zone;
    const place = entryName("zones", index, zone);
    const ambient = settled(normaliseQuantity("temperature", zone.ambient), zone.ambient, "ambient", (field, why) =>
      this.values.add(`${place}, ${field}: ${why}`),
    );
    return { ...zone, ambient };
  }

  enclosure(enclosure: Enclosure, index: number): void {
    this.reference(`${entryName("enclosures", index, enclosure)}, zone`, "z", enclosure.zone);
  }

  states(): void {
    const names = new Set<string>();
    const builtIn: readonly string[] = BUILT_IN_STATES;
    for (const state of this.project.states) {
      const place = `State ${state.name}`;
      if (builtIn.includes(state.name)) {
        this.twice.add(`${place}: a built-in state has this name already. Give yours another one.`);
      } else if (names.has(state.name)) {
        this.twice.add(`${place}: there are two states of this name. Rename one of the two.`);
      }
      names.add(state.name);
      if (state.from === state.name) {
        this.missing.add(`${place}: it starts from itself. Start it from a built-in state, such as driving.`);
      } else if (!builtIn.includes(state.from)) {
        this.missing.add(
          `${place}: there is no built-in state called ${state.from} to start from. ${choiceOf(state.from, builtIn)}`,
        );
      }
      for (const [id, position] of Object.entries(state.set)) this.control(place, id, position);
    }
  }

  control(place: string, id: string, position: string): void {
    const part = partById(this.project, id);
    if (part === undefined) {
      this.missing.add(
        `${place}: there is no part with id ${shown(id)}. Name one that there is, or take this entry out.`,
      );
      return;
    }
    const known = knownPart(part, this.kinds);
    if (known === undefined) return;
    const positions = known.kind.control?.positions(known.values) ?? [];
    if (positions.length === 0) {
      this.missing.add(`${place}: ${part.designation} (${part.kind}) has nothing to move. Take this entry out.`);
    } else if (!positions.includes(position)) {
      this.missing.add(
        `${place}: ${part.designation} has no position "${shown(position)}". ${choiceOf(position, positions)}`,
      );
    }
  }

  presets(): Project["presets"] {
    return this.project.presets.map((preset) => {
      const place = `Preset ${shown(preset.name)}`;
      const kind = this.kinds.get(preset.kind);
      if (kind === undefined) {
        this.missing.add(
          `${place}: there is no kind of part called "${shown(preset.kind)}". ${choiceOf(preset.kind, this.kinds.keys())}`,
        );
        return preset;
      }
      const stand = knownPart(
        { id: "p1", designation: "X1", kind: preset.kind, parameters: preset.parameters, views: [] },
        this.kinds,
      );
      const parameters = normaliseParameters(kind, preset.parameters, stand?.terminalIds ?? new Set(), (field, why) =>
        this.values.add(`${place}, ${field}: ${why}`),
      );
      return { ...preset, parameters };
    });
  }

  readings(): Project["readings"] {
    return this.project.readings.map((reading, index) => {
      const place = entryName("readings", index, reading);
      const volts = settled(normaliseQuantity("voltage", reading.volts), reading.volts, "volts", (field, why) =>
        this.values.add(`${place}, ${field}: ${why}`),
      );
      return { ...reading, volts: volts ?? reading.volts };
    });
  }

  netNames(): void {
    for (const { at, name } of this.project.netNames) {
      this.terminal(`Net name ${shown(name)}`, at, "Name a terminal that there is, or take this name out.");
    }
  }
}

/** Verifies and normalises a document that has the right shape. */
export function verifyProject(given: Project, kinds: Kinds): Verified {
  const look = new Verification(given, kinds);
  look.duplicates();
  const parts = given.parts.map((part, index) => look.part(part, index));
  const wires = given.wires.map((wire, index) => look.wire(wire, index));
  const zones = given.zones.map((zone, index) => look.zone(zone, index));
  given.enclosures.forEach((enclosure, index) => look.enclosure(enclosure, index));
  look.states();
  look.netNames();
  const presets = look.presets();
  const readings = look.readings();
  const problems = [...look.twice.list(), ...look.missing.list(), ...look.values.list()];
  const inUse = Object.fromEntries(ID_LETTERS.map((letter) => [letter, highestNumber(given[LIST_OF[letter]])]));
  const lastIds = higherIds(
    Object.fromEntries(ID_LETTERS.map((letter) => [letter, given.lastIds[letter] ?? 0])),
    inUse,
  );
  return { project: { ...given, parts, wires, zones, presets, readings, lastIds }, problems };
}
