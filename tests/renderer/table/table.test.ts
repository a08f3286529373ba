/** The tables without a window: blocks, what spreadsheets copy, order of rows, writing cells, what is missing. */
import { describe, expect, it } from "vitest";
import type { Project } from "../../../core/project/document.ts";
import { arranged, columnsOf } from "../../../renderer/draw/table/arrange.ts";
import type { Wanted } from "../../../renderer/draw/table/arrange.ts";
import { blockBetween, moved, pasting } from "../../../renderer/draw/table/block.ts";
import { copiedText } from "../../../renderer/draw/table/column.ts";
import type { Column } from "../../../renderer/draw/table/column.ts";
import { startFilling, stepFilling } from "../../../renderer/draw/table/filling.ts";
import { readTabSeparated, writeTabSeparated } from "../../../renderer/draw/table/tab-separated.ts";
import { rowsNow, tableOf } from "../../../renderer/draw/table/table-store.ts";
import { writeCells } from "../../../renderer/draw/table/write-cells.ts";
import { EditorStore } from "../../../renderer/window/editor-store.ts";
import { drawing } from "../../harness/drawing.ts";

const cart = (): Project =>
  drawing()
    .zone("underfloor", "under the floor")
    .part("G1", "battery-pack", {})
    .part("F2", "fuse", { rating: "250 A" })
    .part("F10", "fuse", { rating: "7.5 A" })
    .part("P1", "lamp", {})
    .wire("G1:+", "F2:1", { number: "W1", size: "35 mm2", length: "900 mm" })
    .wire("F2:2", "F10:1", { number: "W2", size: "2/0 AWG", length: "2 m" })
    .wire("F10:2", "P1:+", { number: "W10", size: "1.5 mm2" })
    .wire("P1:-", "G1:-", { number: "W3", size: null, length: "1.2 m" })
    .build();

const editorOf = (project: Project): EditorStore =>
  new EditorStore(project, { opened: () => undefined, edited: () => undefined, mend: () => undefined });

const WIRES: Wanted = { tab: "wires", kind: null, find: "", lack: "any", sorting: null };
const PARTS: Wanted = { ...WIRES, tab: "parts" };
const nothingAsked = (): number => 0;

function column(project: Project, wanted: Wanted, id: string): Column {
  const found = columnsOf(project, wanted).find((each) => each.id === id);
  if (found === undefined) throw new Error(`there is no column ${id}`);
  return found;
}

/** The rows by what stands in their first column. */
function names(project: Project, wanted: Wanted): readonly (string | null | undefined)[] {
  const [first] = columnsOf(project, wanted);
  return arranged(project, nothingAsked, wanted).map((id) => first?.cell(id)?.value);
}

const held = (store: EditorStore, wanted: Wanted, id: string, row: string): string =>
  copiedText(column(store.project, wanted, id).cell(row));

describe("blocks", () => {
  it("reach from corner to corner, whichever was first", () => {
    expect(blockBetween({ row: 4, column: 1 }, { row: 2, column: 3 })).toEqual({
      top: 2,
      left: 1,
      bottom: 4,
      right: 3,
    });
  });

  it("are moved through by keys as far as the table goes; above the first row is the heading", () => {
    const extent = { rows: 40, columns: 5, page: 10 };
    const press = (key: string, ctrl = false) => moved({ row: 3, column: 4 }, { key, ctrl }, extent);
    expect(press("ArrowRight")).toEqual({ row: 3, column: 4 });
    expect(press("PageUp")).toEqual({ row: 0, column: 4 });
    expect(press("PageDown")).toEqual({ row: 13, column: 4 });
    expect(press("End", true)).toEqual({ row: 39, column: 4 });
    expect(press("Home")).toEqual({ row: 3, column: 0 });
    expect(moved({ row: 0, column: 2 }, { key: "ArrowUp", ctrl: false }, extent)).toEqual({ row: -1, column: 2 });
    expect(press("x")).toBeUndefined();
  });

  it("are filled by one copied cell; more cells are laid from the corner and cut at the edge", () => {
    const block = { top: 1, left: 1, bottom: 2, right: 2 };
    const extent = { rows: 3, columns: 3 };
    expect(pasting(block, [["2 m"]], extent).cells.map(({ row, column: at, text }) => [row, at, text])).toEqual([
      [1, 1, "2 m"],
      [1, 2, "2 m"],
      [2, 1, "2 m"],
      [2, 2, "2 m"],
    ]);
    const laid = pasting(block, [["a", "b", "c"], ["d"], ["e"]], extent);
    expect(laid.cells.map(({ text }) => text)).toEqual(["a", "b", "d"]);
    expect(laid.block).toEqual({ top: 1, left: 1, bottom: 2, right: 2 });
    expect(laid.beyond).toEqual({ rows: 1, columns: 1 });
  });
});

