/** The findings report as a file, once every check has answered for the drawing as it stands. */
import type { AnswerTo, Question, ReportQuestion } from "./analysis/protocol.ts";
import { carriedTypeface } from "./carried-typeface.ts";
import type { SheetFile } from "./export-sheets.ts";

export type Ask = <Asked extends Question>(question: Asked) => Promise<AnswerTo<Asked> | undefined>;

/** "tug.loomwright" -> "tug-findings.html" */
export const reportName = (fileName: string): string => `${fileName.replace(/\.loomwright$/i, "")}-findings.html`;

/** undefined when the drawing was changed, or could not be analysed, before there was an answer. */
export async function reportFile(ask: Ask, fileName: string, made: string): Promise<SheetFile | undefined> {
  const [regular, bold] = await Promise.all([carriedTypeface("regular"), carriedTypeface("bold")]);
  const question: ReportQuestion = {
    about: "report",
    origin: { file: fileName, made, programVersion: import.meta.env.LOOMWRIGHT_VERSION },
    typeface: { format: "woff2", regular, bold },
  };
  const html = await ask(question);
  if (html === undefined) return undefined;
  return { name: reportName(fileName), bytes: new TextEncoder().encode(html), mime: "text/html" };
}
