/**
 * A transition above the strip: what happens when, curves of volts and amperes, and a handle to go along them while
 * the drawing shows that moment. The handle runs over the samples, which lie close where much happens.
 */
import { useEffect, useMemo, useRef, useState } from "react";
import type { RefObject } from "react";
import { Button } from "../../controls/Button.tsx";
import type { Curve, TransitionView } from "../../window/analysis/protocol.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { eventRows } from "./event-words.ts";
import type { EventRow } from "./event-words.ts";
import { figureText } from "./figures.ts";
import { lineLook, Plot } from "./Plot.tsx";
import { moment, TRANSITION_WORDS } from "./transition-words.ts";
import { useMoment, useTransition } from "./use-transition.ts";
import "./in-time.css";

export function InTime() {
  const inTime = useEditor((editor) => editor.inTime);
  useMoment();
  return inTime === null ? null : <Opened />;
}

function Opened() {
  const { store } = useSurroundings();
  const name = useEditor((editor) => editor.inTime?.name);
  const names = useEditor((editor) => editor.solved?.transitions);
  const view = useTransition();
  const root = useRef<HTMLElement>(null);
  useFocusWhileOpen(root, view !== null && view !== undefined);
  if (name === undefined) return null;
  return (
    <section
      ref={root}
      className="in-time"
      aria-label="In time"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        store.set({ inTime: null });
      }}
    >
      <header className="in-time-head">
        <h2>In time</h2>
        <div className="in-time-names" role="group" aria-label="What is moved">
          {(names ?? []).map((each) => (
            <Button
              key={each}
              look="link"
              aria-pressed={each === name}
              title={TRANSITION_WORDS[each].about}
              onClick={() => store.set({ inTime: { name: each, time: 0 } })}
            >
              {TRANSITION_WORDS[each].name}
            </Button>
          ))}
        </div>
        <Button onClick={() => store.set({ inTime: null })}>Close</Button>
      </header>
      {view === null && <p className="in-time-wait">Working out what happens.</p>}
      {view === undefined && <p className="in-time-wait">This drawing has no such transition any more.</p>}
      {view !== null && view !== undefined && <Transition key={name} view={view} />}
    </section>
  );
}

/** The handle takes the keyboard once there is something to go along; afterwards it goes back to where it was. */
function useFocusWhileOpen(root: RefObject<HTMLElement | null>, ready: boolean): void {
  const before = useRef<Element | null>(null);
  useEffect(() => {
    before.current = globalThis.document.activeElement;
    return () => {
      // Whoever has gone elsewhere meanwhile stays there.
      const opener = before.current;
      const lost = globalThis.document.activeElement === globalThis.document.body;
      if (lost && opener instanceof HTMLElement && opener.isConnected) opener.focus();
    };
  }, []);
  useEffect(() => {
    if (ready) root.current?.querySelector<HTMLElement>("input[type='range']")?.focus();
  }, [ready, root]);
}

/** Until the last thing that happens, and a little longer: minutes of slow emptying would squeeze the rest to a line. */
function busyUntil({ events, times }: TransitionView["document"]): number {
  const end = times.at(-1) ?? 0;
  const last = events.filter(({ what }) => what !== "below-60").at(-1)?.time ?? end;
  return Math.min(end, Math.max(last * 1.5, last + 0.02));
}

function Transition({ view }: { readonly view: TransitionView }) {
  const { store } = useSurroundings();
  const { document, curves } = view;
  const { times } = document;
  const events = useMemo(() => eventRows(document.events), [document]);
  const inTime = useEditor((editor) => editor.inTime);
  const time = inTime?.time ?? 0;
  const end = times.at(-1) ?? 0;
  const [whole, setWhole] = useState(false);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(() => firstCurves(curves));
  const busy = useMemo(() => busyUntil(document), [document]);
  // Whoever goes along to where nothing much happens any more sees that too.
  const shown = whole || time > busy ? end : busy;
  const range = useMemo((): readonly [number, number] => [0, shown], [shown]);
  const plotted = useMemo(() => curves.filter(({ label }) => chosen.has(label)), [curves, chosen]);
  const marks = useMemo(() => events.map((event) => event.time), [events]);
  const go = (to: number): void => {
    if (inTime !== null) store.set({ inTime: { name: inTime.name, time: to } });
  };
  const at = lastAt(times, time);
  const now = events.filter((event) => event.time <= time).at(-1);
  return (
    <div className="in-time-body">
      <Events view={view} events={events} time={time} onTime={go} />
      <div className="in-time-middle">
        <Plot times={times} curves={plotted} marks={marks} time={time} range={range} onTime={go} />
        <div className="in-time-handle">
          <input
            type="range"
            aria-label="Moment in the transition"
            aria-valuetext={`${moment(time)}${now === undefined ? "" : `, after: ${now.words}`}`}
            min={0}
            max={Math.max(times.length - 1, 0)}
            value={at}
            onChange={(event) => go(times[Number(event.target.value)] ?? 0)}
          />
          <output className="in-time-now">{moment(time)}</output>
          {end > busy && (
            <Button look="link" aria-pressed={whole} onClick={() => setWhole(!whole)}>
              All {moment(end)}
            </Button>
          )}
        </div>
      </div>
      <Legend curves={curves} chosen={chosen} plotted={plotted} at={at} onChoose={setChosen} />
    </div>
  );
}

