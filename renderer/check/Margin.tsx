/**
 * The margin: the red pen's notes, what could not be checked, what was accepted, and the facts of what is selected. An
 * open note stays above the facts, so that it can be mended while it is read.
 */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { FocusEvent } from "react";
import { notesOf } from "../../core/documents/numbering.ts";
import type { Note } from "../../core/documents/numbering.ts";
import { Button } from "../controls/Button.tsx";
import { Facts } from "../draw/facts/Facts.tsx";
import { Readings } from "../energise/readings/Readings.tsx";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { AcceptedList } from "./AcceptedList.tsx";
import { FaultList, FaultsAsked } from "./faults/FaultList.tsx";
import { FindingNote } from "./FindingNote.tsx";
import { NotChecked } from "./NotChecked.tsx";
import { notesAt } from "./numbering.ts";
import { openFinding } from "./places.ts";
import { Verdict } from "./Verdict.tsx";
import "./margin.css";

export function Margin() {
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const selection = useEditor((editor) => editor.selection);
  const finding = useEditor((editor) => editor.finding);
  const faults = useEditor((editor) => editor.faults !== null);
  const notes = useMemo(() => notesOf(checked), [checked]);
  const mended = useMended(notes);
  const open = notes.find((note) => note.finding.id === finding);
  const selected = selection.parts.length + selection.wires.length > 0;
  const { root, ...focus } = useKeptFocus(finding, [...selection.parts, ...selection.wires].join(" "));
  return (
    <div ref={root} className="margin" {...focus}>
      <p className="margin-mended" role="status">
        {mended === null ? "" : `No longer found: ${mended}`}
      </p>
      {!faults && <Readings />}
      {faults ? (
        <>
          <FaultList />
          <Facts />
        </>
      ) : selected ? (
        <Selected notes={notes} open={open} />
      ) : (
        <Overview notes={notes} open={open} />
      )}
    </div>
  );
}

interface NotesProps {
  readonly notes: readonly Note[];
  readonly open: Note | undefined;
}

/** With something selected: the open note, or what the pen says of it, and its facts. */
function Selected({ notes, open }: NotesProps) {
  const { store } = useSurroundings();
  const selection = useEditor((editor) => editor.selection);
  const here = notesAt(notes, selection).filter((note) => note !== open);
  const at = open === undefined ? -1 : notes.indexOf(open);
  const [before, after] = [notes[at - 1], notes[at + 1]];
  const all = (): void => {
    store.set({ finding: null });
    store.select({});
  };
  return (
    <>
      {notes.length > 0 && (
        <div className="margin-walk">
          <Button look="link" onClick={all}>
            All findings ({notes.length})
          </Button>
          {open !== undefined && (
            <>
              <Button disabled={before === undefined} onClick={() => before && openFinding(store, before.finding)}>
                Previous
              </Button>
              <Button disabled={after === undefined} onClick={() => after && openFinding(store, after.finding)}>
                Next
              </Button>
            </>
          )}
        </div>
      )}
      {open !== undefined && <FindingNote note={open} open heading="h2" />}
      {here.length > 0 && <Here notes={here} />}
      <Facts />
    </>
  );
}

/** More than this many would push the facts out of sight. */
const FEW = 2;

function Here({ notes }: { readonly notes: readonly Note[] }) {
  const list = notes.map((note) => <FindingNote key={note.finding.id} note={note} open={false} heading="h2" />);
  return (
    <div className="margin-here" role="group" aria-label="Findings at what is selected">
      {notes.length <= FEW ? (
        list
      ) : (
        <details>
          <summary>{notes.length} findings at what is selected</summary>
          {list}
        </details>
      )}
    </div>
  );
}

/** With nothing selected: everything, and the sheet's own facts last. */
function Overview({ notes, open }: NotesProps) {
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const working = useEditor((editor) => editor.working);
  const empty = useEditor((editor) => editor.history.present.parts.length === 0);
  const planning = useEditor((editor) => editor.stage === "plan");
  const accepted = checked?.findings.filter((finding) => finding.accepted !== null) ?? [];
  const findings = !empty && (
    <section className="margin-part" aria-labelledby="findings-title">
      <h2 id="findings-title">
        Findings {notes.length > 0 && <span className="margin-count">{notes.length}</span>}
        {working && checked !== null && <span className="margin-working">looking again</span>}
      </h2>
      {checked === null && <p className="margin-about">The drawing is being looked at.</p>}
      {checked !== null && notes.length === 0 && <Verdict document={checked} />}
      {notes.map((note) => (
        <FindingNote key={note.finding.id} note={note} open={note === open} heading="h3" />
      ))}
    </section>
  );
  return (
    <>
      {planning ? <NotChecked /> : findings}
      {planning ? findings : <NotChecked />}
      <AcceptedList findings={accepted} />
      {!empty && <FaultsAsked />}
      <Facts />
    </>
  );
}

/**
 * What is shown changes under the keyboard: a note that is opened from the list stands on top of its facts afterwards.
 * The margin then begins at its top, and the keyboard is on that note again; back in the list, on the note it came from.
 */
function useKeptFocus(finding: string | null, selected: string) {
  const root = useRef<HTMLDivElement>(null);
  const inside = useRef(false);
  const last = useRef<string | null>(null);
  useLayoutEffect(() => {
    const margin = root.current;
    if (margin === null) return;
    margin.parentElement?.scrollTo({ top: 0 });
    const wanted = finding ?? last.current;
    if (finding !== null) last.current = finding;
    if (wanted === null || !inside.current || document.activeElement !== document.body) return;
    const note = [...margin.querySelectorAll<HTMLElement>(".note")].find((each) => each.dataset["finding"] === wanted);
    note?.querySelector<HTMLElement>(".note-head")?.focus();
  }, [finding, selected]);
  return {
    root,
    onFocus: () => {
      inside.current = true;
    },
    // What is taken away while it has the keyboard leaves to nowhere: then the margin still has it.
    onBlur: ({ currentTarget, relatedTarget }: FocusEvent<HTMLDivElement>) => {
      if (relatedTarget !== null) inside.current = currentTarget.contains(relatedTarget);
    },
  };
}

/** Title of the open finding once it is found no more: told until another is opened. */
function useMended(notes: readonly Note[]): string | null {
  const { store } = useSurroundings();
  const finding = useEditor((editor) => editor.finding);
  const fileName = useEditor((editor) => editor.fileName);
  const accepted = useEditor((editor) => editor.history.present.accepted);
  const last = useRef<{ readonly id: string; readonly title: string } | null>(null);
  const [mended, setMended] = useState<string | null>(null);
  useEffect(() => {
    setMended(null);
    last.current = null;
  }, [fileName]);
  useEffect(() => {
    if (finding === null) return;
    const note = notes.find((each) => each.finding.id === finding);
    if (note !== undefined) {
      last.current = { id: finding, title: note.finding.title };
      setMended(null);
    } else if (last.current?.id === finding) {
      if (!accepted.some(({ key }) => key === finding)) setMended(last.current.title);
      store.set({ finding: null });
    }
  }, [finding, notes, accepted, store]);
  return mended;
}
