/** What is stated of what is selected: a part, a wire, several; of the sheet and the drawing where nothing is. */
import { useEffect, useMemo, useRef } from "react";
import { useStore } from "zustand";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { usePreferences } from "../../window/shell-context.ts";
import { fieldWish } from "./ask-for-field.ts";
import { askedIn } from "./asked.ts";
import { WorkedOut } from "../studies/WorkedOut.tsx";
import { FieldGroup } from "../../controls/Field.tsx";
import { DrawingFacts } from "./DrawingFacts.tsx";
import { FactsSection } from "./FactsSection.tsx";
import { partGroups } from "./part-fields.ts";
import { PartHead, WireHead } from "./heads.tsx";
import { wireGroups } from "./wire-fields.ts";
import "./facts.css";

export function Facts() {
  const { store } = useSurroundings();
  const project = useEditor((editor) => editor.history.present);
  const selection = useEditor((editor) => editor.selection);
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const { units } = usePreferences();
  const asked = useMemo(() => askedIn(checked), [checked]);
  const wish = useStore(fieldWish(store), ({ field }) => field);
  const root = useRef<HTMLElement>(null);
  const key = [...selection.parts, ...selection.wires].join(" ");
  useEffect(() => {
    if (wish === null || root.current === null) return;
    if (focusField(root.current, wish)) fieldWish(store).setState({ field: null });
  }, [wish, key, store]);
  const parts = project.parts.filter(({ id }) => selection.parts.includes(id));
  const wires = project.wires.filter(({ id }) => selection.wires.includes(id));
  const nothing = parts.length + wires.length === 0;
  // Where both are selected, each has its own fields: what they share is only the word.
  return (
    <section ref={root} className="facts" aria-label="Facts">
      {nothing && (
        <FieldGroup>
          <DrawingFacts asked={asked} />
        </FieldGroup>
      )}
      {parts.length > 0 && (
        <FieldGroup key={`parts ${key}`}>
          <PartHead parts={parts} />
          <WorkedOut />
          {partGroups(store, project, parts, asked).map((group) => (
            <FactsSection key={group.title} {...group} />
          ))}
        </FieldGroup>
      )}
      {wires.length > 0 && (
        <FieldGroup key={`wires ${key}`}>
          <WireHead wires={wires} />
          <WorkedOut />
          {wireGroups(store, project, wires, asked, units).map((group) => (
            <FactsSection key={group.title} {...group} />
          ))}
        </FieldGroup>
      )}
    </section>
  );
}

/** Gives the keyboard to a field, unfolding what hides it. */
function focusField(root: HTMLElement, name: string): boolean {
  const field = [...root.querySelectorAll<HTMLElement>("[data-field]")].find((each) => each.dataset["field"] === name);
  if (field === undefined) return false;
  for (let at: HTMLElement | null = field; at !== null && at !== root; at = at.parentElement)
    if (at instanceof HTMLDetailsElement) at.open = true;
  field.querySelector<HTMLElement>("input, select, textarea")?.focus();
  field.scrollIntoView({ block: "center" });
  return true;
}
