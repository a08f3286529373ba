/** A display list as SVG elements, in millimetres. Inks are CSS variables that the sheet sets from the palette. */
import { memo } from "react";
import type { CSSProperties } from "react";
import type { DisplayList, Ink, Primitive } from "../../../core/geometry/display.ts";
import { PALETTES, PEN_WIDTH } from "../../../core/drawing/palette.ts";
import { arcPath, DASHES } from "../../../core/drawing/svg.ts";

/** For the element around all drawing: the paper's inks, the same in light and dark, because paper is white. */
export const INKS = Object.fromEntries(
  Object.entries(PALETTES.colour).map(([ink, colour]) => [`--draw-${ink}`, colour]),
) as CSSProperties;

const inkOf = (ink: Ink): string => (ink === "none" ? "none" : `var(--draw-${ink})`);

export const DisplayListSvg = memo(function DisplayListSvg({ list }: { readonly list: DisplayList }) {
  // Nothing tells two primitives of a list apart but their order, and a list never changes.
  return list.map((item, index) => <Item key={index} item={item} />);
});

function Item({ item }: { readonly item: Primitive }) {
  if (item.draw === "text") {
    const turn =
      item.turn === undefined || item.turn === 0 ? undefined : `rotate(${[item.turn, item.x, item.y].join(" ")})`;
    return (
      <text
        x={item.x}
        y={item.y}
        fontSize={item.size}
        textAnchor={item.anchor ?? "start"}
        fontWeight={item.weight === "bold" ? 700 : undefined}
        fill={inkOf(item.ink ?? "ink")}
        stroke="none"
        transform={turn}
      >
        {item.text}
      </text>
    );
  }
  const stroke = {
    stroke: inkOf(item.ink ?? "ink"),
    strokeWidth: PEN_WIDTH[item.pen ?? "symbol"],
    strokeDasharray: DASHES[item.dash ?? "solid"] || undefined,
  };
  switch (item.draw) {
    case "line": {
      const points = item.points.map((point) => point.join(",")).join(" ");
      const given = { points, fill: inkOf(item.fill ?? "none"), ...stroke };
      return item.closed === true ? <polygon {...given} /> : <polyline {...given} />;
    }
    case "circle":
      return <circle cx={item.x} cy={item.y} r={item.r} fill={inkOf(item.fill ?? "none")} {...stroke} />;
    case "arc":
      return <path d={arcPath(item)} fill="none" {...stroke} />;
  }
}
