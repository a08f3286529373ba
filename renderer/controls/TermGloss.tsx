/** Running text whose trade terms explain themselves, on pointing at one or on reaching it with the keyboard. */
import { useId, useMemo, useState } from "react";
import { piecesOf } from "./terms.ts";
import "./controls.css";

export function TermGloss({ text }: { readonly text: string }) {
  const pieces = useMemo(() => piecesOf(text), [text]);
  return pieces.map(({ text: part, gloss }, index) =>
    gloss === undefined ? part : <Term key={index} word={part} gloss={gloss} />,
  );
}

function Term({ word, gloss }: { readonly word: string; readonly gloss: string }) {
  const [place, setPlace] = useState<{ readonly left: number; readonly top: number } | null>(null);
  const id = useId();
  const open = (element: HTMLElement): void => {
    const { left, bottom } = element.getBoundingClientRect();
    setPlace({ left: Math.max(8, Math.min(left, innerWidth - 280)), top: Math.min(bottom + 4, innerHeight - 90) });
  };
  const close = (): void => setPlace(null);
  return (
    <>
      <dfn
        className="term"
        tabIndex={0}
        aria-describedby={id}
        onPointerEnter={({ currentTarget }) => open(currentTarget)}
        onPointerLeave={close}
        onFocus={({ currentTarget }) => open(currentTarget)}
        onBlur={close}
        onKeyDown={(event) => {
          if (event.key !== "Escape" || place === null) return;
          event.preventDefault();
          event.stopPropagation();
          close();
        }}
      >
        {word}
      </dfn>
      <span id={id} role="tooltip" className="gloss" data-open={place !== null} style={place ?? undefined}>
        {gloss}
      </span>
    </>
  );
}
