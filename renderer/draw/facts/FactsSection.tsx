/** Fields under a heading. */
import type { ReactNode } from "react";
import { Field } from "../../controls/Field.tsx";
import type { FieldModel } from "../../controls/Field.tsx";
import "./facts.css";

interface FactsSectionProps {
  readonly title: string;
  readonly fields?: readonly FieldModel[];
  readonly folded?: boolean;
  readonly children?: ReactNode;
}

export function FactsSection({ title, fields = [], folded = false, children }: FactsSectionProps) {
  const body = (
    <>
      {fields.map((field) => (
        <Field key={field.name} field={field} />
      ))}
      {children}
    </>
  );
  if (folded)
    return (
      <details className="facts-section">
        <summary>{title}</summary>
        {body}
      </details>
    );
  return (
    <div className="facts-section" role="group" aria-label={title}>
      <h3>{title}</h3>
      {body}
    </div>
  );
}
