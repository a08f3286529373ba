/** One note of the red pen: number, signal word, what is so; opened: why, what to do, where, in which states, by what source. */
import type { JsonFinding, JsonPlace } from "../../core/checks/report-json.ts";
import { placeKey } from "../../core/documents/numbering.ts";
import type { Note } from "../../core/documents/numbering.ts";
import { sourceWords } from "../../core/documents/source-words.ts";
import { Button } from "../controls/Button.tsx";
import { SeverityBox } from "../controls/SeverityBox.tsx";
import { TermGloss } from "../controls/TermGloss.tsx";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { useShellParts } from "../window/shell-context.ts";
import { AcceptForm } from "./AcceptForm.tsx";
import { checkName } from "./numbering.ts";
import { goTo, openFinding, placeName } from "./places.ts";

interface FindingNoteProps {
  readonly note: Note;
  readonly open: boolean;
  /** Of its title: below a heading of the margin, or on its own. */
  readonly heading: "h2" | "h3";
}

export function FindingNote({ note: { number, finding }, open, heading: Heading }: FindingNoteProps) {
  const { store } = useSurroundings();
  return (
    <article className="note" data-open={open} data-finding={finding.id}>
      <Heading className="note-heading">
        <button
          type="button"
          className="note-head"
          aria-expanded={open}
          onClick={() => (open ? store.set({ finding: null }) : openFinding(store, finding))}
        >
          <span className="note-number" data-note={open ? "open" : undefined}>
            {number}
          </span>
          <SeverityBox severity={finding.severity} />
          <span className="note-title">{finding.title}</span>
        </button>
      </Heading>
      {open && <Opened finding={finding} />}
    </article>
  );
}

function Opened({ finding }: { readonly finding: JsonFinding }) {
  const { store } = useSurroundings();
  const { shell } = useShellParts();
  const name = checkName(useEditor((editor) => editor.checked));
  return (
    <div className="note-body">
      <p>
        <TermGloss text={finding.why} />
      </p>
      <p className="note-mend">
        <b>What to do: </b>
        <TermGloss text={finding.mend} />
      </p>
      {finding.remedies.length > 0 && (
        <p className="note-remedies">
          {finding.remedies.map(({ id, label }) => (
            <Button key={id} look="main" onClick={() => store.mend(finding.id, id)}>
              {label}
            </Button>
          ))}
        </p>
      )}
      <dl>
        <dt>Where</dt>
        <dd>
          <Places places={finding.where} />
        </dd>
        {finding.states.length > 0 && (
          <>
            <dt>When</dt>
            <dd>
              <States states={finding.states} />
            </dd>
          </>
        )}
        <dt>Source</dt>
        <dd>{sourceWords(finding.source)}</dd>
        <dt>Check</dt>
        <dd>
          <Button look="link" onClick={() => void shell.ask({ kind: "checks", check: finding.check })}>
            What this check looks at
          </Button>
        </dd>
      </dl>
      {finding.folded.length > 0 && (
        <details className="note-folded">
          <summary>
            {finding.folded.length === 1 ? "One more goes with it" : `${String(finding.folded.length)} more go with it`}
          </summary>
          <ul>
            {finding.folded.map((under, index) => (
              <li key={index}>
                <SeverityBox severity={under.severity} /> {name(under.check)}: <Places places={under.where} />
              </li>
            ))}
          </ul>
        </details>
      )}
      <AcceptForm finding={finding} />
    </div>
  );
}

export function Places({ places }: { readonly places: readonly JsonPlace[] }) {
  const { store } = useSurroundings();
  return places.map((place, index) => (
    <span key={`${placeKey(place)} ${String(index)}`}>
      {index > 0 && ", "}
      <Button look="link" onClick={() => goTo(store, place)}>
        {placeName(place)}
      </Button>
    </span>
  ));
}

function States({ states }: { readonly states: readonly string[] }) {
  const { store } = useSurroundings();
  const shown = useEditor((editor) => editor.stateName);
  const every = useEditor((editor) => editor.checked?.document.states.length ?? 0);
  if (states.length === every && every > 1) return "in every operating state";
  return states.map((state, index) => (
    <span key={state}>
      {index > 0 && ", "}
      <Button look="link" aria-pressed={state === shown} onClick={() => store.set({ stateName: state })}>
        {state}
      </Button>
    </span>
  ));
}
