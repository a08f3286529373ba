/** The dialog that stands at present, if any. */
import "./dialogs.css";
import { useShell, useShellParts } from "../shell-context.ts";
import { CLOSED } from "../shell.ts";
import type { Dialog } from "../shell.ts";
import { About } from "./About.tsx";
import { Cautions } from "./Cautions.tsx";
import { CheckPages } from "./CheckPages.tsx";
import { Chooser } from "./Chooser.tsx";
import { Licences } from "./Licences.tsx";
import { PreferencesBox } from "./PreferencesBox.tsx";
import { Question } from "./Question.tsx";
import { RecoveryOffer } from "./RecoveryOffer.tsx";
import { Unreadable } from "./Unreadable.tsx";

export function Dialogs() {
  const { shell } = useShellParts();
  const dialog = useShell((state) => state.dialog);
  if (dialog === null) return null;
  return <Standing key={keyOf(dialog)} dialog={dialog} answer={(answer = CLOSED) => shell.answer(answer)} />;
}

/** Two questions in a row are two dialogs, each with its own focus. */
const keyOf = (dialog: Dialog): string => {
  switch (dialog.kind) {
    case "question":
      return dialog.title;
    case "recovery":
      return dialog.recovery.id;
    default:
      return dialog.kind;
  }
};

function Standing({ dialog, answer }: { readonly dialog: Dialog; readonly answer: (answer?: string) => void }) {
  switch (dialog.kind) {
    case "about":
      return <About onClose={answer} />;
    case "licences":
      return <Licences onClose={answer} />;
    case "preferences":
      return <PreferencesBox onClose={answer} />;
    case "open-demo":
    case "open-recent":
      return <Chooser what={dialog.kind} onClose={answer} />;
    case "cautions":
      return <Cautions first={dialog.first} onClose={answer} />;
    case "checks":
      return <CheckPages check={dialog.check} onClose={answer} />;
    case "unreadable":
      return <Unreadable name={dialog.name} problems={dialog.problems} onClose={answer} />;
    case "question":
      return <Question title={dialog.title} text={dialog.text} choices={dialog.choices} answer={answer} />;
    case "recovery":
      return <RecoveryOffer recovery={dialog.recovery} answer={answer} />;
  }
}
