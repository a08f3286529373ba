/** What a terminal carries: shown beside it on pointing at it or on reaching it with the keyboard, and spoken. */
import { useEffect, useMemo, useRef } from "react";
import { KINDS } from "../../core/parts/catalogue.ts";
import type { WireEnd } from "../../core/project/document.ts";
import { knownPart, partById } from "../../core/project/lookup.ts";
import { everyFrame, sheetWindow } from "../controls/on-screen.ts";
import { useStore } from "zustand";
import { drawingOf } from "../draw/sheet/drawing-state.ts";
import { useEditor, useSurroundings } from "../window/editor-context.ts";
import { useShownState } from "../window/shown-state.ts";
import { merged, terminalInState, terminalName, wiresThere } from "./terminal-facts.ts";
import type { TerminalInState } from "./terminal-facts.ts";
import "./terminal-card.css";

export function TerminalCard() {
  const { store } = useSurroundings();
  const hovered = useEditor((editor) => editor.hovered);
  // With a wire in hand the sheet itself says what this terminal is, and what a wire to it would do.
  const wiring = useStore(drawingOf(store), (drawing) => drawing.wiring !== null);
  return (
    <>
      {hovered !== null && !wiring && <Card key={hovered.join(":")} end={hovered} />}
      <Spoken end={hovered} />
    </>
  );
}

/** Everything about the terminal, made once for the eye and the ear. */
function useTerminal(end: WireEnd | null) {
  const project = useEditor((editor) => editor.history.present);
  const solved = useEditor((editor) => editor.solved);
  const state = useShownState();
  return useMemo(() => {
    const part = end === null ? undefined : partById(project, end[0]);
    if (end === null || part === undefined) return undefined;
    const index = solved?.terminals.indexOf(end.join(":")) ?? -1;
    const states = index === -1 ? [] : state === undefined ? (solved?.states ?? []) : [state];
    const net = index === -1 ? undefined : solved?.nets[solved.netOfTerminal[index] ?? -1];
    return {
      name: terminalName(project, end),
      title: knownPart(part, KINDS)?.terminals.find(({ id }) => id === end[1])?.title,
      net: net !== undefined && net.terminals.length > 1 ? net.name : undefined,
      state: state?.name,
      rows: solved === null ? [] : merged(states.map((each) => terminalInState(solved, each, index))),
      wires: wiresThere(project, solved, state, end),
    };
  }, [project, solved, state, end]);
}

function Card({ end }: { readonly end: WireEnd }) {
  const terminal = useTerminal(end);
  const box = useRef<HTMLDivElement>(null);
  const key = end.join(":");
  useEffect(() => {
    const card = box.current;
    if (card === null) return undefined;
    return everyFrame(() => placeBeside(card, key));
  }, [key]);
  if (terminal === undefined) return null;
  const { name, title, net, state, rows, wires } = terminal;
  const [only] = rows;
  return (
    <div ref={box} className="card" aria-hidden>
      <p className="card-name">
        <b>{name}</b>
        {title !== undefined && ` ${title}`}
      </p>
      {net !== undefined && <p>Net {net}</p>}
      {state !== undefined && only !== undefined && <One row={only} />}
      {state === undefined && rows.length > 0 && <All rows={rows} />}
      {wires.length === 0 ? (
        <p className="card-quiet">No wire here.</p>
      ) : (
        <table>
          <tbody>
            {wires.map(({ id, number, other, current }) => (
              <tr key={id}>
                <th scope="row">{number}</th>
                <td>to {other}</td>
                <td className="card-figure">{current}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}

function One({ row: { states, potential, toChassis, toPackNegative } }: { readonly row: TerminalInState }) {
  return (
    <table>
      <caption>
        {states.join(", ")}: {potential}
      </caption>
      <tbody>
        <tr>
          <th scope="row">to chassis</th>
          <td className="card-figure">{toChassis}</td>
        </tr>
        {toPackNegative !== undefined && (
          <tr>
            <th scope="row">to pack minus</th>
            <td className="card-figure">{toPackNegative}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

function All({ rows }: { readonly rows: readonly TerminalInState[] }) {
  const pack = rows.some(({ toPackNegative }) => toPackNegative !== undefined);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">state</th>
          <th scope="col">potential</th>
          <th scope="col">to chassis</th>
          {pack && <th scope="col">to pack minus</th>}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ states, potential, toChassis, toPackNegative }) => (
          <tr key={states[0]}>
            <th scope="row">{states.join(", ")}</th>
            <td>{potential}</td>
            <td className="card-figure">{toChassis}</td>
            {pack && <td className="card-figure">{toPackNegative}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The same in one sentence, for those who hear the window; only in a chosen state are the volts told. */
function Spoken({ end }: { readonly end: WireEnd | null }) {
  const terminal = useTerminal(end);
  const only = terminal?.state === undefined ? undefined : terminal.rows[0];
  const told =
    terminal === undefined
      ? ""
      : [
          terminal.name,
          only === undefined
            ? ""
            : `${only.potential}, ${only.toChassis} to chassis${only.toPackNegative === undefined ? "" : `, ${only.toPackNegative} to pack minus`}`,
          terminal.wires.length === 0
            ? "no wire"
            : terminal.wires
                .map(
                  ({ number, other, current = "" }) => `${number} to ${other}${current === "" ? "" : `, ${current}`}`,
                )
                .join("; "),
        ]
          .filter((text) => text !== "")
          .join(". ");
  return (
    <p className="card-spoken" aria-live="polite">
      {told}
    </p>
  );
}

const GAP = 14;

/** Above the terminal and to the side where there is room; never over it. Below it the sheet has its own words. */
function placeBeside(card: HTMLElement, key: string): void {
  const terminal = document.querySelector(`[data-terminal="${CSS.escape(key)}"]`)?.getBoundingClientRect();
  const layer = card.parentElement?.getBoundingClientRect();
  const paper = sheetWindow();
  const shown = terminal !== undefined && layer !== undefined && paper !== undefined;
  card.style.visibility = shown ? "visible" : "hidden";
  if (!shown) return;
  const { width, height } = card.getBoundingClientRect();
  const right = terminal.right + GAP;
  const x = right + width <= paper.right ? right : Math.max(layer.left + 8, terminal.left - GAP - width);
  const above = Math.max(paper.top, terminal.top - GAP - height);
  const y = Math.min(above, layer.bottom - 8 - height);
  card.style.transform = `translate(${(x - layer.left).toFixed(0)}px, ${(y - layer.top).toFixed(0)}px)`;
}
