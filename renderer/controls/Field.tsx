/**
 * One field: its name, what is stated, and how sure that is. What is typed is taken over on Enter or on leaving; a
 * refusal stands below as a sentence and what was typed stays. On focus it says what the field means and where a
 * person finds the value.
 */
import { createContext, useContext, useId, useMemo, useState } from "react";
import type { KeyboardEvent, ReactNode } from "react";
import { Button } from "./Button.tsx";
import "./controls.css";

export interface FieldModel {
  /** Name in the file; where others point at the field. */
  readonly name: string;
  readonly title: string;
  /** null = known to be unknown; undefined = not stated; "mixed" where several things differ. */
  readonly value: string | null | undefined | { readonly mixed: true };
  /** What stands in while nobody has stated it. */
  readonly usual?: string | undefined;
  /** What could be typed: a unit, or an example. */
  readonly hint?: string | undefined;
  /** A size in the other system of units, and the like. */
  readonly also?: string | undefined;
  readonly explanation?: string | undefined;
  readonly where?: string | undefined;
  readonly choices?: readonly { readonly value: string; readonly label: string }[] | undefined;
  /** Somebody may have looked and still not know. */
  readonly canBeUnknown: boolean;
  /** Always holds something: a designation, a name. */
  readonly always?: boolean;
  /** How many checks could not be made for want of it. */
  readonly asked?: number | undefined;
  /** Several lines. */
  readonly long?: boolean;
  /** Takes the value over; gives the sentence of a refusal, or undefined. */
  readonly set: (value: string | null | undefined) => string | undefined;
}

type Mark = "stated" | "usual" | "unknown" | "missing" | "empty" | "mixed";

export function markOf({ value, usual, asked = 0 }: FieldModel): Mark {
  if (value === null) return "unknown";
  if (value === undefined) return usual !== undefined ? "usual" : asked > 0 ? "missing" : "empty";
  return typeof value === "string" ? "stated" : "mixed";
}

const MARKS: Readonly<Record<Mark, readonly [word: string, sentence: string]>> = {
  stated: ["", "Stated."],
  usual: ["usual", "Usual value, not confirmed."],
  unknown: ["not known", "Somebody looked, and it is not known."],
  missing: ["asked for", "Not stated, and a check needs it."],
  empty: ["", "Not stated."],
  mixed: ["", "What is selected differs here."],
};

interface OpenField {
  readonly id: string | null;
  readonly open: (id: string) => void;
}

const OpenFieldContext = createContext<OpenField>({ id: null, open: () => undefined });

/**
 * Fields of which one at a time tells more about itself. It stays open until another is entered: if it closed on being
 * left, what is about to be pressed below it would slip away under the pointer.
 */
export function FieldGroup({ children }: { readonly children: ReactNode }) {
  const [id, open] = useState<string | null>(null);
  const shown = useMemo(() => ({ id, open }), [id]);
  return <OpenFieldContext value={shown}>{children}</OpenFieldContext>;
}