function firstCurves(curves: readonly Curve[]): ReadonlySet<string> {
  const first = curves.filter((curve) => curve.first);
  return new Set((first.length > 0 ? first : curves.slice(0, 1)).map(({ label }) => label));
}

/** Last sample not after a time. */
function lastAt(times: readonly number[], time: number): number {
  let low = 0;
  let high = times.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((times[middle] ?? 0) <= time) low = middle;
    else high = middle - 1;
  }
  return Math.max(low, 0);
}

interface EventsProps {
  readonly view: TransitionView;
  readonly events: readonly EventRow[];
  readonly time: number;
  readonly onTime: (time: number) => void;
}

function Events({ view: { document }, events, time, onTime }: EventsProps) {
  const { store } = useSurroundings();
  const { trouble, chatter, assumed } = document;
  const last = events.filter((event) => event.time <= time).length - 1;
  useEffect(() => {
    const row = globalThis.document.querySelector(".in-time-event[aria-current='true']");
    row?.scrollIntoView({ block: "nearest" });
  }, [last]);
  return (
    <div className="in-time-events">
      {trouble !== null && <p className="in-time-trouble">Stopped early: {trouble}</p>}
      {chatter.length > 0 && (
        <p className="in-time-trouble">{chatter.join(", ")} finds no rest: it opens and closes again and again.</p>
      )}
      <ol aria-label="What happens">
        {events.map((event, index) => (
          <li key={index}>
            <button
              type="button"
              className="in-time-event"
              aria-current={index === last}
              onClick={() => {
                onTime(event.time);
                if (event.part !== null) store.select({ parts: [event.part] });
              }}
            >
              <span className="in-time-when">{moment(event.time)}</span>
              <span>{event.words}</span>
            </button>
          </li>
        ))}
      </ol>
      {assumed.length > 0 && (
        <p className="in-time-assumed" title={assumed.map(({ part, parameter }) => `${part}.${parameter}`).join(", ")}>
          A guide only: {assumed.length} {assumed.length === 1 ? "value was" : "values were"} assumed (
          {[...new Set(assumed.map(({ part, parameter }) => `${part} ${parameter}`))].slice(0, 3).join(", ")}
          {assumed.length > 3 ? " and more" : ""}).
        </p>
      )}
    </div>
  );
}

interface LegendProps {
  readonly curves: readonly Curve[];
  readonly chosen: ReadonlySet<string>;
  readonly plotted: readonly Curve[];
  readonly at: number;
  readonly onChoose: (chosen: ReadonlySet<string>) => void;
}

function Legend({ curves, chosen, plotted, at, onChoose }: LegendProps) {
  return (
    <fieldset className="in-time-legend">
      <legend>Curves</legend>
      {curves.map(({ label, unit, values }) => {
        const index = plotted.findIndex((curve) => curve.label === label);
        const value = values[at];
        return (
          <label key={label}>
            <input
              type="checkbox"
              checked={chosen.has(label)}
              onChange={({ target }) => {
                const next = new Set(chosen);
                if (target.checked) next.add(label);
                else next.delete(label);
                onChoose(next);
              }}
            />
            <svg className="in-time-line" aria-hidden viewBox="0 0 28 4">
              {index >= 0 && (
                <line
                  x1={0}
                  y1={2}
                  x2={28}
                  y2={2}
                  strokeWidth={1.5}
                  style={{ stroke: `var(${lineLook(index).ink})` }}
                  strokeDasharray={lineLook(index).dash.join(" ")}
                />
              )}
            </svg>
            <span className="in-time-label">{label}</span>
            <span className="in-time-value">{figureText(value, unit)}</span>
          </label>
        );
      })}
    </fieldset>
  );
}
