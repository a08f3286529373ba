/**
 * What the studies say of the one part or wire that is selected, between its head and its fields. Folded it tells its
 * first figure; whether it is open is remembered from one thing to the next. Every row tells what is missing, with the
 * way to the field, and on demand what it was worked out from.
 */
import { useEffect, useState } from "react";
import { useStore } from "zustand";
import type { Lacking, WorkedRow, WorkedSection } from "../../../core/documents/worked-out/worked-out.ts";
import type { Source } from "../../../core/standards/source.ts";
import { fillInField } from "../../check/fill-in.ts";
import { Button } from "../../controls/Button.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { foldOf } from "./fold.ts";
import "./worked-out.css";

/** So long, in ms, a selection has to stand before the worker is asked. */
const STANDS = 120;

type About = { readonly part: string } | { readonly wire: string };

/** The one thing that is selected. */
function useAbout(): About | null {
  const selection = useEditor((editor) => editor.selection);
  const [part] = selection.parts;
  const [wire] = selection.wires;
  if (selection.parts.length + selection.wires.length !== 1) return null;
  return part !== undefined ? { part } : wire !== undefined ? { wire } : null;
}

/** null while they are worked out; what stood there stays until something newer is known. */
function useSections(about: About | null): readonly WorkedSection[] | null {
  const { ask } = useSurroundings();
  const revision = useEditor((editor) => editor.solved?.revision);
  const [told, setTold] = useState<{ readonly key: string; readonly sections: readonly WorkedSection[] } | null>(null);
  const key = about === null ? "" : JSON.stringify(about);
  useEffect(() => {
    if (key === "") return undefined;
    let here = true;
    const wait = setTimeout(() => {
      void ask({ about: "studies", ...(JSON.parse(key) as About) }).then((sections) => {
        if (here && sections !== undefined) setTold({ key, sections });
      });
    }, STANDS);
    return () => {
      here = false;
      clearTimeout(wait);
    };
  }, [ask, key, revision]);
  return told?.key === key ? told.sections : null;
}

export function WorkedOut() {
  const { store } = useSurroundings();
  const about = useAbout();
  const sections = useSections(about);
  const stage = useEditor((editor) => editor.stage);
  const chosen = useStore(foldOf(store), ({ open }) => open);
  const open = chosen ?? (stage === "check" || stage === "energise");
  if (about === null || sections?.length === 0) return null;
  const first = sections?.[0]?.rows[0];
  return (
    <details
      className="facts-section worked-out"
      open={open}
      aria-busy={sections === null}
      onToggle={({ currentTarget }) => {
        if (currentTarget.open !== open) foldOf(store).setState({ open: currentTarget.open });
      }}
    >
      <summary>
        Worked out
        <span className="worked-out-first">
          {sections === null ? "at work" : open || first === undefined ? "" : `${first.label}: ${first.text}`}
        </span>
      </summary>
      {sections?.map((section, index) => (
        <section key={index} className="worked-out-part" aria-label={section.title}>
          <h3>{section.title}</h3>
          <dl>
            {section.rows.map((row, place) => (
              <Row key={place} row={row} />
            ))}
          </dl>
        </section>
      ))}
    </details>
  );
}

function Row({ row }: { readonly row: WorkedRow }) {
  const { label, text, note = "", lacks = [], inputs = [], sources = [] } = row;
  return (
    <div className="worked-out-row">
      <dt>{label}</dt>
      <dd>
        <span className="worked-out-figure" title={sourceWords(sources)}>
          {text}
        </span>
        {note !== "" && <span className="worked-out-note">{note}</span>}
        {lacks.length > 0 && <Lacks lacks={lacks} />}
        {inputs.length + sources.length > 0 && (
          <details className="worked-out-from">
            <summary>from what</summary>
            <ul>
              {inputs.map((input) => (
                <li key={input}>{input}</li>
              ))}
              {sources.map((source) => (
                <li key={source.text}>By {sourceWords([source])}</li>
              ))}
            </ul>
          </details>
        )}
      </dd>
    </div>
  );
}

const KNOWN: Readonly<Record<Source["known"], string>> = {
  seen: "",
  memory: " (quoted from memory)",
  calc: " (calculated)",
  none: "",
};

const sourceWords = (sources: readonly Source[]): string | undefined =>
  sources.length === 0 ? undefined : sources.map(({ text, known }) => `${text}${KNOWN[known]}`).join("; ");

/** So many fields are named; the rest is counted. */
const FEW = 3;

function Lacks({ lacks }: { readonly lacks: readonly Lacking[] }) {
  const { store } = useSurroundings();
  return (
    <span className="worked-out-lacks">
      State{" "}
      {lacks.slice(0, FEW).map(({ text, field }, index) => (
        <span key={text}>
          <Button look="link" onClick={() => fillInField(store, field)}>
            {text}
          </Button>
          {index < Math.min(lacks.length, FEW) - 1 && ", "}
        </span>
      ))}
      {lacks.length > FEW && ` and ${String(lacks.length - FEW)} more`}
    </span>
  );
}
