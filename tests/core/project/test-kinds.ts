/** A small catalogue for these tests: stable whatever happens to the real one. */
import type { PartKind, TerminalSpec, View } from "../../../core/parts/define.ts";
import { definePart } from "../../../core/parts/define.ts";

const terminal = (id: string): TerminalSpec => ({ id, required: true, form: "stud", title: id });

const view = (id: string, terminals: readonly string[]): View => ({
  id,
  title: id,
  symbol: [],
  box: { x: -5, y: -5, width: 25, height: 10 },
  pins: terminals.map((name, index) => ({ terminal: name, x: index * 15, y: 0, side: "left" })),
  label: { x: 0, y: -6, anchor: "start" },
});

const words = { title: "t", explanation: "e", where: "w" };

type Basics = Pick<PartKind, "kind" | "letter" | "parameters" | "terminals" | "views"> & Partial<PartKind>;

const make = (basics: Basics): PartKind =>
  definePart({
    title: basics.kind,
    words: [],
    group: "connecting",
    explanation: "",
    supplyPairs: () => [],
    face: () => ({ width: 10, height: 10, terminals: {}, plugs: [], byDefault: true }),
    circuit: () => [],
    limits: () => [],
    traits: {},
    notes: [],
    ...basics,
  });

const finish = { finish: { ...words, choices: ["bare", "booted"] } };

const battery = make({
  kind: "battery-block",
  letter: "G",
  parameters: {
    ...finish,
    capacity: { ...words, dimension: "charge" },
    cells: { ...words, dimension: "count", default: "6", least: 1, whole: true },
    chemistry: { ...words, choices: ["agm-lead", "lifepo4"] },
    resistance: { ...words, dimension: "resistance" },
  },
  terminals: () => [terminal("+"), terminal("-")],
  views: () => [view("main", ["+", "-"])],
});

const fuse = make({
  kind: "fuse",
  letter: "F",
  parameters: {
    ...finish,
    rating: { ...words, dimension: "current", least: 0 },
    voltageDc: { ...words, dimension: "voltage" },
  },
  terminals: () => [terminal("1"), terminal("2")],
  views: () => [view("main", ["1", "2"])],
});

const contactor = make({
  kind: "contactor",
  letter: "Q",
  parameters: { ...finish, coilVoltage: { ...words, dimension: "voltage" } },
  terminals: () => ["line", "load", "coil+", "coil-"].map(terminal),
  views: () => [view("contact", ["line", "load"]), view("coil", ["coil+", "coil-"])],
});

const busbar = make({
  kind: "busbar",
  letter: "X",
  parameters: { ...finish, positions: { ...words, dimension: "count", default: "4", least: 1, most: 20, whole: true } },
  terminals: (values) =>
    Array.from({ length: values.number("positions") ?? 4 }, (_, index) => terminal(String(index + 1))),
  views: (values) => [
    view(
      "main",
      Array.from({ length: values.number("positions") ?? 4 }, (_, index) => String(index + 1)),
    ),
  ],
});

const toggle = make({
  kind: "switch",
  letter: "S",
  parameters: {},
  terminals: () => [terminal("common"), terminal("out")],
  views: () => [view("main", ["common", "out"])],
  control: { positions: () => ["off", "on"], at: () => "off", flip: true },
});

export const TEST_KINDS: ReadonlyMap<string, PartKind> = new Map(
  [battery, fuse, contactor, busbar, toggle].map((kind) => [kind.kind, kind]),
);
