/** How the findings report looks, on paper before all: A4, dark on white, every meaning legible in grey as well. */
import { PEN } from "../drawing/pen-marks.ts";
import { FONT_FAMILY } from "../geometry/text-widths.ts";

export interface ReportTypeface {
  readonly format: "woff2";
  readonly regular: string;
  readonly bold?: string;
}

export interface RunningText {
  readonly head: string;
  readonly right: string;
  readonly foot: string;
}

const FALLBACK = "Arial, 'Liberation Sans', Helvetica, sans-serif";

/** A text within a style sheet: whatever it holds, it cannot end the string or the sheet. */
function cssString(text: string): string {
  const safe = (letter: string): string =>
    /[A-Za-z0-9 ,.]/.test(letter) ? letter : `\\${(letter.codePointAt(0) ?? 32).toString(16)} `;
  return `"${[...text].map(safe).join("")}"`;
}

function face(weight: "normal" | "bold", format: string, base64: string): string {
  if (!/^[A-Za-z0-9+/]+=*$/.test(base64)) throw new RangeError("The typeface is not base64 text.");
  return `@font-face{font-family:'${FONT_FAMILY}';font-weight:${weight};src:url(data:font/${format};base64,${base64}) format('${format}')}`;
}

/** The style sheet. Running title and page numbers stand in the page's margin, where the browser knows such a thing. */
export function reportStyle(running: RunningText, typeface: ReportTypeface | undefined): string {
  const faces =
    typeface === undefined
      ? []
      : [
          face("normal", typeface.format, typeface.regular),
          ...(typeface.bold === undefined ? [] : [face("bold", typeface.format, typeface.bold)]),
        ];
  const margin = `font: 8pt '${FONT_FAMILY}', ${FALLBACK}; color: #4a4f54;`;
  return `${faces.join("\n")}
@page {
  size: A4;
  margin: 20mm 18mm 18mm 18mm;
  @top-left { content: ${cssString(running.head)}; ${margin} }
  @top-right { content: ${cssString(running.right)}; ${margin} }
  @bottom-left { content: ${cssString(running.foot)}; ${margin} }
  @bottom-right { content: "Page " counter(page) " of " counter(pages); ${margin} }
}
@page landscape { size: A4 landscape; margin: 16mm 10mm 14mm 10mm; }
@page upright { size: A4; margin: 16mm 10mm 14mm 10mm; }
* { box-sizing: border-box; }
html { color: #16181a; background: #ffffff; font: 10pt/1.45 '${FONT_FAMILY}', ${FALLBACK}; }
body { max-width: 186mm; margin: 8mm auto; padding: 0 6mm; }
h1 { margin: 0 0 1mm; font-size: 20pt; line-height: 1.2; }
h2 { margin: 7mm 0 2.5mm; padding-bottom: 1mm; border-bottom: 0.5mm solid #16181a; font-size: 14pt; break-after: avoid; }
h3 { margin: 0; font-size: 11pt; line-height: 1.35; break-after: avoid; }
h4 { margin: 2mm 0 0; font-size: 10pt; break-after: avoid; }
p { margin: 0 0 2mm; orphans: 3; widows: 3; }
ul { margin: 0 0 2mm; padding-left: 5mm; }
a { color: inherit; }
.subtitle { margin-bottom: 3mm; font-size: 12pt; }
.verdict { padding: 2mm 3mm; border: 0.5mm solid #16181a; font-size: 11pt; font-weight: bold; }
table { width: 100%; border-collapse: collapse; }
caption { padding: 1mm 0; text-align: left; font-weight: bold; }
th, td { padding: 1mm 2mm; border-bottom: 0.2mm solid #b9b5ad; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
thead { display: table-header-group; }
thead th { border-bottom: 0.4mm solid #16181a; }
tr { break-inside: avoid; }
th { font-weight: bold; }
.number { width: 26mm; text-align: right; font-variant-numeric: tabular-nums; }
.facts th { width: 46mm; font-weight: normal; color: #4a4f54; }
.facts { font-size: 9pt; line-height: 1.35; }
.facts th, .facts td { padding: 0.45mm 2mm; }
.cautions { font-size: 9pt; line-height: 1.35; break-inside: avoid; }
.none { color: #4a4f54; }
.severity { display: inline-flex; align-items: stretch; border: 0.3mm solid #16181a; font-size: 8.5pt; font-weight: bold; line-height: 4.6mm; white-space: nowrap; vertical-align: text-bottom; }
.severity .word { padding: 0 1.6mm 0 1mm; }
.severity i { width: 0; margin: 0.6mm 0 0.6mm 0.6mm; border-left: 1mm solid; }
.DANGER i { border-color: #b3001b; }
.WARNING i { border-color: #b34700; }
.CAUTION i { border-color: #7a5c00; }
.NOTICE i { border-color: #1f4fa3; }
.finding { margin: 0 0 4mm; padding: 2mm 0 1mm; border-top: 0.2mm solid #b9b5ad; break-inside: avoid; }
.finding header { display: flex; gap: 3mm; align-items: flex-start; }
.pen-number { flex: none; min-width: 7mm; height: 7mm; padding: 0 1.5mm; border: 0.5mm solid ${PEN}; border-radius: 3.5mm; color: ${PEN}; font-weight: bold; line-height: 6mm; text-align: center; }
.finding .severity { flex: none; margin-top: 0.7mm; }
.finding dl { display: grid; grid-template-columns: 25mm 1fr; gap: 0.6mm 2mm; margin: 1.5mm 0 0 10mm; }
.finding dt { color: #4a4f54; }
.finding dd { margin: 0; overflow-wrap: anywhere; }
.finding dd.mend { font-weight: bold; }
.follows { margin: 0; padding: 0; list-style: none; font-size: 9pt; }
.follows li { margin-bottom: 0.8mm; }
.whole { break-inside: avoid; }
.missing { margin-top: 3mm; }
.missing th, .missing td { width: 50%; font-size: 9pt; }
.not-checked { display: inline-block; padding: 0.4mm 1.5mm; border: 0.3mm dashed #16181a; }
.note { font-size: 9pt; color: #4a4f54; }
.outcomes th, .outcomes td { width: 12.5%; vertical-align: bottom; }
.outcomes th { font-size: 9pt; }
.outcomes td { font-size: 12pt; font-weight: bold; }
.lead { break-after: avoid; }
.tallies { font-size: 8.5pt; line-height: 1.3; }
.tallies th, .tallies td { padding: 0.5mm 2mm; }
.tallies tbody th { font-weight: normal; }
.tallies .group th { padding-top: 2mm; font-weight: bold; border-bottom: 0.2mm solid #16181a; }
.sheet { margin: 6mm 0; break-before: page; break-inside: avoid; }
.sheet svg { display: block; width: 100%; height: auto; }
.sheet h2 { margin: 0 0 2mm; }
.sheet p { margin: 1mm 0 0; font-size: 9pt; }
@media screen { .sheet svg { border: 0.2mm solid #b9b5ad; } }
@media print {
  body { max-width: none; margin: 0; padding: 0; }
  .sheet { margin: 0; }
  .sheet.landscape { page: landscape; }
  .sheet.upright { page: upright; }
  .sheet svg { width: auto; max-width: 100%; margin: 0 auto; }
  .sheet.landscape svg { max-height: 160mm; }
  .sheet.upright svg { max-height: 245mm; }
  a { text-decoration: none; }
}
`;
}
