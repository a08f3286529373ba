/** Findings that somebody accepted, with who, when and why; each can be taken back. */
import type { JsonFinding } from "../../core/checks/report-json.ts";
import { withdrawAcceptance } from "../../core/project/commands/withdraw-acceptance.ts";
import { Button } from "../controls/Button.tsx";
import { SeverityBox } from "../controls/SeverityBox.tsx";
import { useSurroundings } from "../window/editor-context.ts";
import { Places } from "./FindingNote.tsx";

export function AcceptedList({ findings }: { readonly findings: readonly JsonFinding[] }) {
  const { store } = useSurroundings();
  if (findings.length === 0) return null;
  return (
    <section className="margin-part" aria-labelledby="accepted-title">
      <h2 id="accepted-title">
        Accepted <span className="margin-count">{findings.length}</span>
      </h2>
      <ul className="accepted">
        {findings.map((finding) => (
          <li key={finding.id}>
            <SeverityBox severity={finding.severity} />
            <p>{finding.title}</p>
            <p className="accepted-by">
              {finding.accepted?.who}, {finding.accepted?.when}: {finding.accepted?.why}
            </p>
            <p>
              <Places places={finding.where} />
            </p>
            <Button onClick={() => store.perform(withdrawAcceptance, { key: finding.id })}>
              Take back the acceptance
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
