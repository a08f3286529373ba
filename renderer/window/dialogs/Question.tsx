/** A question with its choices as verbs; Escape chooses nothing, which loses nothing. */
import { CLOSED } from "../shell.ts";
import type { Choice } from "../shell.ts";
import { DialogBox } from "./DialogBox.tsx";

interface QuestionProps {
  readonly title: string;
  readonly text: string;
  readonly choices: readonly Choice[];
  readonly answer: (answer: string) => void;
}

export function Question({ title, text, choices, answer }: QuestionProps) {
  return (
    <DialogBox title={title} onClose={() => answer(CLOSED)} foot={<Choices choices={choices} answer={answer} />}>
      <p>{text}</p>
    </DialogBox>
  );
}

/** The first choice is the one most people want: it has the focus, and stands at the end of the line. */
export function Choices({ choices, answer }: Pick<QuestionProps, "choices" | "answer">) {
  const [first, ...others] = choices;
  if (first === undefined) return null;
  return [...others, first].map(({ id, label }) => (
    <button
      key={id}
      type="button"
      className={id === first.id ? "dialog-main" : undefined}
      data-first={id === first.id ? true : undefined}
      onClick={() => answer(id)}
    >
      {label}
    </button>
  ));
}
