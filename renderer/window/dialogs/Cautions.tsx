/** What nobody who works on such a vehicle may forget. Shown at the first start, and from the command field ever after. */
import { VOLTAGE_KILLS, WHILE_YOU_WORK } from "../../../core/documents/cautions.ts";
import { DialogBox } from "./DialogBox.tsx";

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
      <h3>{VOLTAGE_KILLS}</h3>
      <ul className="dialog-list">
        {WHILE_YOU_WORK.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </DialogBox>
  );
}
