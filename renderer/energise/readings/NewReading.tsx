/** One reading to be typed; while a lead's field has the keyboard, a press on a terminal of the sheet fills it in. */
import { useEffect, useRef, useState } from "react";
import { addReading } from "../../../core/project/commands/add-reading.ts";
import { partById } from "../../../core/project/lookup.ts";
import { refusalOf } from "../../draw/facts/refusal.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";

type Lead = "plus" | "minus";

/** What is pressed on the sheet goes to the lead whose field has the keyboard, and to nothing else. */
function usePicking(lead: Lead | null, take: (place: string) => void): void {
  const { store } = useSurroundings();
  const taken = useRef(take);
  taken.current = take;
  useEffect(() => {
    if (lead === null) return undefined;
    const press = (event: PointerEvent): void => {
      const onSheet = event.target instanceof Element && event.target.closest("#sheet-surface") !== null;
      const end = store.now.hovered;
      if (!onSheet || end === null || event.button !== 0) return;
      const part = partById(store.project, end[0]);
      if (part === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      taken.current(`${part.designation}:${end[1]}`);
    };
    // The keyboard stays in the field.
    const keep = (event: MouseEvent): void => {
      if (event.target instanceof Element && event.target.closest("#sheet-surface") !== null) event.preventDefault();
    };
    addEventListener("pointerdown", press, { capture: true });
    addEventListener("mousedown", keep, { capture: true });
    return () => {
      removeEventListener("pointerdown", press, { capture: true });
      removeEventListener("mousedown", keep, { capture: true });
    };
  }, [lead, store]);
}

export function NewReading() {
  const { store } = useSurroundings();
  const states = useEditor((editor) => editor.solved?.states);
  const shown = useEditor((editor) => editor.stateName);
  const names = (states ?? []).map(({ name }) => name);
  const [chosen, setChosen] = useState<string | null>(null);
  const [plus, setPlus] = useState("");
  const [minus, setMinus] = useState("chassis");
  const [volts, setVolts] = useState("");
  const [lead, setLead] = useState<Lead | null>(null);
  const [refusal, setRefusal] = useState<string | undefined>(undefined);
  const form = useRef<HTMLFormElement>(null);
  const wanted = chosen ?? shown ?? "parked";
  const state = names.includes(wanted) ? wanted : (names[0] ?? wanted);
  const focus = (name: string): void => form.current?.querySelector<HTMLInputElement>(`[name="${name}"]`)?.focus();
  usePicking(lead, (place) => {
    if (lead === "plus") {
      setPlus(place);
      focus("minus");
    } else {
      setMinus(place);
      focus("volts");
    }
  });
  const add = (): void => {
    const refused = refusalOf(store, addReading, { state, plus, minus, volts });
    setRefusal(refused);
    if (refused !== undefined) return;
    setPlus("");
    setVolts("");
    focus("plus");
  };
  const leadField = (which: Lead, title: string, value: string, set: (text: string) => void) => (
    <label>
      {title}
      <input
        type="text"
        name={which}
        autoComplete="off"
        spellCheck={false}
        placeholder="F1:2, or chassis"
        value={value}
        onChange={({ target }) => set(target.value)}
        onFocus={({ target }) => {
          target.select();
          setLead(which);
        }}
        onBlur={() => setLead(null)}
      />
    </label>
  );
  return (
    <form
      ref={form}
      className="readings-new"
      aria-label="A reading"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <label>
        State
        <select value={state} onChange={({ target }) => setChosen(target.value)}>
          {names.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {leadField("plus", "Plus lead", plus, setPlus)}
      {leadField("minus", "Minus lead", minus, setMinus)}
      <label>
        Volts
        <input
          type="text"
          name="volts"
          autoComplete="off"
          placeholder="76.1"
          value={volts}
          onChange={({ target }) => setVolts(target.value)}
        />
      </label>
      <button type="submit" className="button button-quiet">
        Add this reading
      </button>
      <p className="margin-about">Type a terminal, or go to a lead and press the terminal on the sheet.</p>
      {refusal !== undefined && (
        <p className="field-refusal" role="alert">
          {refusal}
        </p>
      )}
    </form>
  );
}
