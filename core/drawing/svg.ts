/**
 * A drawn sheet as one self-contained SVG 1.1 file: millimetres, text as text, dark on white. Equal sheets give equal
 * bytes.
 */
import type { Dash, Primitive } from "../geometry/display.ts";
import { FONT_FAMILY } from "../geometry/text-widths.ts";
import { PALETTES, PEN_WIDTH, type Palette, type PaletteName } from "./palette.ts";
import type { DrawnSheet, Mark } from "./sheet.ts";

interface SvgOptions {
  readonly palette?: PaletteName;
  /** Fonts in the order in which a reader should try them. */
  readonly fonts?: readonly string[];
  /** The shipped typeface to carry along, so that the sheet looks the same everywhere (18 kB as woff2). */
  readonly typeface?: { readonly format: "woff2" | "truetype"; readonly base64: string };
  /** To stand within a page: no XML declaration, and ids that begin with this, so that several sheets can share a page. */
  readonly within?: string;
  /** Elements over the drawing, in its millimetres. */
  readonly over?: readonly string[];
}

/** The shipped typeface, else one that is no wider (of those most machines have). */
const FONTS: readonly string[] = [FONT_FAMILY, "Arial", "Liberation Sans", "Helvetica", "sans-serif"];
/** Lengths of strokes and gaps, mm, as SVG lists them. */
export const DASHES: Readonly<Record<Dash, string>> = {
  solid: "",
  dashed: "2 1",
  dotted: "0.35 0.9",
  "dash-dot": "3 0.8 0.4 0.8",
};

export function toSvg(drawn: DrawnSheet, options: SvgOptions = {}): string {
  const palette = PALETTES[options.palette ?? "colour"];
  const size = `width="${num(drawn.width)}mm" height="${num(drawn.height)}mm" viewBox="0 0 ${num(drawn.width)} ${num(drawn.height)}"`;
  const fonts = (options.fonts ?? FONTS)
    .map((name) => (/^[a-z-]+$/.test(name) ? name : `'${escapeXml(name)}'`))
    .join(", ");
  const id = (name: string): string => `${options.within ?? ""}${name}`;
  const lines = [
    ...(options.within === undefined ? ['<?xml version="1.0" encoding="UTF-8"?>'] : []),
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" ${size} font-family="${fonts}" stroke-linecap="round" stroke-linejoin="round" role="img" aria-labelledby="${id("title")} ${id("desc")}">`,
    `<title id="${id("title")}">${escapeXml(drawn.title)}</title>`,
    `<desc id="${id("desc")}">${escapeXml(drawn.description)}</desc>`,
    ...typefaceStyle(options.typeface),
    `<rect x="0" y="0" width="${num(drawn.width)}" height="${num(drawn.height)}" fill="${palette.paper}" stroke="none"/>`,
  ];
  const starts = new Map(drawn.marks.map((mark) => [mark.first, mark]));
  const ends = new Set(drawn.marks.filter((mark) => mark.end > mark.first).map((mark) => mark.end));
  drawn.list.forEach((item, index) => {
    if (ends.has(index)) lines.push("</g>");
    const mark = starts.get(index);
    if (mark !== undefined && mark.end > index) lines.push(opening(mark));
    lines.push(element(item, palette));
  });
  if (ends.has(drawn.list.length)) lines.push("</g>");
  lines.push(...(options.over ?? []), "</svg>", "");
  return lines.join("\n");
}

function typefaceStyle(typeface: SvgOptions["typeface"]): readonly string[] {
  if (typeface === undefined) return [];
  const { format, base64 } = typeface;
  if (!/^[A-Za-z0-9+/]+=*$/.test(base64)) throw new RangeError("The typeface is not base64 text.");
  const type = format === "woff2" ? "font/woff2" : "font/ttf";
  return [
    `<style>@font-face{font-family:'${FONT_FAMILY}';src:url(data:${type};base64,${base64}) format('${format}')}</style>`,
  ];
}

const opening = (mark: Mark): string =>
  `<g class="${mark.what}" data-id="${escapeXml(mark.id)}" data-name="${escapeXml(mark.name)}">`;

function element(item: Primitive, palette: Palette): string {
  if (item.draw === "text") {
    const fill = palette[item.ink ?? "ink"];
    const turn =
      item.turn === undefined || item.turn === 0
        ? ""
        : ` transform="rotate(${String(item.turn)} ${num(item.x)} ${num(item.y)})"`;
    const weight = item.weight === "bold" ? ' font-weight="bold"' : "";
    return `<text x="${num(item.x)}" y="${num(item.y)}" font-size="${num(item.size)}" text-anchor="${item.anchor ?? "start"}"${weight} fill="${fill}"${turn}>${escapeXml(item.text)}</text>`;
  }
  const width = PEN_WIDTH[item.pen ?? "symbol"];
  const dash = DASHES[item.dash ?? "solid"];
  const stroke = `stroke="${palette[item.ink ?? "ink"]}" stroke-width="${num(width)}"${dash === "" ? "" : ` stroke-dasharray="${dash}"`}`;
  switch (item.draw) {
    case "line": {
      const points = item.points.map(([x, y]) => `${num(x)},${num(y)}`).join(" ");
      const fill = palette[item.fill ?? "none"];
      return `<${item.closed === true ? "polygon" : "polyline"} points="${points}" fill="${fill}" ${stroke}/>`;
    }
    case "circle":
      return `<circle cx="${num(item.x)}" cy="${num(item.y)}" r="${num(item.r)}" fill="${palette[item.fill ?? "none"]}" ${stroke}/>`;
    case "arc":
      return `<path d="${arcPath(item)}" fill="none" ${stroke}/>`;
  }
}

/** Clockwise from `from` to `to`, degrees from the positive x axis, y down. */
export function arcPath({ x, y, r, from, to }: Extract<Primitive, { readonly draw: "arc" }>): string {
  const at = (angle: number): string => {
    const turn = (angle * Math.PI) / 180;
    return `${num(x + r * Math.cos(turn))} ${num(y + r * Math.sin(turn))}`;
  };
  const sweep = to - from;
  const whole = Math.abs(sweep) >= 360;
  if (whole) return `M${at(0)}A${num(r)} ${num(r)} 0 1 1 ${at(180)}A${num(r)} ${num(r)} 0 1 1 ${at(0)}`;
  return `M${at(from)}A${num(r)} ${num(r)} 0 ${Math.abs(sweep) > 180 ? "1" : "0"} ${sweep >= 0 ? "1" : "0"} ${at(to)}`;
}

/** Three decimals are a micrometre: enough, and the same bytes everywhere. */
export function num(value: number): string {
  const rounded = Math.round(value * 1000) / 1000;
  return Number.isFinite(rounded) ? String(rounded === 0 ? 0 : rounded) : "0";
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
};

/** XML 1.0 text: what it does not allow (control characters, lone surrogates, non-characters) becomes a blank. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, " ")
    .replace(/[&<>"']/g, (letter) => ENTITIES[letter] ?? letter);
}
