/** Parts and wires as tables: to fill in, to sort and sift, to exchange with a spreadsheet. */
import { useEffect, useMemo } from "react";
import { useStore } from "zustand";
import { Button } from "../../controls/Button.tsx";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import { askedIn } from "../facts/asked.ts";
import { columnsOf } from "./arrange.ts";
import { FillBar } from "./FillBar.tsx";
import { Grid } from "./Grid.tsx";
import { rowsNow, tableOf } from "./table-store.ts";
import { TableFoot, TableTools } from "./TableTools.tsx";
import "./table.css";

export function Table() {
  const { store } = useSurroundings();
  const table = tableOf(store);
  const project = useEditor((editor) => editor.history.present);
  const checked = useEditor((editor) => editor.checked?.document ?? null);
  const selection = useEditor((editor) => editor.selection);
  const state = useStore(table.api);
  const { tab, kind } = state;
  const asked = useMemo(() => askedIn(checked), [checked]);
  const columns = useMemo(() => columnsOf(project, { tab, kind }), [project, tab, kind]);
  const rows = useMemo(() => rowsNow(state, project[tab]), [state, project, tab]);

  // What was edited on the sheet meanwhile may have another place now.
  useEffect(() => table.arrange(), [table]);

  // What is selected elsewhere (the margin, the command field, the sheet before) is shown here too.
  useEffect(() => {
    const [id, ...others] = [...selection.parts, ...selection.wires];
    if (id === undefined || others.length > 0 || id === table.told || table.now.active?.row === id) return;
    const wanted = selection.parts.length > 0 ? "parts" : "wires";
    if (table.now.tab !== wanted) table.arrange({ tab: wanted });
    const [first] = columnsOf(store.project, table.now);
    if (first === undefined || !rowsNow(table.now, store.project[wanted]).includes(id)) return;
    const cell = { row: id, column: first.id };
    table.set({ active: cell, anchor: cell });
  }, [selection, table, store]);

  return (
    <section className="table" aria-label="Parts and wires">
      <FillBar />
      <TableTools />
      <Grid key={tab} columns={columns} rows={rows} asked={asked} />
      <TableFoot shown={rows.length} of={project[tab].length} />
      {state.messages.length > 0 && (
        <div className="table-messages">
          <ul role="alert" aria-label="Not taken over">
            {state.messages.map((sentence, index) => (
              <li key={index}>{sentence}</li>
            ))}
          </ul>
          <Button onClick={() => table.say([])}>Put away</Button>
        </div>
      )}
    </section>
  );
}
