/** Accepting a finding: by whom and for what reason. It comes back by itself once the facts it stands on change. */
import { useId, useState } from "react";
import type { JsonFinding } from "../../core/checks/report-json.ts";
import { acceptFinding } from "../../core/project/commands/accept-finding.ts";
import { Button } from "../controls/Button.tsx";
import { useSurroundings } from "../window/editor-context.ts";
import { usePreferences } from "../window/shell-context.ts";

export function AcceptForm({ finding }: { readonly finding: JsonFinding }) {
  const { store } = useSurroundings();
  const { author } = usePreferences();
  const [open, setOpen] = useState(false);
  const [who, setWho] = useState(author);
  const [why, setWhy] = useState("");
  const id = useId();
  if (!open) return <Button onClick={() => setOpen(true)}>Accept with a reason</Button>;
  const lacking = who.trim() === "" || why.trim() === "";
  const accept = (): void => {
    if (lacking) return;
    const when = new Date().toISOString().slice(0, 10);
    store.perform(acceptFinding, { key: finding.id, who: who.trim(), when, why: why.trim(), hash: finding.hash });
    store.set({ finding: null });
  };
  return (
    <form
      className="accept"
      aria-label="Accept the finding"
      onSubmit={(event) => {
        event.preventDefault();
        accept();
      }}
    >
      <label htmlFor={`${id}-why`}>Why this may stay as it is</label>
      <textarea
        id={`${id}-why`}
        rows={3}
        value={why}
        ref={(element) => {
          if (element !== null && why === "" && document.activeElement?.closest(".accept") === null) element.focus();
        }}
        onChange={({ target }) => setWhy(target.value)}
      />
      <label htmlFor={`${id}-who`}>Your name</label>
      <input
        id={`${id}-who`}
        type="text"
        autoComplete="off"
        value={who}
        onChange={({ target }) => setWho(target.value)}
      />
      <p className="accept-note">
        It stays in the drawing with name, date and reason, and comes back when the facts it stands on change.
      </p>
      <div className="accept-foot">
        <button type="submit" className="button button-main" disabled={lacking}>
          Accept the finding
        </button>
        <Button onClick={() => setOpen(false)}>Leave it open</Button>
      </div>
    </form>
  );
}
