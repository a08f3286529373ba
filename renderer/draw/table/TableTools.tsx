/** Above the table: which of the two, which rows. */
import { useMemo } from "react";
import { useStore } from "zustand";
import { KINDS } from "../../../core/parts/catalogue.ts";
import { useEditor, useSurroundings } from "../../window/editor-context.ts";
import type { Lack, Tab } from "./arrange.ts";
import { TABS } from "./arrange.ts";
import { tableOf } from "./table-store.ts";

const TAB_WORDS: Readonly<Record<Tab, string>> = { parts: "Parts", wires: "Wires" };
const LACKS: readonly (readonly [Lack, string])[] = [
  ["any", "all rows"],
  ["not-stated", "only what is not stated"],
  ["asked-for", "only what checks wait for"],
];

export function TableTools() {
  const { store } = useSurroundings();
  const table = tableOf(store);
  const project = useEditor((editor) => editor.history.present);
  const { tab, kind, find, lack } = useStore(table.api);
  const kinds = useMemo(() => {
    const counts = new Map<string, number>();
    for (const part of project.parts) counts.set(part.kind, (counts.get(part.kind) ?? 0) + 1);
    const named = [...counts].map(([id, count]) => ({ id, count, title: KINDS.get(id)?.title ?? id }));
    return named.sort((a, b) => (a.title < b.title ? -1 : 1));
  }, [project.parts]);
  return (
    <div className="table-tools">
      <div className="table-tabs" role="group" aria-label="Which table">
        {TABS.map((each) => (
          <button
            key={each}
            type="button"
            aria-pressed={each === tab}
            onClick={() => each !== tab && table.arrange({ tab: each })}
          >
            {TAB_WORDS[each]} ({project[each].length})
          </button>
        ))}
      </div>
      {tab === "parts" && (
        <select
          aria-label="Kind of part"
          value={kind ?? ""}
          onChange={({ target }) => table.arrange({ kind: target.value === "" ? null : target.value })}
        >
          <option value="">all kinds</option>
          {kinds.map(({ id, title, count: parts }) => (
            <option key={id} value={id}>
              {title} ({parts})
            </option>
          ))}
        </select>
      )}
      <select
        aria-label="Rows"
        value={lack}
        onChange={({ target }) => table.arrange({ lack: LACKS.find(([each]) => each === target.value)?.[0] ?? "any" })}
      >
        {LACKS.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      <input
        type="search"
        aria-label="Only rows with this text"
        placeholder="Rows with this text"
        autoComplete="off"
        spellCheck={false}
        value={find}
        onChange={({ target }) => table.arrange({ find: target.value })}
      />
    </div>
  );
}

/** Below the table: how many rows there are, and how their cells read. */
export function TableFoot({ shown, of }: { readonly shown: number; readonly of: number }) {
  return (
    <div className="table-foot">
      <span className="table-count" role="status">
        {shown === of ? `${String(of)} rows` : `${String(shown)} of ${String(of)} rows`}
      </span>
      <ul className="table-legend" aria-label="How cells read">
        <li>stated</li>
        <li data-mark="usual">usual, not confirmed</li>
        <li data-mark="empty">
          <span className="cell-none" aria-hidden /> not stated
        </li>
        <li data-mark="asked">a check waits</li>
      </ul>
    </div>
  );
}