// Cells by tabs, rows by CR LF, quotation marks doubled within quotation marks: RFC 4180 with the tab for the comma.
describe("what spreadsheets copy", () => {
  it("is read with line ends of every system, and with a last line end or without", () => {
    const cells = [
      ["a", "b"],
      ["", "d"],
    ];
    for (const text of ["a\tb\n\td", "a\tb\r\n\td\r\n", "a\tb\r\td\n"]) expect(readTabSeparated(text)).toEqual(cells);
    expect(readTabSeparated("")).toEqual([]);
    expect(readTabSeparated("a\t")).toEqual([["a", ""]]);
    expect(readTabSeparated("\n")).toEqual([[""]]);
  });

  it("may hold tabs, line ends and quotation marks in quotation marks", () => {
    expect(readTabSeparated('"one\ttwo"\t"said ""yes"""\r\n"up\ndown"\tx')).toEqual([
      ["one\ttwo", 'said "yes"'],
      ["up\ndown", "x"],
    ]);
  });

  it("keeps a quotation mark that opens nothing: an inch", () => {
    expect(readTabSeparated('3/8"\t5/16"\n"loose')).toEqual([['3/8"', '5/16"'], ['"loose']]);
  });

  it("comes back as it was written", () => {
    const rows = [
      ["a\tb", '"', ""],
      ["x\ny", '3/8"', "2,5 m"],
    ];
    expect(readTabSeparated(writeTabSeparated(rows))).toEqual(rows);
  });
});

describe("rows", () => {
  it("sort naturally by name", () => {
    const up = { column: "#number", direction: "ascending" } as const;
    expect(names(cart(), { ...WIRES, sorting: up })).toEqual(["W1", "W2", "W3", "W10"]);
    expect(names(cart(), { ...PARTS, sorting: { column: "#designation", direction: "descending" } })).toEqual([
      "P1",
      "G1",
      "F10",
      "F2",
    ]);
  });

  it("sort figures by what they amount to, whatever their unit; without a figure they stay last", () => {
    // 900 mm < 1.2 m < 2 m. 2/0 AWG is 67.4 mm2 (ASTM B258), more than 35 mm2.
    const by = (id: string, direction: "ascending" | "descending") =>
      names(cart(), { ...WIRES, sorting: { column: id, direction } });
    expect(by("length", "ascending")).toEqual(["W1", "W3", "W2", "W10"]);
    expect(by("length", "descending")).toEqual(["W2", "W3", "W1", "W10"]);
    expect(by("size", "ascending")).toEqual(["W10", "W1", "W2", "W3"]);
  });

  it("are sifted by text, by kind, and by what is not stated", () => {
    expect(names(cart(), { ...WIRES, find: "f10 awg" })).toEqual(["W2"]);
    expect(names(cart(), { ...PARTS, kind: "fuse" })).toEqual(["F2", "F10"]);
    const asked = (field: object): number => ("field" in field && field.field === "length" ? 1 : 0);
    expect(arranged(cart(), asked, { ...WIRES, lack: "asked-for" })).toEqual(["w3"]);
  });

  it("of one kind show all its parameters, of several what most have", () => {
    const ids = (wanted: Wanted) => columnsOf(cart(), wanted).map(({ id }) => id);
    expect(ids({ ...PARTS, kind: "fuse" })).toContain("rating");
    expect(ids(PARTS)).toContain("finish");
    expect(ids(PARTS)).not.toContain("chemistry");
  });
});

