/**
 * If one thing fails: every single fault with what it leads to, worst first. Opening one shows it on the drawing, solved
 * in a state in which it matters.
 */
import { useEffect, useState } from "react";
import type { FaultsDocument } from "../../../core/studies/single-faults-json.ts";
import { Button } from "../../controls/Button.tsx";
import { SeverityBox } from "../../controls/SeverityBox.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { replayFault } from "./replay.ts";
import "./fault-list.css";

type Fault = FaultsDocument["faults"][number];

/** Opens the list in place of the findings. */
export function FaultsAsked() {
  const { store } = useSurroundings();
  return (
    <section className="margin-part">
      <Button onClick={() => store.set({ faults: { shown: null } })}>Try what happens if one thing fails</Button>
    </section>
  );
}

/** In place of the findings while it is open, whatever is selected. */
export function FaultList() {
  const { store } = useSurroundings();
  return (
    <section className="margin-part faults" aria-labelledby="faults-title">
      <div className="faults-head">
        <h2 id="faults-title">If one thing fails</h2>
        <Button onClick={() => store.set({ faults: null, beside: null })}>Back to the findings</Button>
      </div>
      <Faults />
    </section>
  );
}

/** null while they are worked out. */
function useFaults(): FaultsDocument | null {
  const { ask } = useSurroundings();
  const revision = useEditor((editor) => editor.solved?.revision);
  const [found, setFound] = useState<FaultsDocument | null>(null);
  useEffect(() => {
    let here = true;
    void ask({ about: "faults" }).then((answer) => {
      if (here && answer !== undefined) setFound(answer);
    });
    return () => {
      here = false;
    };
  }, [ask, revision]);
  return found;
}

const SHOWN = ["DANGER", "WARNING"] as const;

function Faults() {
  const study = useFaults();
  const { store } = useSurroundings();
  const shown = useEditor((editor) => editor.faults?.shown ?? null);
  const [all, setAll] = useState(false);
  if (study === null) return <p className="margin-about">Each wire, contact, fuse and plug is being tried in turn.</p>;
  const { faults, counts } = study;
  const grave = faults.filter(({ severity, hidden }) => hidden || SHOWN.some((each) => each === severity));
  const listed = all ? faults : grave;
  return (
    <>
      <p className="margin-about">
        {faults.length} single faults, each on the vehicle as drawn: {counts.DANGER} lead to DANGER, {counts.WARNING} to
        WARNING; {counts.hidden} show in no reading and in nothing that moves, lights or sounds.
      </p>
      <ul className="faults-list">
        {listed.map((fault) => (
          <Row
            key={fault.key}
            fault={fault}
            open={fault.key === shown}
            onOpen={(key) => store.set({ faults: { shown: key } })}
          />
        ))}
      </ul>
      {grave.length < faults.length && (
        <Button look="link" onClick={() => setAll(!all)}>
          {all ? "Only what leads to WARNING or DANGER, or shows nowhere" : `All ${faults.length}`}
        </Button>
      )}
    </>
  );
}

interface RowProps {
  readonly fault: Fault;
  readonly open: boolean;
  readonly onOpen: (key: string | null) => void;
}

function Row({ fault, open, onOpen }: RowProps) {
  const surroundings = useSurroundings();
  const { key, what, severity, hidden, effects } = fault;
  const replay = (): void => {
    if (open) {
      onOpen(null);
      surroundings.store.set({ beside: null });
      return;
    }
    onOpen(key);
    void replayFault(surroundings, fault, effects[0]?.states[0] ?? "driving");
  };
  return (
    <li>
      <button type="button" className="opening-row faults-row" aria-expanded={open} onClick={replay}>
        {severity === null ? <span className="faults-none">no effect</span> : <SeverityBox severity={severity} />}
        <span>
          {what}
          {hidden && <em className="faults-hidden"> Nothing shows it.</em>}
        </span>
      </button>
      {open && (
        <div className="faults-effects">
          {effects.map((effect, index) => (
            <p key={index}>
              <b>{effect.severity}.</b> {effect.what} {effect.why}
            </p>
          ))}
          {effects.length === 0 && <p>Nothing changes in any state that was looked at.</p>}
          {hidden && <p>No reading with a meter shows it. Look at it when you service the vehicle.</p>}
          <p className="margin-about">
            The drawing shows the vehicle with this fault. Press it again for the drawing without.
          </p>
        </div>
      )}
    </li>
  );
}
