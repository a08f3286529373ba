/** Curves of a transition over time: volts at the left, amperes at the right. Press or drag on it to go to a moment. */
import { useEffect, useLayoutEffect, useRef } from "react";
import UPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { Curve } from "../../window/analysis/protocol.ts";
import { scaleSpans } from "./figures.ts";
import { moment } from "./transition-words.ts";

interface PlotProps {
  readonly times: readonly number[];
  readonly curves: readonly Curve[];
  /** Moments at which something happens: a tick at the foot. */
  readonly marks: readonly number[];
  readonly time: number;
  /** What of the time is shown. */
  readonly range: readonly [number, number];
  readonly onTime: (time: number) => void;
}

/** Lines that differ in grey as well: whole, dashed, dotted, and so on. */
const DASHES: readonly (readonly number[])[] = [[], [8, 4], [2, 3], [8, 3, 2, 3], [14, 4]];
const INKS: readonly string[] = ["--ink", "--accent", "--pen", "--traction", "--auxiliary"];

export const lineLook = (index: number): { readonly ink: string; readonly dash: readonly number[] } => ({
  ink: INKS[index % INKS.length] ?? "--ink",
  dash: DASHES[index % DASHES.length] ?? [],
});

function ink(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

export function Plot({ times, curves, marks, time, range, onTime }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const plot = useRef<UPlot | null>(null);
  const line = useRef<HTMLDivElement>(null);
  const shown = useRef({ marks, time, onTime });
  shown.current = { marks, time, onTime };
  const theme = document.documentElement.dataset["theme"];

  useEffect(() => {
    const target = host.current;
    if (target === null) return undefined;
    const axis = (scale: "x" | "V" | "A", extra: UPlot.Axis): UPlot.Axis => ({
      scale,
      stroke: ink("--ink"),
      font: `12px ${ink("--family")}`,
      grid: { stroke: ink("--rule"), width: 0.5, show: scale !== "A" },
      ticks: { stroke: ink("--rule"), width: 1 },
      ...extra,
    });
    const spans = scaleSpans(curves);
    const has = (unit: "V" | "A"): boolean => curves.some((curve) => curve.unit === unit);
    const made = new UPlot(
      {
        width: Math.max(target.clientWidth, 200),
        height: Math.max(target.clientHeight, 100),
        legend: { show: false },
        cursor: { drag: { x: false, y: false }, x: false, y: false, points: { show: false } },
        scales: {
          x: { time: false, range: () => [range[0], range[1]] },
          V: { range: () => [...spans.V] },
          A: { range: () => [...spans.A] },
        },
        axes: [
          axis("x", { values: (_, ticks) => ticks.map(moment), space: 90, size: 28 }),
          axis("V", { show: has("V"), values: (_, ticks) => ticks.map((volts) => `${String(volts)} V`), size: 62 }),
          axis("A", {
            show: has("A"),
            side: 1,
            values: (_, ticks) => ticks.map((amps) => `${String(amps)} A`),
            size: 62,
          }),
        ],
        series: [
          {},
          ...curves.map(({ label, unit }, index): UPlot.Series => {
            const look = lineLook(index);
            return {
              label,
              scale: unit,
              stroke: ink(look.ink),
              width: 1.5,
              dash: [...look.dash],
              points: { show: false },
            };
          }),
        ],
        hooks: {
          draw: [
            (self) => {
              drawMarks(self, shown.current.marks);
              placeLine(self, line.current, shown.current.time);
            },
          ],
        },
      },
      [times as number[], ...curves.map(({ values }) => values as (number | null)[])],
      target,
    );
    plot.current = made;
    const go = (event: PointerEvent): void => {
      if (event.buttons !== 1) return;
      const { left } = made.over.getBoundingClientRect();
      const at = made.posToVal(event.clientX - left, "x");
      shown.current.onTime(Math.min(Math.max(at, range[0]), range[1]));
    };
    made.over.addEventListener("pointerdown", go);
    made.over.addEventListener("pointermove", go);
    const watch = new ResizeObserver(() => made.setSize({ width: target.clientWidth, height: target.clientHeight }));
    watch.observe(target);
    return () => {
      watch.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [times, curves, range, theme]);

  useEffect(() => plot.current?.redraw(false), [marks]);
  // Going along must not draw the curves again: the moment is a line of its own above them.
  useLayoutEffect(() => {
    if (plot.current !== null) placeLine(plot.current, line.current, time);
  }, [time]);
  return (
    <div ref={host} className="in-time-plot" aria-hidden>
      <div ref={line} className="in-time-line-now" />
    </div>
  );
}

/** The moment as a plain upright line; none where it lies outside what is shown. */
function placeLine(plot: UPlot, line: HTMLDivElement | null, time: number): void {
  if (line === null) return;
  const { left, top, width, height } = plot.bbox;
  const x = plot.valToPos(time, "x", true);
  line.hidden = !(x >= left - 1 && x <= left + width + 1);
  line.style.transform = `translate(${String(x / devicePixelRatio - 1)}px, ${String(top / devicePixelRatio)}px)`;
  line.style.height = `${String(height / devicePixelRatio)}px`;
}

/** What happens, as ticks at the foot. */
function drawMarks(plot: UPlot, marks: readonly number[]): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.setLineDash([]);
  ctx.lineWidth = 1.5 * devicePixelRatio;
  ctx.strokeStyle = ink("--ink");
  for (const mark of marks) {
    const x = plot.valToPos(mark, "x", true);
    if (x < bbox.left - 1 || x > bbox.left + bbox.width + 1) continue;
    ctx.beginPath();
    ctx.moveTo(x, bbox.top + bbox.height - 7 * devicePixelRatio);
    ctx.lineTo(x, bbox.top + bbox.height);
    ctx.stroke();
  }
  ctx.restore();
}
