/** The page of a check, made from its own metadata so that page and behaviour cannot drift apart. Markdown. */
import type { Check, Message } from "./define.ts";

const KNOWN = {
  seen: "read in the published source",
  memory: "from memory of the published source",
  calc: "worked out from a published formula",
  none: "no published source",
} as const;

/** Places in a text are shown as words in angle quotes. */
function shown(text: string): string {
  return text.replace(/\{([a-zA-Z0-9]+)\}/g, "‹$1›");
}

function messagePart(message: Message): string[] {
  return [
    "",
    `**${shown(message.title)}**`,
    "",
    `- Why it matters: ${shown(message.why)}`,
    `- What to do: ${shown(message.mend)}`,
  ];
}

export function checkPage(check: Check): string {
  const reasons = Object.values(check.reasons);
  return [
    `# ${check.title}`,
    "",
    `Check \`${check.id}\`, group *${check.group}*, severity ${check.severities.join(" / ")}.`,
    "",
    check.about,
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
          `Counts as a consequence, not as a finding of its own, where one of these names the same place: ${check.foldsUnder.map((id) => `\`${id}\``).join(", ")}.`,
        ]),
    "",
  ].join("\n");
}
