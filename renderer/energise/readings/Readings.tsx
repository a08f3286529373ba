/**
 * Readings taken with a meter, typed in or picked on the sheet, kept in the project; and which single faults explain
 * them, best first. Pressing one shows the drawing with it.
 */
import { useEffect, useState } from "react";
import type { DiagnoseDocument } from "../../../core/studies/diagnose-json.ts";
import { removeReading } from "../../../core/project/commands/remove-reading.ts";
import type { Reading } from "../../../core/project/document.ts";
import { replayFault } from "../../check/faults/replay.ts";
import { Button } from "../../controls/Button.tsx";
import type { ReadingsView } from "../../window/analysis/protocol.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { NewReading } from "./NewReading.tsx";
import { inToldOrder } from "./told-order.ts";
import "./readings.css";

export function Readings() {
  const shown = useEditor((editor) => editor.stage === "energise");
  return shown ? <Panel /> : null;
}

function Panel() {
  const { store, ask } = useSurroundings();
  const readings = useEditor((editor) => editor.history.present.readings);
  const revision = useEditor((editor) => editor.solved?.revision);
  const [wanted, setWanted] = useState(false);
  const [view, setView] = useState<ReadingsView | null>(null);
  const some = readings.length > 0;
  useEffect(() => {
    if (!wanted || !some) return undefined;
    let here = true;
    void ask({ about: "readings" }).then((answer) => {
      if (here && answer !== undefined) setView(answer);
    });
    return () => {
      here = false;
    };
  }, [ask, wanted, some, revision]);
  return (
    <section className="margin-part readings" aria-labelledby="readings-title">
      <h2 id="readings-title">
        Readings with a meter {some && <span className="margin-count">{readings.length}</span>}
      </h2>
      {some && (
        <ol className="readings-list">
          {readings.map((reading, index) => (
            <li key={index}>
              <span>
                {reading.plus} to {reading.minus}, {reading.state}
              </span>
              <b>{reading.volts}</b>
              <Button
                look="link"
                aria-label={`Remove the reading from ${reading.plus} to ${reading.minus}`}
                onClick={() => store.perform(removeReading, { index })}
              >
                Remove
              </Button>
            </li>
          ))}
        </ol>
      )}
      <NewReading />
      {some && (
        <Button
          look="main"
          aria-expanded={wanted}
          onClick={() => {
            if (wanted) store.set({ beside: null });
            setView(null);
            setWanted(!wanted);
          }}
        >
          {wanted ? "Put the explanations away" : "What explains these readings"}
        </Button>
      )}
      {wanted && some && <Explained view={view} readings={readings} />}
    </section>
  );
}

function Explained({ view, readings }: { readonly view: ReadingsView | null; readonly readings: readonly Reading[] }) {
  if (view === null) return <p className="margin-about">Each fault is laid into the circuit and measured in turn.</p>;
  if ("problem" in view) return <p role="alert">{view.problem}</p>;
  return <Ranked document={view.document} readings={readings} />;
}

/** So many are worth a look before anybody asks for all. */
const FEW = 8;

/** Below this the best is a chance likeness. */
const EXPLAINS = 0.1;

function summary({ faults }: DiagnoseDocument): string {
  const best = faults.filter(({ rank }) => rank === 1);
  if ((best[0]?.fit ?? 0) < EXPLAINS)
    return "No single fault explains these readings. Look again where the leads were, in which state, and what the meter showed.";
  const alike =
    best.length === 1
      ? "One explanation fits best."
      : `${String(best.length)} explanations fit alike: one more reading may tell them apart.`;
  return `${alike} 100 % is a fit of every reading.`;
}

function Ranked({
  document,
  readings,
}: {
  readonly document: DiagnoseDocument;
  readonly readings: readonly Reading[];
}) {
  const [all, setAll] = useState(false);
  const [shown, setShown] = useState<string | null>(null);
  const told = inToldOrder(readings);
  const { faults } = document;
  return (
    <>
      <p className="margin-about">{summary(document)}</p>
      <ol className="readings-faults">
        {(all ? faults : faults.slice(0, FEW)).map((fault) => (
          <Explanation
            key={fault.key}
            fault={fault}
            told={told}
            open={fault.key === shown}
            onOpen={(open) => setShown(open ? fault.key : null)}
          />
        ))}
      </ol>
      {faults.length > FEW && (
        <Button look="link" onClick={() => setAll(!all)}>
          {all ? "Only the best" : `All ${String(faults.length)}`}
        </Button>
      )}
    </>
  );
}

interface ExplanationProps {
  readonly fault: DiagnoseDocument["faults"][number];
  readonly told: readonly Reading[];
  readonly open: boolean;
  readonly onOpen: (open: boolean) => void;
}

function Explanation({ fault, told, open: chosen, onOpen }: ExplanationProps) {
  const surroundings = useSurroundings();
  const { store } = surroundings;
  const stateName = useEditor((editor) => editor.stateName);
  const without = useEditor((editor) => editor.beside === null);
  const open = chosen && (fault.key === "none" || !without);
  const state = told.some((reading) => reading.state === stateName) ? (stateName ?? "") : (told[0]?.state ?? "driving");
  const press = (): void => {
    if (open || fault.key === "none") store.set({ beside: null });
    else void replayFault(surroundings, fault, state);
    onOpen(!open);
  };
  return (
    <li>
      <button type="button" className="opening-row readings-fault" aria-expanded={open} onClick={press}>
        <span className="readings-fit">{Math.round(fault.fit * 100)} %</span>
        <span>{fault.what}</span>
      </button>
      {open && (
        <p className="readings-against">
          {fault.against.length === 0
            ? "No reading speaks against it."
            : `Against it: ${fault.against.map((at) => readingName(told[at])).join("; ")}.`}
        </p>
      )}
    </li>
  );
}

const readingName = (reading: Reading | undefined): string =>
  reading === undefined ? "" : `${reading.volts} from ${reading.plus} to ${reading.minus} in ${reading.state}`;
