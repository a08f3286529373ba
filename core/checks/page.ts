/** The page of a check, made from its own metadata so that page and behaviour cannot drift apart. Markdown. */
import type { Check, Message } from "./define.ts";
import { shown } from "./text.ts";
import { withTitles } from "./titles.ts";

/** What the two pictures of a check show, in words. They lie beside the page as ID-wrong.svg and ID-right.svg. */
export interface PictureTexts {
  readonly wrong: string;
  readonly right: string;
}

const KNOWN = {
  seen: "read in the published source",
  memory: "from memory of the published source",
  calc: "worked out from a published formula",
  none: "no published source",
} as const;

function messagePart(message: Message): string[] {
  return [
    "",
    `**${shown(message.title)}**`,
    "",
    `- Why it matters: ${shown(message.why)}`,
    `- What to do: ${shown(message.mend)}`,
  ];
}

/** Brackets would end the text of a picture. */
const alternative = (text: string): string => text.replace(/[[\]]/g, "");

function pictures(id: string, texts: PictureTexts): readonly string[] {
  return [
    "",
    "| Wrong | Right |",
    "|---|---|",
    `| ![${alternative(texts.wrong)}](${id}-wrong.svg) | ![${alternative(texts.right)}](${id}-right.svg) |`,
  ];
}

/** Without texts for its pictures the page goes without them: they lie beside it only where it is a file of its own. */
export function checkPage(check: Check, texts?: PictureTexts): string {
  const reasons = Object.values(check.reasons);
  return [
    `# ${check.title}`,
    "",
    `Check \`${check.id}\`, group *${check.group}*, severity ${check.severities.join(" / ")}.`,
    "",
    withTitles(check.about),
    ...(texts === undefined ? [] : pictures(check.id, texts)),
    "",
    "## What it says",
    ...Object.values(check.messages).flatMap(messagePart),
    "",
    "## Limit and source",
    "",
    `${check.source.text} (${KNOWN[check.source.known]}).`,
    "",
    "## Not checked when",
    "",
    ...(reasons.length === 0
      ? [`Never left unchecked: ${check.without.notChecked ?? ""}`]
      : reasons.map((reason) => `- ${shown(reason)}`)),
    ...(check.foldsUnder === undefined || check.foldsUnder.length === 0
      ? []
      : [
          "",
          "## Folds under",
          "",
          `Counts as a consequence, not as a finding of its own, where one of these names the same place: ${check.foldsUnder.map((id) => `${withTitles(id)} (\`${id}\`)`).join(", ")}.`,
        ]),
    "",
  ].join("\n");
}
