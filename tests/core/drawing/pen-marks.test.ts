/** Numbers over a sheet: beside their places, side by side where places are near, and legible whatever lies below. */
import { describe, expect, it } from "vitest";
import { penAnchors } from "../../../core/drawing/pen-anchors.ts";
import { penMarksSvg } from "../../../core/drawing/pen-marks.ts";
import type { PenMark } from "../../../core/drawing/pen-marks.ts";
import { drawSheet } from "../../../core/drawing/sheet.ts";
import { toSvg } from "../../../core/drawing/svg.ts";
import { textWidth } from "../../../core/geometry/text-widths.ts";
import { routedSheet } from "../../../core/layout/route.ts";
import { demos } from "../../demos/demo-files.ts";

const mark = (x: number, y: number, numbers: readonly number[], change: Partial<PenMark["at"]> = {}): PenMark => ({
  at: { x, y, on: "terminal", side: "right", ...change },
  numbers,
  more: 0,
});

interface Drawn {
  readonly left: number;
  readonly right: number;
  readonly y: number;
  readonly text: string;
}

function boxes(marks: readonly PenMark[]): readonly Drawn[] {
  const svg = penMarksSvg(marks).join("");
  const rects = [...svg.matchAll(/<rect x="([\d.-]+)" y="([\d.-]+)" width="([\d.]+)" height="([\d.]+)"/g)];
  const texts = [...svg.matchAll(/<text [^>]*>([^<]*)</g)];
  return rects.map(([, x, y, width, height], index) => ({
    left: Number(x),
    right: Number(x) + Number(width),
    y: Number(y) + Number(height) / 2,
    text: texts[index]?.[1] ?? "",
  }));
}

describe("numbers", () => {
  it("stand above and beside a terminal, away from the part that it belongs to", () => {
    const [right] = boxes([mark(100, 50, [3])]);
    const [left] = boxes([mark(100, 50, [3], { side: "left" })]);
    expect(right?.text).toBe("3");
    expect(right?.y).toBeLessThan(50);
    expect(((right?.left ?? 0) + (right?.right ?? 0)) / 2).toBeGreaterThan(100);
    expect(((left?.left ?? 0) + (left?.right ?? 0)) / 2).toBeLessThan(100);
  });

  it("of several findings stand in a row, the rest counted, each wide enough for its figures", () => {
    const drawn = boxes([{ ...mark(100, 50, [1, 12, 123]), more: 4 }]);
    expect(drawn.map(({ text }) => text)).toEqual(["1", "12", "123", "+4"]);
    for (const [index, { left }] of drawn.entries()) {
      const before = drawn[index - 1];
      if (before !== undefined) expect(left).toBeGreaterThan(before.right);
    }
    const wide = drawn[2];
    expect((wide?.right ?? 0) - (wide?.left ?? 0)).toBeGreaterThan(textWidth("123", 2.8));
  });

  it("of neighbouring places do not lie over one another", () => {
    const drawn = boxes([mark(100, 50, [1]), mark(101, 51, [2]), mark(102, 50, [3, 4]), mark(100, 60, [5])]);
    for (const [index, one] of drawn.entries())
      for (const other of drawn.slice(index + 1)) {
        if (Math.abs(one.y - other.y) >= 4.4) continue;
        expect(one.right <= other.left || other.right <= one.left, `${one.text} ${other.text}`).toBe(true);
      }
  });
});

describe("over a sheet", () => {
  const project = demos.find(({ name }) => name === "yard-tug-48v")?.project;
  const sheet = project?.sheets[0];
  if (project === undefined || sheet === undefined) throw new Error("There is no such demo.");
  const routed = routedSheet(project, sheet.id);
  const anchor = penAnchors(routed.views, routed.paths);

  it("points at terminals, parts and wires that are there, and at nothing else", () => {
    const [view] = routed.views;
    const [pin] = view?.pins ?? [];
    if (view === undefined || pin === undefined) throw new Error("Nothing is drawn.");
    expect(anchor(`${view.part.id}:${pin.terminal}`)).toEqual({ x: pin.x, y: pin.y, on: "terminal", side: pin.side });
    const part = anchor(view.part.id);
    expect(part?.on).toBe("part");
    expect(Math.abs((part?.x ?? 0) - view.box.x - view.box.width)).toBeLessThan(2);
    const [wire] = [...routed.paths.keys()];
    const point = anchor(wire ?? "");
    const [line = []] = routed.paths.get(wire ?? "") ?? [];
    const onLine = line.slice(1).some(([x, y], index) => {
      const [fromX = 0, fromY = 0] = line[index] ?? [];
      const within = (at: number, a: number, b: number): boolean => at >= Math.min(a, b) && at <= Math.max(a, b);
      return point !== undefined && within(point.x, fromX, x) && within(point.y, fromY, y);
    });
    expect(onLine).toBe(true);
    expect(anchor("p9999")).toBeUndefined();
  });

  it("is drawn last, and a sheet within a page shares no id with another", () => {
    const drawn = drawSheet(project, sheet.id, { routed });
    const alone = toSvg(drawn);
    const svg = toSvg(drawn, { within: "a-", over: penMarksSvg([mark(100, 50, [7])]) });
    expect(svg.trimEnd()).toMatch(/<g class="pen" data-numbers="7">.*<\/g>\n<\/svg>$/);
    expect(svg).not.toContain("<?xml");
    expect([...svg.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id)).toEqual(["a-title", "a-desc"]);
    expect(alone).toContain('aria-labelledby="title desc"');
    expect(alone.startsWith("<?xml")).toBe(true);
  });
});
