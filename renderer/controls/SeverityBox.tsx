/** A signal word (ANSI Z535, ISO 3864-2) in its box. The bars tell it in grey as well; only they carry the colour. */
import type { Severity } from "../../core/checks/define.ts";
import "./controls.css";

const BARS: Readonly<Record<Severity, number>> = { DANGER: 4, WARNING: 3, CAUTION: 2, NOTICE: 1 };

export function SeverityBox({ severity }: { readonly severity: Severity }) {
  return (
    <span className="severity" data-severity={severity}>
      <span className="severity-bars" aria-hidden>
        {Array.from({ length: BARS[severity] }, (_, bar) => (
          <span key={bar} className="severity-bar" />
        ))}
      </span>
      {severity}
    </span>
  );
}
