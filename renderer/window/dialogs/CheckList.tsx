/** Every check by group, with how it stands on the present drawing: what was looked at, and what was not. */
import { useEffect, useRef } from "react";
import type { Check } from "../../../core/checks/define.ts";
import { useEditor } from "../editor-context.ts";
import type { CheckGroup } from "./check-library.ts";
import { standingKind, standingSummary, standingWords } from "./standing-words.ts";

interface CheckListProps {
  readonly groups: (wanted: (check: Check, group: string) => boolean) => readonly CheckGroup[];
  readonly search: string;
  readonly onSearch: (search: string) => void;
  /** The check whose page was left just now: the focus goes back to it. */
  readonly at: string | undefined;
  readonly onOpen: (check: string) => void;
}

export function CheckList({ groups, search, onSearch, at, onOpen }: CheckListProps) {
  const tallies = useEditor((editor) => editor.checked?.tallies ?? null);
  const field = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const row = at === undefined ? undefined : list.current?.querySelector<HTMLElement>(`[data-check="${at}"]`);
    (row ?? field.current)?.focus();
  }, [at]);
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const wanted = (check: Check, group: string): boolean => {
    const messages = Object.values(check.messages).map(({ title }) => title);
    const text = [check.title, check.id, group, check.about, ...messages, standingWords(tallies?.[check.id])]
      .join(" ")
      .toLowerCase();
    return words.every((word) => text.includes(word));
  };
  const found = groups(wanted);
  const all = groups(() => true).flatMap(({ checks }) => checks);
  return (
    <>
      <p>
        {all.length} checks look at the drawing, in every operating state and between them. On this one:{" "}
        {standingSummary(all.map(({ id }) => tallies?.[id]))}.
      </p>
      <label className="check-search">
        Search
        <input
          ref={field}
          type="search"
          value={search}
          placeholder="fuse, pre-charge, not checked"
          onChange={({ currentTarget }) => onSearch(currentTarget.value)}
        />
      </label>
      <div ref={list}>
        {found.map(({ title, checks }) => (
          <section key={title}>
            <h3>{title}</h3>
            <ul className="check-list">
              {checks.map((check) => (
                <li key={check.id}>
                  <button type="button" data-check={check.id} onClick={() => onOpen(check.id)}>
                    <span className="check-list-title">{check.title}</span>
                    <span className="check-standing" data-standing={standingKind(tallies?.[check.id])}>
                      {standingWords(tallies?.[check.id])}
                    </span>
                  </button>
                </li>
              ))}
            </ul>
          </section>
        ))}
        <p role="status" className="check-none">
          {found.length === 0 ? `No check is about “${search}”.` : ""}
        </p>
      </div>
    </>
  );
}
