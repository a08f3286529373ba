/** Work that was not saved when the window last ended: taken up, dropped or left for later. */
import type { Recovery } from "../../../core/host/host.ts";
import { CLOSED } from "../shell.ts";
import type { Choice } from "../shell.ts";
import { DialogBox } from "./DialogBox.tsx";
import { Choices } from "./Question.tsx";

const CHOICES: readonly Choice[] = [
  { id: "recover", label: "Recover the drawing" },
  { id: "discard", label: "Discard the drawing" },
  { id: "later", label: "Keep it for later" },
];

interface RecoveryOfferProps {
  readonly recovery: Recovery;
  readonly answer: (answer: string) => void;
}

export function RecoveryOffer({ recovery, answer }: RecoveryOfferProps) {
  const when = new Date(recovery.savedAt);
  return (
    <DialogBox
      title={`Unsaved work on ${recovery.name}`}
      onClose={() => answer(CLOSED)}
      foot={<Choices choices={CHOICES} answer={answer} />}
    >
      <p>
        Loomwright ended before this drawing was saved. It was set aside
        {Number.isNaN(when.getTime()) ? "" : ` on ${when.toLocaleString()}`}. Recovering opens it here; no file is
        touched until you save.
      </p>
    </DialogBox>
  );
}
