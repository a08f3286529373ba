/** On the screen contacts stand as they do in the circuit: the pins that a blade joins are those of a contact of the part. */
import { describe, expect, it } from "vitest";
import { place } from "../../../core/geometry/placements.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { View } from "../../../core/parts/define.ts";
import { hasBlades, standingSymbol } from "../../../core/parts/standing-symbol.ts";
import { readValues } from "../../../core/parts/values.ts";
import { conditionIn } from "./operating-conditions.ts";

interface Case {
  readonly name: string;
  readonly view: View;
  /** Terminals of each contact, both ways round. */
  readonly contacts: ReadonlySet<string>;
}

const POLES = ["1", "3"];

const cases: readonly Case[] = [...KINDS.values()].flatMap((kind) =>
  POLES.flatMap((poles) => {
    const values = readValues(kind, kind.parameters["poles"] === undefined ? {} : { poles });
    const given = {
      values,
      condition: conditionIn("parked"),
      position: "",
      state: kind.initial?.(values) ?? {},
      wired: () => true,
      motorCurrent: undefined,
    };
    const contacts = kind
      .circuit(given)
      .flatMap((element) =>
        element.type === "contact" ? [`${element.a} ${element.b}`, `${element.b} ${element.a}`] : [],
      );
    return kind
      .views(values)
      .filter(hasBlades)
      .map((view) => ({ name: `${kind.kind} ${view.id}, poles ${poles}`, view, contacts: new Set(contacts) }));
  }),
);

describe("contacts as they stand", () => {
  it("are found in every kind that opens and closes by hand, coil or heat", () => {
    const kinds = new Set(cases.map(({ name }) => name.split(" ")[0]));
    for (const kind of ["contactor", "changeover-contactor", "relay", "timer-relay", "key-switch", "selector-switch"])
      expect(kinds).toContain(kind);
    expect(kinds.size).toBeGreaterThanOrEqual(14);
  });

  for (const { name, view, contacts } of cases)
    it(`${name}: each throw is a contact of the part; placed for a print there is no blade`, () => {
      const asked: string[] = [];
      standingSymbol(view, (a, b) => {
        asked.push(`${a} ${b}`);
        return false;
      });
      expect(asked.length).toBeGreaterThan(0);
      for (const pair of asked) expect(contacts).toContain(pair);
      const placed = place(view.symbol, { x: 0, y: 0, turn: 0, mirrored: false });
      expect(placed.some((item) => "blade" in item)).toBe(false);
      expect(placed).toHaveLength(view.symbol.length);
    });

  it("a closed contact joins both leads, an open one does not; a key at on feeds two of its outputs", () => {
    const viewOf = (kind: string): View => {
      const found = cases.find(({ name }) => name.startsWith(`${kind} `));
      if (found === undefined) throw new Error(`${kind} has no contact`);
      return found.view;
    };
    const lines = (view: View, closed: readonly string[]) =>
      standingSymbol(view, (a, b) => closed.includes(`${a}-${b}`)).flatMap((item) =>
        item.draw === "line" ? [JSON.stringify(item.points)] : [],
      );
    const joined = "[[10,0],[5,0]]";
    expect(lines(viewOf("contactor"), ["line-load"])).toContain(joined);
    expect(lines(viewOf("contactor"), [])).not.toContain(joined);
    const key = viewOf("key-switch");
    const on = lines(key, ["battery-accessory", "battery-ignition"]);
    expect(on).toContain("[[5,0],[12.5,-5]]");
    expect(on).toContain("[[5,0],[12.5,0]]");
    expect(on).not.toContain("[[5,0],[12.5,5]]");
  });
});
