/** What a cell is typed into. Enter takes over, Escape leaves it as it was, Tab takes over and goes on to the side. */
import { useEffect, useId, useRef, useState } from "react";
import type { KeyboardEvent } from "react";
import { NOT_KNOWN } from "./column.ts";

/** back: as it was; away: the keyboard went elsewhere. */
export type Leaving = "down" | "right" | "left" | "back" | "away";

interface CellEditorProps {
  readonly text: string;
  readonly selectAll: boolean;
  readonly label: string;
  readonly hint: string | undefined;
  readonly choices: readonly string[];
  readonly refused: boolean;
  readonly leave: (text: string, how: Leaving) => void;
}

export function CellEditor({ text, selectAll, label, hint, choices, refused, leave }: CellEditorProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState(text);
  const left = useRef(false);
  useEffect(() => {
    input.current?.focus({ preventScroll: true });
    if (selectAll) input.current?.select();
  }, [selectAll]);
  const go = (how: Leaving): void => {
    left.current = true;
    leave(typed, how);
    // A refused text stays, and with it what is typed next.
    requestAnimationFrame(() => (left.current = false));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const how: Partial<Record<string, Leaving>> = {
      Enter: "down",
      Escape: "back",
      Tab: event.shiftKey ? "left" : "right",
    };
    const wanted = how[event.key];
    if (wanted === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    go(wanted);
  };
  return (
    <>
      <input
        ref={input}
        className="cell-input"
        type="text"
        aria-label={label}
        aria-invalid={refused || undefined}
        list={choices.length === 0 ? undefined : id}
        placeholder={hint}
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={({ target }) => setTyped(target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => {
          if (!left.current) leave(typed, "away");
        }}
      />
      {choices.length > 0 && (
        <datalist id={id}>
          {[...choices, NOT_KNOWN].map((choice) => (
            <option key={choice} value={choice} />
          ))}
        </datalist>
      )}
    </>
  );
}
