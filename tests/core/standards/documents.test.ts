import { describe, expect, it } from "vitest";
import { CLASS_LETTERS } from "../../../core/standards/class-letters.ts";
import { joinColours } from "../../../core/standards/colours.ts";
import { frameOf, PAPERS, zoneEdges, zoneOf } from "../../../core/standards/sheet-format.ts";
import { TITLE_FIELDS, TITLE_BLOCK_WIDTH } from "../../../core/standards/title-block.ts";
import { TORQUES } from "../../../core/standards/torque.ts";

describe("colours (IEC 60757)", () => {
  it("red and blue are RDBU in whatever order; green and yellow are GNYE", () => {
    expect(joinColours(["BU", "RD"])).toBe("RDBU");
    expect(joinColours(["YE", "GN"])).toBe("GNYE");
    expect(joinColours(["GN"])).toBe("GN");
    expect(joinColours(["OG"])).toBe("OG");
  });
});

describe("sheets (ISO 216, ISO 5457, ISO 7200)", () => {
  it("each paper is half the one above it", () => {
    const sizes = ["A0", "A1", "A2", "A3", "A4"] as const;
    sizes.slice(1).forEach((name, index) => {
      const larger = PAPERS[sizes[index] ?? "A0"];
      expect(PAPERS[name][0]).toBe(larger[1]);
      expect(Math.abs(PAPERS[name][1] - larger[0] / 2)).toBeLessThanOrEqual(0.5);
    });
  });

  it("an A3 frame leaves 20 mm for filing, 10 mm elsewhere, and the title block fits into A4 upright", () => {
    expect(frameOf(420, 297)).toEqual({ x: 20, y: 10, width: 390, height: 277 });
    expect(TITLE_BLOCK_WIDTH).toBe(frameOf(210, 297).width);
  });

  it("zones are 50 mm from the centre line outwards: A3 has 8 columns and 6 rows", () => {
    const columns = zoneEdges(420, 20, 410);
    const rows = zoneEdges(297, 10, 287);
    expect(columns).toEqual([20, 60, 110, 160, 210, 260, 310, 360, 410]);
    expect(columns.length - 1).toBe(8);
    expect(rows.length - 1).toBe(6);
  });

  it("names the zone of a point, never with I or O", () => {
    expect(zoneOf({ x: 25, y: 15 }, 420, 297)).toBe("A1");
    expect(zoneOf({ x: 409, y: 286 }, 420, 297)).toBe("F8");
    expect(zoneOf({ x: 215, y: 150 }, 420, 297)).toBe("D5");
    const letters = new Set<string>();
    for (let y = 10; y < 831; y += 10) letters.add(zoneOf({ x: 100, y }, 1189, 841).charAt(0));
    expect(letters.has("I")).toBe(false);
    expect(letters.has("J")).toBe(true);
  });

  it("a title block cannot do without owner, number, date, sheet, title, approval, creator, type", () => {
    expect(TITLE_FIELDS.filter((field) => field.mandatory)).toHaveLength(8);
    expect(Object.keys(CLASS_LETTERS)).toHaveLength(17);
  });
});

describe("torques", () => {
  it("95 to 105 in-lb of the deep-cycle guides are 11 to 12 Nm, and ranges run upwards", () => {
    const deep = TORQUES.find((torque) => torque.terminal.startsWith("deep-cycle"));
    expect(Math.abs(95 * 0.112985 - (deep?.range[0] ?? 0))).toBeLessThan(0.5);
    expect(Math.abs(105 * 0.112985 - (deep?.range[1] ?? 0))).toBeLessThan(0.5);
    for (const { range } of TORQUES) expect(range[0]).toBeLessThan(range[1]);
  });
});
