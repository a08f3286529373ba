/**
 * The operating states along the foot, like stations on a line in the order in which the vehicle goes through them; the
 * first is the plain drawing. Arrow keys or a click choose what the drawing shows.
 */
import { useRef } from "react";
import type { KeyboardEvent } from "react";
import { Button } from "../controls/Button.tsx";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import type { StateView } from "../window/analysis/protocol.ts";
import { RailLink } from "./in-time/RailLink.tsx";
import { findingsIn, remarksIn, spokenState } from "./state-words.ts";
import "./state-strip.css";

const STEPS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

export function StateStrip() {
  const { store } = useSurroundings();
  const solved = useEditor((editor) => editor.solved);
  const shown = useEditor((editor) => editor.stateName);
  const project = useEditor((editor) => editor.history.present);
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const root = useRef<HTMLDivElement>(null);
  const states = solved?.states ?? [];
  const choices: readonly (StateView | null)[] = [null, ...states];
  const choose = (index: number): void => {
    const wanted = (index + choices.length) % choices.length;
    store.set({ stateName: choices[wanted]?.name ?? null, inTime: null });
    root.current?.querySelectorAll<HTMLElement>("[role='radio']")[wanted]?.focus();
  };
  const onKey = (event: KeyboardEvent, index: number): void => {
    const step = STEPS[event.key];
    if (step !== undefined) choose(index + step);
    else if (event.key === "Home") choose(0);
    else if (event.key === "End") choose(-1);
    else if (event.key === " " || event.key === "Enter") choose(index);
    else return;
    event.preventDefault();
  };
  const byHand = useEditor((editor) => editor.byHand);
  const own = new Set(project.states.map(({ name }) => name));
  return (
    <div className="strip">
      <div className="strip-line">
        <div ref={root} className="states" role="radiogroup" aria-label="Operating states">
          {choices.map((state, index) => {
            const lit = (state?.name ?? null) === shown;
            return (
              <div
                key={state?.name ?? ""}
                role="radio"
                className="state"
                data-own={own.has(state?.name ?? "") || undefined}
                aria-checked={lit}
                aria-label={state === null ? "Plain drawing" : spokenState(project, checked, state)}
                tabIndex={lit ? 0 : -1}
                onClick={() => choose(index)}
                onKeyDown={(event) => onKey(event, index)}
              >
                <span className="state-rail" aria-hidden>
                  <span className="state-station" />
                </span>
                <span className="state-name" title={state?.name}>
                  {state?.name ?? "Plain drawing"}
                </span>
                {state === null ? (
                  <span className="state-counts">{states.length === 0 ? "nothing solved yet" : "no potentials"}</span>
                ) : (
                  <Counts
                    state={state}
                    findings={findingsIn(checked, state.name)}
                    remarks={remarksIn(project, state)}
                  />
                )}
              </div>
            );
          })}
        </div>
        <div className="state-links" role="group" aria-label="Ways from state to state">
          {choices.map((state, index) => (
            <div key={state?.name ?? ""} className="state-way">
              {state !== null && <RailLink from={state.name} to={choices[index + 1]?.name ?? ""} />}
            </div>
          ))}
        </div>
      </div>
      <Button
        aria-expanded={byHand}
        disabled={shown === null}
        title={shown === null ? "Choose a state first" : "Set switches, keys, pedals and plugs of this state by hand"}
        onClick={() => store.set({ byHand: !byHand })}
      >
        Set by hand
      </Button>
    </div>
  );
}

interface CountsProps {
  readonly state: StateView;
  readonly findings: number;
  readonly remarks: readonly string[];
}

function Counts({ state: { live }, findings, remarks }: CountsProps) {
  return (
    <span className="state-counts">
      <span className="state-live" data-circuit="traction" title="Nets live in traction">
        {live.traction}
      </span>
      <span className="state-live" data-circuit="auxiliary" title="Nets live in the 12 V circuit">
        {live.auxiliary}
      </span>
      {findings > 0 && (
        <span className="state-findings" title="Findings in this state">
          {findings}
        </span>
      )}
      {remarks.length > 0 && (
        <span className="state-remark" title={remarks.join("\n")}>
          {remarks.length === 1 ? remarks[0] : `${String(remarks.length)} remarks`}
        </span>
      )}
    </span>
  );
}
