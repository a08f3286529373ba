import { execFileSync, spawnSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PALETTES } from "../../../core/drawing/palette.ts";
import { drawSheet } from "../../../core/drawing/sheet.ts";
import { escapeXml, toSvg } from "../../../core/drawing/svg.ts";
import { placeParts } from "../../../core/layout/place.ts";
import type { Project } from "../../../core/project/document.ts";
import { drawing } from "../../harness/drawing.ts";
import { yardTug } from "../layout/vehicles.ts";

const svgOf = (project: Project): string => toSvg(drawSheet(project, project.sheets[0]?.id ?? ""));
const tug = svgOf(placeParts(yardTug()));

/** XML 1.0, as far as these files use it: one root, closed elements, quoted attributes, known entities, legal letters. */
function wellFormed(xml: string): string | undefined {
  if (/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u.test(xml)) return "a letter that XML does not allow";
  const body = xml.replace(/^<\?xml version="1\.0" encoding="UTF-8"\?>\s*/, "");
  const open: string[] = [];
  let at = 0;
  let roots = 0;
  const tag = /<(\/?)([A-Za-z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/y;
  while (at < body.length) {
    const next = body.indexOf("<", at);
    const text = body.slice(at, next < 0 ? body.length : next);
    if (/&(?!(?:amp|lt|gt|quot|apos);)/.test(text) || text.includes(">")) return `bare sign in "${text.slice(0, 40)}"`;
    if (open.length === 0 && text.trim() !== "") return "text outside the root";
    if (next < 0) break;
    tag.lastIndex = next;
    const found = tag.exec(body);
    if (found === null) return `no tag at "${body.slice(next, next + 40)}"`;
    const [whole, closing, name = "", attributes = "", empty] = found;
    if (/&(?!(?:amp|lt|gt|quot|apos);)/.test(attributes)) return `bare sign in ${attributes}`;
    const names = [...attributes.matchAll(/([\w:-]+)="/g)].map((match) => match[1]);
    if (new Set(names).size !== names.length) return `an attribute twice in ${whole}`;
    if (closing === "/") {
      if (open.pop() !== name) return `${whole} closes nothing`;
    } else if (empty !== "/") {
      if (open.length === 0) roots += 1;
      open.push(name);
    }
    at = next + whole.length;
  }
  return open.length > 0 ? `${open.join(" ")} left open` : roots === 1 ? undefined : "not one root";
}

describe("the well-formedness check itself", () => {
  it("refuses what it should", () => {
    for (const bad of ["<a><b></a>", "<a>&</a>", "<a b=1/>", "<a/><b/>", "<a>\u0007</a>", '<a b="1" b="2"/>', "<a>"])
      expect(wellFormed(bad), bad).toBeDefined();
    expect(wellFormed('<a b="&amp;"><c/>x &lt; y</a>')).toBeUndefined();
  });
});

describe("an SVG sheet", () => {
  it("is well-formed XML", () => {
    expect(wellFormed(tug)).toBeUndefined();
  });

  const xmllint = spawnSync("xmllint", ["--version"]).error === undefined;
  it.skipIf(!xmllint)("is accepted by xmllint (libxml2)", () => {
    expect(execFileSync("xmllint", ["--noout", "-"], { input: tug }).toString()).toBe("");
  });

  it("has the paper's size in millimetres, so that it prints to scale", () => {
    expect(tug).toContain('width="420mm" height="297mm" viewBox="0 0 420 297"');
    const sheet = { id: "s1", name: "One", paper: "Letter", orientation: "portrait" } as const;
    const letter = svgOf({ ...drawing().part("F1", "fuse").build(), sheets: [sheet] });
    // 8.5 x 11 in.
    expect(letter).toContain('width="215.9mm" height="279.4mm" viewBox="0 0 215.9 279.4"');
  });

  it("refers to nothing outside itself and runs nothing", () => {
    expect(tug.match(/https?:[^"\s]+/g)).toEqual(["http://www.w3.org/2000/svg"]);
    expect(tug).not.toMatch(/<script|<image|<use|href=|url\(|\son\w+=/);
  });

  it("holds text as text, with title and description, and names parts and wires", () => {
    for (const text of [">T1<", ">Q1<", ">250 A  125 V<"]) expect(tug).toContain(text);
    expect(tug).toMatch(/<title id="title">.+<\/title>/);
    expect(tug).toMatch(/<desc id="desc">.+<\/desc>/);
    expect(tug).toMatch(/<g class="part" data-id="p5"/);
    expect(tug).toMatch(/<g class="wire" data-id="w1"/);
  });

  it("is the same bytes every time", () => {
    expect(svgOf(placeParts(yardTug()))).toBe(tug);
  });

  it("can carry its typeface", () => {
    const project = drawing().part("F1", "fuse").build();
    const svg = toSvg(drawSheet(project, "s1"), { typeface: { format: "woff2", base64: "d09GMg==" } });
    expect(svg).toContain("data:font/woff2;base64,d09GMg==");
    expect(wellFormed(svg)).toBeUndefined();
    expect(() => toSvg(drawSheet(project, "s1"), { typeface: { format: "woff2", base64: '");}' } })).toThrow("base64");
  });
});

describe("inks", () => {
  /** WCAG 2.2, relative luminance and contrast ratio. */
  const luminance = (colour: string): number => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
      const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  it("are dark on white: 4.5 to 1 at least, 7 to 1 for what is read most; grey has no colour", () => {
    for (const [name, palette] of Object.entries(PALETTES))
      for (const [ink, colour] of Object.entries(palette)) {
        if (ink === "none" || ink === "paper") continue;
        const contrast = 1.05 / (luminance(colour) + 0.05);
        expect(contrast, `${name} ${ink}`).toBeGreaterThanOrEqual(ink === "ink" ? 7 : 4.5);
        if (name === "grey") expect(new Set([colour.slice(1, 3), colour.slice(3, 5), colour.slice(5, 7)]).size).toBe(1);
      }
  });
});

describe("hostile texts", () => {
  const withText = (text: string): Project => {
    const project = drawing()
      .title({ title: text, vehicle: text, owner: text, number: text })
      .part("F1", "fuse", { rating: "5 A", note: text })
      .part("F2", "fuse")
      .wire("F1:2", "F2:1", { number: text, colour: text, size: text })
      .build();
    const [sheet] = project.sheets;
    return {
      ...project,
      sheets: sheet === undefined ? [] : [{ ...sheet, name: text }],
      parts: project.parts.map((part, index) => (index === 0 ? { ...part, designation: text } : part)),
    };
  };

  it("stay text", () => {
    const svg = svgOf(withText('<script>alert("1")</script>'));
    expect(svg.includes("<script")).toBe(false);
    expect(svg.includes("&lt;script&gt;")).toBe(true);
    expect(wellFormed(svg)).toBeUndefined();
  });

  it("lose control characters and are cut where they would run over the sheet", () => {
    const svg = svgOf(withText(`A\u0000\u0007\u001bB\u202e\ud800${"x".repeat(10_000)}`));
    expect(wellFormed(svg)).toBeUndefined();
    expect(svg.includes("x".repeat(200))).toBe(false);
    const longest = Math.max(...[...svg.matchAll(/<text[^>]*>([^<]*)</g)].map((match) => match[1]?.length ?? 0));
    expect(longest).toBeLessThan(130);
  });

  it("of any kind give well-formed XML", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
        expect(wellFormed(`<a b="${escapeXml(text)}">${escapeXml(text)}</a>`)).toBeUndefined();
        expect(wellFormed(svgOf(withText(text)))).toBeUndefined();
      }),
      { numRuns: 60, seed: 3 },
    );
  });
});