export function Field({ field }: { readonly field: FieldModel }) {
  const id = useId();
  const group = useContext(OpenFieldContext);
  const open = group.id === id;
  const [refusal, setRefusal] = useState<string | null>(null);
  const mark = markOf(field);
  const set = (value: string | null | undefined): boolean => {
    const empty = field.always === true && (value === undefined || value === null);
    const refused = empty ? `${field.title}: it cannot be left empty. Write one.` : field.set(value);
    setRefusal(refused ?? null);
    return refused === undefined;
  };
  const [word, sentence] = MARKS[mark];
  const more = open && !field.always;
  return (
    <div className="field" data-field={field.name} data-mark={mark} onFocus={() => group.open(id)}>
      <label className="field-title" htmlFor={id}>
        {field.title}
      </label>
      <Control
        id={id}
        field={field}
        refused={refusal !== null}
        describedBy={`${id}-about`}
        set={set}
        forgive={() => setRefusal(null)}
      />
      <span className="field-mark" aria-hidden>
        {word}
      </span>
      {refusal !== null && (
        <p className="field-refusal" role="alert">
          {refusal}
        </p>
      )}
      <div id={`${id}-about`} className={open ? "field-about" : "field-about field-silent"}>
        {!field.always && (
          <p className="field-state">
            {sentence}
            {field.asked !== undefined && field.asked > 0 && mark !== "stated"
              ? ` ${String(field.asked)} ${field.asked === 1 ? "check waits" : "checks wait"} for it.`
              : ""}
            {field.also === undefined ? "" : ` ${field.also}.`}
          </p>
        )}
        {field.explanation !== undefined && <p>{field.explanation}</p>}
        {field.where !== undefined && field.where !== "" && <p className="field-where">Where: {field.where}</p>}
      </div>
      {more && (
        <div className="field-actions">
          {mark === "usual" && field.usual !== undefined && (
            <Button onClick={() => set(field.usual)}>Confirm {field.usual}</Button>
          )}
          {field.canBeUnknown && mark !== "unknown" && <Button onClick={() => set(null)}>Not known</Button>}
          {field.value !== undefined && (
            <Button onClick={() => set(undefined)}>{field.usual === undefined ? "Leave unstated" : "As usual"}</Button>
          )}
        </div>
      )}
    </div>
  );
}

interface ControlProps {
  readonly id: string;
  readonly field: FieldModel;
  readonly refused: boolean;
  readonly describedBy: string;
  readonly set: (value: string | null | undefined) => boolean;
  /** What was typed is taken back. */
  readonly forgive: () => void;
}

const NOT_KNOWN = "\u0001";
const MIXED = "\u0002";

function Control(props: ControlProps) {
  return props.field.choices === undefined ? <Typed {...props} /> : <Chosen {...props} />;
}

function Chosen({ id, field, describedBy, set }: ControlProps) {
  const { value, usual, choices = [] } = field;
  const label = (text: string): string => choices.find((choice) => choice.value === text)?.label ?? text;
  const nothing = usual === undefined ? "not stated" : `${label(usual)}, as usual`;
  return (
    <select
      id={id}
      aria-describedby={describedBy}
      value={value === null ? NOT_KNOWN : value === undefined ? "" : typeof value === "string" ? value : MIXED}
      onChange={({ target }) => set(target.value === "" ? undefined : target.value === NOT_KNOWN ? null : target.value)}
    >
      {!field.always && <option value="">{nothing}</option>}
      {value !== null && typeof value === "object" && <option value={MIXED}>differ</option>}
      {choices.map((choice) => (
        <option key={choice.value} value={choice.value}>
          {choice.label}
        </option>
      ))}
      {field.canBeUnknown && <option value={NOT_KNOWN}>not known</option>}
    </select>
  );
}

function Typed({ id, field, refused, describedBy, set, forgive }: ControlProps) {
  const { value, usual, hint, long = false } = field;
  const held = typeof value === "string" ? value : "";
  const [typed, setTyped] = useState(held);
  const [shown, setShown] = useState(held);
  // The drawing may change under the field: undo, another window of it, the value in its normal form.
  if (shown !== held) {
    setShown(held);
    setTyped(held);
  }
  const take = (): void => {
    const text = typed.trim();
    if (text === held.trim()) {
      forgive();
      setTyped(held);
    } else if (set(text === "" ? undefined : text)) setTyped(held);
  };
  const placeholder =
    value === null ? "not known" : value !== undefined && typeof value === "object" ? "differ" : (usual ?? hint ?? "");
  const given = {
    id,
    value: typed,
    placeholder,
    spellCheck: false,
    "aria-describedby": describedBy,
    "aria-invalid": refused || undefined,
    onChange: ({ target }: { readonly target: { readonly value: string } }) => setTyped(target.value),
    onBlur: take,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === "Enter" && !event.shiftKey) {
        event.preventDefault();
        take();
      }
      if (event.key === "Escape" && typed !== held) {
        event.preventDefault();
        event.stopPropagation();
        setTyped(held);
        forgive();
      }
    },
  };
  return long ? <textarea rows={3} {...given} /> : <input type="text" autoComplete="off" {...given} />;
}