describe("writing cells", () => {
  const write = (store: EditorStore, wanted: Wanted, cells: readonly (readonly [string, string, string])[]) =>
    writeCells(
      store,
      cells.map(([row, id, text]) => ({ row, column: column(store.project, wanted, id), text })),
      (row) => `Wire ${row}`,
    );

  it("takes the good ones, names each refused one in a sentence, and is undone as one", () => {
    const store = editorOf(cart());
    const before = store.project;
    const sentences = write(store, WIRES, [
      ["w1", "length", "2,5 m"],
      ["w2", "length", "far"],
      ["w3", "length", "30 cm"],
      ["w1", "#from", "F2:1"],
      ["w4", "sheath", "maybe"],
    ]);
    expect(sentences).toHaveLength(3);
    expect(sentences.join("\n")).toMatch(/Wire W2, length: "far" cannot be taken/);
    expect(sentences.join("\n")).toMatch(/from: this column only tells what is drawn/);
    expect(sentences.join("\n")).toMatch(/"maybe" is neither yes nor no/);
    for (const sentence of sentences) expect(sentence).not.toMatch(/error|invalid|undefined/i);
    expect(["w1", "w2", "w3"].map((row) => held(store, WIRES, "length", row))).toEqual(["2.5 m", "2 m", "30 cm"]);
    expect(store.now.history.past).toHaveLength(1);
    store.undo();
    expect(store.project.wires).toEqual(before.wires);
  });

  it("sets both ends and several fields of the insulation of one wire at once", () => {
    const store = editorOf(cart());
    const sentences = write(store, WIRES, [
      ["w1", "lugs", "m8"],
      ["w1", "lugs B", "M10"],
      ["w1", "insulation.volts", "1000 V"],
      ["w1", "insulation.temperature", "105 °C"],
      ["w1", "boots", "yes"],
    ]);
    expect(sentences).toEqual([]);
    const wire = store.project.wires[0];
    expect(wire?.lugs).toEqual(["M8", "M10"]);
    expect(wire?.insulation).toEqual({ volts: "1000 V", temperature: "105 °C" });
    expect(held(store, WIRES, "boots", "w1")).toBe("yes");
    expect(store.now.history.past).toHaveLength(1);
  });

  it("knows zones by name, clears with an empty text, and keeps what nobody knows apart from it", () => {
    const store = editorOf(cart());
    expect(write(store, PARTS, [["p1", "zone", "Under the floor"]])).toEqual([]);
    expect(store.project.parts[0]?.zone).toBe(store.project.zones[0]?.id);
    const [sentence] = write(store, PARTS, [["p1", "zone", "attic"]]);
    expect(sentence).toMatch(/^G1: there is no zone called "attic"\. Choose one of under the floor\.$/);
    write(store, WIRES, [
      ["w1", "length", ""],
      ["w2", "length", "not known"],
    ]);
    expect(store.project.wires[0]).not.toHaveProperty("length");
    expect(store.project.wires[1]?.length).toBeNull();
  });

  it("confirms nothing when a copied block is pasted back where it came from", () => {
    const store = editorOf(cart());
    const columns = columnsOf(store.project, { tab: "parts", kind: "battery-pack" });
    const usual = columns.filter((each) => each.cell("p1")?.usual !== undefined);
    expect(usual.length).toBeGreaterThan(0);
    const cells = columns.map((each) => ({ row: "p1", column: each, text: copiedText(each.cell("p1")) }));
    expect(writeCells(store, cells, (row) => row)).toEqual([]);
    expect(store.now.history.past).toHaveLength(0);
  });
});

describe("the table's rows while it is edited", () => {
  it("stay where they are until they are sorted again; new ones stand below", () => {
    const store = editorOf(cart());
    const table = tableOf(store);
    table.arrange({ tab: "wires" });
    table.sortBy("length");
    const rows = () => rowsNow(table.now, store.project.wires);
    expect(rows()).toEqual(["w1", "w4", "w2", "w3"]);
    writeCells(store, [{ row: "w1", column: column(store.project, WIRES, "length"), text: "9 m" }], (row) => row);
    expect(rows()).toEqual(["w1", "w4", "w2", "w3"]);
    table.arrange();
    expect(rows()).toEqual(["w4", "w2", "w1", "w3"]);
  });
});

describe("filling in what is missing", () => {
  it("goes from field to field past filters, skips what was stated, and begins again past the end", () => {
    const store = editorOf(cart());
    const lacks = (fields: readonly object[]): void =>
      store.api.setState({
        checked: {
          document: {
            notChecked: fields.map((field) => ({
              check: "voltage-drop",
              where: [],
              missing: [],
              fields: [field],
              why: "",
            })),
          },
        } as never,
      });
    const insulation = { wire: "w2", field: "insulation.volts" };
    const [length, lug, rating] = [
      { wire: "w3", field: "length" },
      { wire: "w1", field: "lugs" },
      { part: "p3", parameter: "rating" },
    ];
    lacks([length, lug, rating]);
    const table = tableOf(store);
    table.arrange({ tab: "wires", find: "nothing has this text" });
    startFilling(store);
    expect(store.now.table).toBe(true);
    expect(table.now.active).toEqual({ row: "w3", column: "length" });
    expect(table.now.find).toBe("");
    stepFilling(store, 1);
    expect(table.now.active).toEqual({ row: "w1", column: "lugs" });
    lacks([length, rating]);
    stepFilling(store, 1);
    expect(table.now).toMatchObject({ tab: "parts", active: { row: "p3", column: "rating" } });
    stepFilling(store, 1);
    expect(table.now.active).toEqual({ row: "w3", column: "length" });
    stepFilling(store, -1);
    expect(table.now.active).toEqual({ row: "p3", column: "rating" });
    lacks([insulation]);
    stepFilling(store, 1);
    expect(table.now.active).toEqual({ row: "w2", column: "insulation.volts" });
  });
});
