/** What nobody who works on such a vehicle may forget. Shown at the first start, and from the command field ever after. */
import { DialogBox } from "./DialogBox.tsx";

const WHILE_YOU_WORK: readonly string[] = [
  "Take off rings and watch. Work with one hand where you can. Use insulated tools.",
  "Split the pack at its middle, and take the disconnect out, while anyone works on it.",
  "Measure before you touch.",
  "Capacitors stay charged after key-off: wait, measure, and go on only below 60 V.",
  "First motion with the drive wheels off the ground.",
  "An extinguisher and a second person at hand.",
  "Lead-acid batteries vent hydrogen while they charge: air, and no sparks.",
];

export function Cautions({ first, onClose }: { readonly first: boolean; readonly onClose: () => void }) {
  return (
    <DialogBox
      title="Before you begin"
      onClose={onClose}
      foot={
        <button type="button" className="dialog-main" data-first onClick={onClose}>
          {first ? "I have read this" : "Close"}
        </button>
      }
    >
      <p>
        <strong>A drawing that passes is not proof of safety.</strong> Loomwright knows only what the drawing states.
        What it could not check stands as <em>not checked</em>: read that list as carefully as the findings.
      </p>
      <p>The makers&rsquo; data, local rules and a licensed or competent person come first, always.</p>
      <h3>Traction voltage kills, and a pack cannot be switched off</h3>
      <ul className="dialog-list">
        {WHILE_YOU_WORK.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </DialogBox>
  );
}
